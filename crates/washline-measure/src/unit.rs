//! Every unit, with its definition.

use crate::Exact;

/// What a unit measures, and how well it is defined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum UnitKind {
    /// Millilitres and their like: exact.
    Metric,
    /// Ounces, spoons, cups, pints: exact once the ounce is said.
    Customary,
    /// Dashes, bar spoons, splashes: as the bar pours them.
    Bar,
    /// Grams, weight ounces, pounds: exact.
    Mass,
    /// Leaves, slices, cans: what one weighs hangs on the ingredient.
    Count,
    /// A share of the drink.
    Part,
}

/// Which ounce a house means, with the spoons, cups and pints that go with it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ounce {
    /// 1/128 of the US gallon, 29.5735295625 ml.
    #[default]
    Us,
    /// 1/160 of the imperial gallon, 28.4130625 ml.
    Imperial,
    /// 30 ml, as many bars pour it; a teaspoon is 5 ml, a cup 240 ml.
    Thirty,
}

macro_rules! units {
    ($($name:ident $kind:ident $one:literal $many:literal $doc:literal;)*) => {
        /// A unit of an amount.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Unit { $(#[doc = $doc] $name,)* }

        impl Unit {
            /// All units.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// What it measures.
            #[must_use]
            pub const fn kind(self) -> UnitKind {
                match self { $(Self::$name => UnitKind::$kind,)* }
            }

            /// Its one spelling, singular.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => $one,)* }
            }

            /// Its spelling after a number above one.
            #[must_use]
            pub const fn plural(self) -> &'static str {
                match self { $(Self::$name => $many,)* }
            }
        }
    };
}

units! {
    Ml Metric "ml" "ml" "millilitre";
    Cl Metric "cl" "cl" "centilitre, 10 ml";
    Dl Metric "dl" "dl" "decilitre, 100 ml";
    L Metric "l" "l" "litre, 1000 ml";
    Oz Customary "oz" "oz" "fluid ounce; of a solid, the weight ounce";
    ImpOz Customary "imp oz" "imp oz" "imperial fluid ounce, 28.4130625 ml";
    Tsp Customary "tsp" "tsp" "teaspoon";
    Tbsp Customary "tbsp" "tbsp" "tablespoon";
    Cup Customary "cup" "cups" "cup";
    Pint Customary "pint" "pints" "pint";
    Quart Customary "quart" "quarts" "quart";
    Gallon Customary "gallon" "gallons" "gallon";
    Gill Customary "gill" "gills" "gill, a quarter of a pint";
    Dash Bar "dash" "dashes" "dash: what one shake of a bitters bottle gives";
    Drop Bar "drop" "drops" "drop";
    Dropper Bar "dropper" "droppers" "a pipette's fill";
    Spray Bar "spray" "sprays" "one press of an atomiser";
    Bsp Bar "bsp" "bsp" "bar spoon";
    Splash Bar "splash" "splashes" "splash";
    Shot Bar "shot" "shots" "shot";
    Jigger Bar "jigger" "jiggers" "jigger";
    Pony Bar "pony" "ponies" "pony";
    Wineglass Bar "wineglass" "wineglasses" "wineglass";
    Capful Bar "capful" "capfuls" "a bottle cap's fill";
    Part Part "part" "parts" "a share of the drink";
    Mg Mass "mg" "mg" "milligram";
    G Mass "g" "g" "gram";
    Kg Mass "kg" "kg" "kilogram";
    OzWt Mass "oz wt" "oz wt" "weight ounce, 28.349523125 g";
    Lb Mass "lb" "lb" "pound, 453.59237 g";
    Leaf Count "leaf" "leaves" "leaf";
    Sprig Count "sprig" "sprigs" "sprig";
    Slice Count "slice" "slices" "slice";
    Wedge Count "wedge" "wedges" "wedge";
    Wheel Count "wheel" "wheels" "wheel";
    Twist Count "twist" "twists" "twist of peel";
    Peel Count "peel" "peels" "peel";
    Zest Count "zest" "zests" "zest";
    Half Count "half" "halves" "half of one";
    Piece Count "piece" "pieces" "piece";
    Cube Count "cube" "cubes" "cube";
    Lump Count "lump" "lumps" "lump";
    Pinch Count "pinch" "pinches" "pinch";
    Clove Count "clove" "cloves" "clove";
    Stick Count "stick" "sticks" "stick";
    Bean Count "bean" "beans" "bean";
    Berry Count "berry" "berries" "berry";
    Bunch Count "bunch" "bunches" "bunch";
    Handful Count "handful" "handfuls" "handful";
    Can Count "can" "cans" "can, as large as its stock says";
    Bottle Count "bottle" "bottles" "bottle, as large as its stock says";
    Scoop Count "scoop" "scoops" "scoop";
    Knob Count "knob" "knobs" "knob";
    Strip Count "strip" "strips" "strip";
    Coil Count "coil" "coils" "coil of peel";
    Grind Count "grind" "grinds" "grind of a mill";
    Cartridge Count "cartridge" "cartridges" "gas cartridge";
    Sheet Count "sheet" "sheets" "sheet";
    Pod Count "pod" "pods" "pod";
    Head Count "head" "heads" "head";
}

