//! What the lines of an entry say: the typed views.
//!
//! Every span counts bytes from the start of its entry. What needs to know an
//! ingredient (where a name ends, which trailing noun is a unit) is left raw for
//! the book.

use washline_measure::{Exact, Measure};
use washline_text::{Edit, Span};

use crate::{Key, Technique};

/// What a heading opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EntryKind {
    /// Lines before the first heading.
    Lead,
    /// `book:`
    Book,
    /// `section:`
    Section,
    /// `drink:`
    Drink,
    /// `prep:`
    Prep,
    /// `stock:`
    Stock,
}

/// One line of an entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The whole line without its line end.
    pub span: Span,
    /// What it says, without white space around and without a trailing comment.
    pub content: Span,
    /// The trailing comment or the comment line, from its `#`.
    pub comment: Option<Span>,
    /// What it is.
    pub what: LineKind,
}

impl Line {
    /// The line `at` of `lines` with the end of line that goes when it is taken out: its own, or
    /// for the last of a text the one before it.
    #[must_use]
    pub fn with_end(lines: &[Self], at: usize) -> Option<Span> {
        let line = lines.get(at)?.span;
        let before = at.checked_sub(1).and_then(|at| lines.get(at));
        Some(match (lines.get(at + 1), before) {
            (Some(next), _) => Span::new(line.start, next.span.start),
            (None, Some(before)) => Span::new(before.span.end, line.end),
            (None, None) => line,
        })
    }
}

/// What a line is.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKind {
    /// Only white space.
    Blank,
    /// Only a comment.
    Comment,
    /// The heading; always the first line of its entry, save in the lead.
    Heading(Heading),
    /// `key: value`, the key known or not.
    Field(Box<Field>),
    /// Something that goes in.
    Ingredient(Box<Ingredient>),
    /// Something that is done.
    Step(Box<Step>),
    /// Anything else; a problem says why.
    Unread,
}

/// `drink: Quarry Lane`
#[derive(Clone, Debug, PartialEq)]
pub struct Heading {
    /// What it opens.
    pub kind: EntryKind,
    /// The key without its colon.
    pub key: Span,
    /// The name; empty where none is given.
    pub name: Span,
}

/// `glass: coupe, chilled`
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// The key; none for one that nobody knows.
    pub key: Option<Key>,
    /// The key as written, without its colon.
    pub key_span: Span,
    /// The value as written, trimmed.
    pub value_span: Span,
    /// The value as read.
    pub value: Value,
}

/// A field's value.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Empty, or not of the key's form; a problem says so.
    Bad,
    /// Free text.
    Text,
    /// `none`, as a statement.
    None,
    /// Words separated by commas.
    Terms(Vec<Span>),
    /// Per cent (of volume, of mass: as the key says); `g/l` and `g/100 ml` are g/100 ml.
    Number(Exact),
    /// How many, or from how many to how many.
    Count(washline_measure::Quantity),
    /// An amount, and the same again in brackets.
    Amount(Measure, Option<Measure>),
    /// A vessel or glass by name, its capacity where stated, and words about it.
    Vessel {
        /// Its name, capacity left out.
        name: Span,
        /// The capacity.
        capacity: Option<Measure>,
        /// `chilled`, `frozen`, `small`, `salted`.
        words: Vec<Span>,
    },
    /// `12 x 330 ml`: how many in a case, and each one's size.
    Pack {
        /// How many.
        count: u32,
        /// The size of one.
        each: Measure,
    },
    /// A price.
    Money {
        /// How much.
        amount: Exact,
        /// The currency as written: an ISO 4217 code or a sign.
        currency: Span,
    },
    /// How long, and where.
    Keeps {
        /// Hours; of a range the longer.
        hours: Exact,
        /// `chilled`, `frozen`, `dry`, `ambient`, `dark`.
        places: Vec<Span>,
    },
    /// Garnishes, separated by `;`.
    Garnishes(Vec<Garnish>),
    /// `RULE, RULE because REASON`
    Waive {
        /// The rules.
        rules: Vec<Span>,
        /// The reason.
        reason: Option<Span>,
    },
}

/// One garnish.
#[derive(Clone, Debug, PartialEq)]
pub struct Garnish {
    /// The whole of it.
    pub span: Span,
    /// How many.
    pub amount: Option<Measure>,
    /// Its name.
    pub name: Span,
    /// What is said of it behind commas.
    pub qualifiers: Vec<Span>,
}

/// An ingredient line.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredient {
    /// How much.
    pub amount: Amount,
    /// The amount as written, the bracketed second left out.
    pub amount_span: Span,
    /// The same amount in another unit, in brackets, wherever it stands.
    pub second: Option<Second>,
    /// Everything behind the amount, its bracket and `of`: the name and what is said of it.
    pub tail: Span,
    /// The tail up to its first separating comma, brackets at its ends left out.
    pub name: Span,
    /// What stands behind separating commas, and brackets that are no amount.
    pub qualifiers: Vec<Span>,
    /// What the line is for.
    pub role: Role,
    /// Whether the amount word stands behind the name (`soda, to top`): a hint turns it round.
    pub turned: bool,
    /// Several names that share the amount (`15 ml each lemon and lime juice`); else empty.
    pub shared: Vec<Span>,
}

