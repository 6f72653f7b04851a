//! The techniques a step may name, of service and of preparation.

macro_rules! techniques {
    ($($name:ident $word:literal $($other:literal)*;)*) => {
        /// What is done in an act.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Technique { $(#[doc = $word] $name,)* }

        impl Technique {
            /// All techniques.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// Its one spelling.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$name => $word,)* }
            }

            /// The other ways it is written, folded.
            #[must_use]
            pub const fn others(self) -> &'static [&'static str] {
                match self { $(Self::$name => &[$($other),*],)* }
            }
        }
    };
}

techniques! {
    Stir "stir" "stirred" "stir down" "stir together";
    Shake "shake" "shaken" "shake and dump";
    HardShake "hard shake" "shake hard" "hard shaken" "shake very hard" "shake well" "shake vigorously";
    DryShake "dry shake" "shake dry" "dry shaken" "shake without ice" "mime shake";
    WetShake "wet shake" "shake wet";
    WhipShake "whip shake" "whip shaken" "short shake" "shake briefly" "whip";
    ReverseDryShake "reverse dry shake";
    Build "build" "built" "build in";
    Throw "throw" "thrown";
    Roll "roll" "rolled" "roll gently";
    Swizzle "swizzle" "swizzled";
    Churn "churn" "churned";
    Blend "blend" "blended" "blitz";
    FlashBlend "flash blend" "flash blended" "pulse blend" "spindle mix" "spindle blend";
    Muddle "muddle" "muddled";
    Press "press" "pressed";
    Spank "spank" "clap" "slap";
    Squeeze "squeeze";
    Strain "strain" "strained" "strain off";
    DoubleStrain "double strain" "double strained" "strain twice";
    FineStrain "fine strain" "fine strained";
    OpenPour "open pour" "dirty dump" "dump everything" "pour unstrained";
    Dump "dump" "dumped";
    Pour "pour" "poured" "decant";
    Top "top" "top up" "topped" "top off" "lengthen";
    Fill "fill" "filled" "fill up";
    Float "float" "floated";
    Layer "layer" "layered";
    Rinse "rinse" "rinsed" "coat";
    Discard "discard" "discard the rest" "throw away" "toss";
    Rim "rim" "salt the rim" "sugar the rim";
    Express "express" "spritz";
    Garnish "garnish" "garnished" "dress";
    Flame "flame" "flamed";
    Light "light" "ignite" "set alight" "set fire to" "flambe";
    Smoke "smoke" "smoked";
    Mist "mist" "spray" "atomise" "atomize";
    Dust "dust" "sprinkle";
    Grate "grate" "grated" "shave";
    Steam "steam" "steamed";
    Chill "chill" "chilled" "pre chill" "prechill";
    Add "add" "added" "put" "place" "stir in" "drop in" "drop";
    Combine "combine" "combined" "assemble";
    Mix "mix" "mixed" "stir through";
    Rest "rest" "let rest" "stand" "let stand" "leave" "leave to stand" "hold" "let sit" "sit" "wait";
    Serve "serve" "served";
    Heat "heat" "heat gently";
    Warm "warm" "warm gently" "warm through";
    Simmer "simmer" "bring to a simmer";
    Boil "boil" "bring to a boil" "bring to the boil";
    Reduce "reduce" "reduce by";
    Blanch "blanch";
    Cool "cool" "let cool" "leave to cool" "allow to cool" "cool down";
    Dissolve "dissolve" "stir to dissolve";
    Melt "melt";
    Whisk "whisk" "whisk in" "beat";
    Juice "juice";
    Peel "peel";
    ZestIt "zest";
    Toast "toast" "roast" "char" "grill";
    Grind "grind";
    Crack "crack" "crush" "bruise" "bash";
    Chop "chop" "cut" "slice" "dice" "hull" "core" "halve" "quarter" "tear" "mince";
    Soak "soak";
    Bloom "bloom";
    Infuse "infuse" "infused";
    Macerate "macerate";
    Steep "steep" "brew";
    Cook "cook" "bake";
    SousVide "sous vide" "cook sous vide";
    Ferment "ferment";
    Dry "dry" "dehydrate";
    Clarify "clarify";
    FatWash "fat wash";
    MilkWash "milk wash";
    Filter "filter" "pass" "pass through" "centrifuge" "rack";
    Skim "skim" "skim off" "lift off" "remove";
    Carbonate "carbonate" "force carbonate";
    Charge "charge";
    Purge "purge" "vent" "burp";
    Keg "keg";
    Freeze "freeze";
    Bottle "bottle" "jar" "bottle up";
    Seal "seal" "vacuum seal" "cover" "cap";
    Label "label";
    Date "date" "date it" "mark the date";
    Refrigerate "refrigerate" "fridge" "keep chilled" "store chilled" "keep cold" "chill overnight";
    SetAside "set aside" "reserve";
    AddBack "add back" "return";
    Weigh "weigh" "measure" "scale";
    Store "store" "keep";
    Wash "wash" "clean" "scrub" "sanitise" "sanitize" "sterilise" "sterilize";
    Taste "taste" "check" "adjust" "adjust to";
    Repeat "repeat";
}