macro_rules! spellings {
    ($($name:ident $($word:literal)*;)*) => {
        impl Unit {
            /// The other ways it is written, in lower case with single blanks.
            #[must_use]
            pub const fn others(self) -> &'static [&'static str] {
                match self {
                    $(Self::$name => &[$($word),*],)*
                    _ => &[],
                }
            }
        }

        /// The unit that is written so, besides its own name and plural.
        fn other(words: &str) -> Option<Unit> {
            match words {
                $($($word)|* => Some(Unit::$name),)*
                _ => None,
            }
        }
    };
}

spellings! {
    Oz "fl oz" "ounce" "ounces" "fluid ounce" "fluid ounces" "us fl oz" "us oz" "floz" "ozs";
    ImpOz "imperial oz" "imp fl oz" "imperial ounce" "imperial ounces" "imp ozs";
    Ml "mls" "millilitre" "millilitres" "milliliter" "milliliters";
    Cl "cls" "centilitre" "centilitres" "centiliter" "centiliters";
    Dl "decilitre" "decilitres" "deciliter" "deciliters";
    L "litre" "litres" "liter" "liters" "lt" "ltr";
    Tsp "teaspoon" "teaspoons" "tsps";
    Tbsp "tablespoon" "tablespoons" "tbsps" "tblsp" "tblsps" "tbs";
    Bsp "barspoon" "barspoons" "bar spoon" "bar spoons" "bsps" "bspn";
    Pint "pt" "pts";
    Quart "qt" "qts";
    Gallon "gal" "gals";
    Wineglass "wine glass" "wine glasses";
    Dropper "pipette" "pipettes";
    Mg "milligram" "milligrams";
    G "gram" "grams" "gr" "gramme" "grammes" "gms" "gm";
    Kg "kilo" "kilos" "kilogram" "kilograms" "kgs";
    OzWt "oz weight" "oz by weight" "weight ounce" "weight ounces" "wt oz";
    Lb "lbs" "pound" "pounds";
    Piece "pc" "pcs";
}

impl Unit {
    /// The unit that `words` spell, folded to lower case with single blanks:
    /// its own name, its plural, and the other ways it is written.
    #[must_use]
    pub fn from_words(words: &str) -> Option<Self> {
        let other = other(words);
        other.or_else(|| {
            Self::ALL.iter().copied().find(|u| u.name() == words || u.plural() == words)
        })
    }

    /// Its volume in millilitres where it is defined exactly. Bar measures, counts,
    /// masses and parts have none.
    ///
    /// Source: NIST Handbook 44 Appendix C (US gallon = 231 in3, 1 in = 2.54 cm);
    /// Weights and Measures Act 1985, Schedule 1 (imperial gallon = 4.54609 dm3).
    #[must_use]
    pub fn ml(self, ounce: Ounce) -> Option<Exact> {
        let metric = match self {
            Self::Ml => 1,
            Self::Cl => 10,
            Self::Dl => 100,
            Self::L => 1000,
            _ => 0,
        };
        if metric > 0 {
            return Some(Exact::whole(metric));
        }
        if self == Self::ImpOz {
            return ounce_ml(Ounce::Imperial);
        }
        let (n, d) = self.ounces(ounce)?;
        ounce_ml(ounce)?.times(Exact::ratio(n, d)?)
    }

    /// Its mass in grams; only for units of mass.
    ///
    /// Source: the international pound, 0.45359237 kg exactly (1959 agreement).
    #[must_use]
    pub fn grams(self) -> Option<Exact> {
        match self {
            Self::Mg => Exact::ratio(1, 1000),
            Self::G => Some(Exact::ONE),
            Self::Kg => Some(Exact::whole(1000)),
            Self::OzWt => Exact::ratio(28_349_523_125, 1_000_000_000),
            Self::Lb => Exact::ratio(45_359_237, 100_000),
            _ => None,
        }
    }