/// The bracketed second measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Second {
    /// The amount.
    pub measure: Measure,
    /// The bracket with its content.
    pub span: Span,
    /// The content alone.
    pub inner: Span,
}

/// How much an ingredient line says.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// A measure, or a sum of several; never empty.
    Measures(Vec<Placed>),
    /// `top`, `rinse` … ; the size in brackets is the line's second measure.
    Word(AmountWord),
    /// `juice of 1/2 lime`: how many fruits or eggs, and which part is meant.
    PartOf(Part, Placed),
    /// `a few`, `some`, and the unit where one follows.
    Vague(Option<washline_measure::Unit>),
    /// `1/3 cognac`, a bare proportion of a liquid: an error that offers parts.
    Proportion(Exact),
}

/// A measure and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// The measure.
    pub measure: Measure,
    /// All of it.
    pub span: Span,
    /// Its number.
    pub number: Span,
    /// Its unit; empty where it has none.
    pub unit: Span,
}

/// A word that stands for an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AmountWord {
    /// Fills the glass to its wash line.
    Top,
    /// The same, said of the glass.
    Fill,
    /// Coats the glass and is poured off.
    Rinse,
    /// Lies on top.
    Float,
    /// Sprayed over.
    Mist,
    /// On the rim.
    Rim,
    /// As much as it takes.
    ToTaste,
}

/// What a line is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Goes into the vessel with the rest.
    #[default]
    Poured,
    /// Tops up (`fill` too).
    Top,
    /// Floats.
    Float,
    /// Rinses the glass.
    Rinse,
    /// On the rim.
    Rim,
    /// Sprayed.
    Mist,
    /// A garnish.
    Garnish,
    /// To taste.
    Taste,
    /// May be left out.
    Optional,
    /// Served beside.
    Side,
}

/// The part of a fruit or an egg that is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Its juice.
    Juice,
    /// Its zest.
    Zest,
    /// Its peel.
    Peel,
    /// The white.
    White,
    /// The yolk.
    Yolk,
}

/// A property that an ingredient line states.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Property {
    /// Strength, % vol.
    Abv(Exact),
    /// A bare per cent: strength of an alcohol, concentration of a solution.
    Percent(Exact),
    /// Dissolved sugar, % of mass.
    Brix(Exact),
    /// Acid, % (g/100 ml).
    Acid(Exact),
    /// Sugar, g/100 ml.
    Sugar(Exact),
    /// Fat, % of mass.
    Fat(Exact),
    /// Salt, % of mass.
    Salt(Exact),
    /// Sugar to water.
    Ratio {
        /// Parts of sugar.
        sugar: Exact,
        /// Parts of water.
        water: Exact,
        /// Whether it says `by volume`.
        by_volume: bool,
    },
    /// Served or poured hot.
    Hot,
    /// From the fridge.
    Chilled,
    /// From the freezer.
    Frozen,
    /// Clarified.
    Clarified,
    /// Pasteurised.
    Pasteurised,
    /// `contains gluten`: the words behind `contains`.
    Contains(Span),
}

/// A step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The text behind the bullet.
    pub text: Span,
    /// What is done, in order.
    pub acts: Vec<Act>,
}

/// One act of a step: a technique and its clauses.
#[derive(Clone, Debug, PartialEq)]
pub struct Act {
    /// The technique; none for a verb outside the vocabulary.
    pub technique: Option<Technique>,
    /// The one technique that a misspelt verb nearly is; none where there is a technique.
    pub meant: Option<Technique>,
    /// The verb as written.
    pub verb: Span,
    /// The whole act.
    pub span: Span,
    /// What follows the verb, clauses included: the book finds ingredients in it.
    pub object: Span,
    /// The ice it is done with.
    pub ice: Option<(Ice, Span)>,
    /// `without ice`.
    pub no_ice: bool,
    /// `for 12 s`: seconds, low and high.
    pub seconds: Option<(f64, f64)>,
    /// `to 50 C`: degrees Celsius.
    pub celsius: Option<f64>,
    /// `into the tin`.
    pub into: Option<Span>,
    /// `until even`.
    pub until: Option<Span>,
    /// A dilution that is stated (`stir to 35 ml`, `stir down 40 %`) and beats the model.
    pub stated: Option<StatedDilution>,
}

/// A dilution that a step states.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StatedDilution {
    /// Down to a volume of the drink.
    To(Measure),
    /// By a share of what was poured, per cent.
    By(Exact),
}

/// The ice a step or a field names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ice {
    /// Just `ice`.
    Plain,
    /// Cubed.
    Cubed,
    /// One large cube.
    LargeCube,
    /// A sphere.
    Sphere,
    /// A spear.
    Spear,
    /// A block.
    Block,
    /// Cracked.
    Cracked,
    /// Crushed.
    Crushed,
    /// Pebble.
    Pebble,
    /// Shaved.
    Shaved,
    /// Dry ice: a cryogen.
    Dry,
}

/// What is wrong with a line as text, found while reading it.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The rule of the notation group that it breaks.
    pub rule: &'static str,
    /// The words concerned.
    pub span: Span,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub help: String,
    /// Ways to mend it, best first.
    pub mends: Vec<Mend>,
}

/// A mend of a problem.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    /// What it does.
    pub title: String,
    /// Whether what is poured and what is meant stay unchanged.
    pub safe: bool,
    /// Its edits, spans relative to the entry, sorted.
    pub edits: Vec<Edit>,
}