    /// How many fluid ounces of its own system it holds. The imperial spoons are
    /// the traditional ones (tablespoon 5/8, teaspoon 5/24 of an ounce), the
    /// imperial cup half a pint: common practice, no source.
    const fn ounces(self, ounce: Ounce) -> Option<(i64, i64)> {
        let imperial = matches!(ounce, Ounce::Imperial);
        Some(match (self, imperial) {
            (Self::Oz, _) => (1, 1),
            (Self::Tsp, false) => (1, 6),
            (Self::Tbsp, false) => (1, 2),
            (Self::Cup, false) => (8, 1),
            (Self::Pint, false) => (16, 1),
            (Self::Quart, false) => (32, 1),
            (Self::Gallon, false) => (128, 1),
            (Self::Gill, false) => (4, 1),
            (Self::Tsp, true) => (5, 24),
            (Self::Tbsp, true) => (5, 8),
            (Self::Cup, true) => (10, 1),
            (Self::Pint, true) => (20, 1),
            (Self::Quart, true) => (40, 1),
            (Self::Gallon, true) => (160, 1),
            (Self::Gill, true) => (5, 1),
            _ => return None,
        })
    }
}

fn ounce_ml(ounce: Ounce) -> Option<Exact> {
    match ounce {
        Ounce::Us => Exact::ratio(295_735_295_625, 10_000_000_000),
        Ounce::Imperial => Exact::ratio(284_130_625, 10_000_000),
        Ounce::Thirty => Some(Exact::whole(30)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ml(unit: Unit, ounce: Ounce) -> String {
        unit.ml(ounce).map(|ml| ml.to_string()).unwrap_or_default()
    }

    /// NIST Handbook 44 Appendix C; the unit library Pint 0.25.3 has the same values.
    #[test]
    fn us_measures_are_exact() {
        assert_eq!(ml(Unit::Oz, Ounce::Us), "29.5735295625");
        assert_eq!(ml(Unit::Tsp, Ounce::Us), "4.92892159375");
        assert_eq!(ml(Unit::Tbsp, Ounce::Us), "14.78676478125");
        assert_eq!(ml(Unit::Gill, Ounce::Us), "118.29411825");
        assert_eq!(ml(Unit::Cup, Ounce::Us), "236.5882365");
        assert_eq!(ml(Unit::Pint, Ounce::Us), "473.176473");
        assert_eq!(ml(Unit::Quart, Ounce::Us), "946.352946");
        assert_eq!(ml(Unit::Gallon, Ounce::Us), "3785.411784");
    }

    /// Weights and Measures Act 1985, Schedule 1.
    #[test]
    fn imperial_measures_are_exact() {
        assert_eq!(ml(Unit::Oz, Ounce::Imperial), "28.4130625");
        assert_eq!(ml(Unit::ImpOz, Ounce::Us), "28.4130625");
        assert_eq!(ml(Unit::Gill, Ounce::Imperial), "142.0653125");
        assert_eq!(ml(Unit::Pint, Ounce::Imperial), "568.26125");
        assert_eq!(ml(Unit::Quart, Ounce::Imperial), "1136.5225");
        assert_eq!(ml(Unit::Gallon, Ounce::Imperial), "4546.09");
    }

    /// 21 CFR 101.9(b)(5)(viii): teaspoon 5 ml, tablespoon 15, cup 240, fluid ounce 30.
    #[test]
    fn the_30_ml_ounce_brings_its_spoons() {
        assert_eq!(ml(Unit::Tsp, Ounce::Thirty), "5");
        assert_eq!(ml(Unit::Tbsp, Ounce::Thirty), "15");
        assert_eq!(ml(Unit::Cup, Ounce::Thirty), "240");
    }

    #[test]
    fn masses_are_exact() {
        assert_eq!(Unit::OzWt.grams().map(|g| g.to_string()).as_deref(), Some("28.349523125"));
        assert_eq!(Unit::Lb.grams().map(|g| g.to_string()).as_deref(), Some("453.59237"));
    }

    #[test]
    fn every_name_and_plural_is_read_back() {
        for unit in Unit::ALL {
            assert_eq!(Unit::from_words(unit.name()), Some(*unit));
            assert_eq!(Unit::from_words(unit.plural()), Some(*unit));
            for other in unit.others() {
                assert_eq!(Unit::from_words(other), Some(*unit));
            }
        }
        assert_eq!(Unit::from_words("fluid ounces"), Some(Unit::Oz));
        assert_eq!(Unit::from_words("t"), None);
    }
}
