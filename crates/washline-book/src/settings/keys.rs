//! What a key of `washline.toml` is: the reader checks against these tables, and the schema
//! and the reference page are written from them.

use washline_measure::{Unit, UnitKind};

use super::read;

/// One key of a `washline.toml`.
#[derive(Debug)]
pub struct Key {
    /// The key as it is written.
    pub name: &'static str,
    /// What it sets.
    pub what: &'static str,
    /// What a house gains by saying it.
    pub why: &'static str,
    /// What its value may be.
    pub holds: Holds,
    /// What holds where no file says it.
    pub unset: &'static str,
    /// Values as a file would write them.
    pub examples: &'static [&'static str],
}

/// The shape of a value, with its bounds.
#[derive(Debug)]
pub enum Holds {
    /// One of some words, in any case, blanks for hyphens.
    Word(&'static [&'static str]),
    /// One or more of some words, each once.
    Words(&'static [&'static str]),
    /// `us`, `imperial`, or the millilitres of an ounce.
    Ounce,
    /// A unit that passes.
    Unit(fn(Unit) -> bool),
    /// Words of the house's own.
    Text,
    /// Words of the house's own, one or more.
    Texts,
    /// `true` or `false`.
    Flag,
    /// A path with `/`.
    Path,
    /// A path, or several.
    Paths,
    /// A number, from and to.
    Number(f64, f64),
    /// A whole number, from and to.
    Whole(u32, u32),
    /// A number of the unit, or an amount in quotes, from and to.
    Amount(Dimension, f64, f64),
    /// An amount in millilitres, alone or with its range, from and to.
    Measure(f64, f64),
    /// Parts of sugar to one of water, as a number or a proportion, from and to.
    Proportion(f64, f64),
    /// Jiggers with their marks, ml, from and to.
    Jiggers(f64, f64),
    /// Pairs of millilitres and ounces.
    Pairs,
    /// A band: its ends lie from and to; the words that may follow a number.
    Band(&'static [&'static str], f64, f64),
    /// The name of a family.
    Family,
    /// `off`, or a severity.
    Severity,
    /// A table with these keys.
    Table(&'static [Key]),
    /// A list of tables with these keys.
    Tables(&'static [Key]),
    /// A table whose keys are names.
    Named(Names, &'static Holds),
}

/// What a number without a unit counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Millilitres.
    Volume,
    /// Grams.
    Mass,
    /// °C.
    Temperature,
    /// Per cent.
    Share,
}

/// What the keys of a table name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Names {
    /// Families of drinks, and families that the house adds.
    Families,
    /// Techniques that gain water.
    Techniques,
    /// Rules.
    Rules,
    /// Glasses, whatever the house calls them.
    Glasses,
}

impl Dimension {
    /// The unit of a number that stands alone.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Volume => "ml",
            Self::Mass => "g",
            Self::Temperature => "°C",
            Self::Share => "%",
        }
    }
}

impl Names {
    /// The placeholder for such a name.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Rules => "RULE",
            _ => "NAME",
        }
    }
}

/// The keys at the top of a `washline.toml`, in the order of the reference page.
pub fn keys() -> impl Iterator<Item = &'static Key> {
    read::KEYS.iter().map(|(key, _)| key)
}

/// Whether a unit has a fixed size, by volume or by weight.
pub(super) const fn is_fixed(unit: Unit) -> bool {
    matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary | UnitKind::Mass)
}

/// The words of `keys` of the notation.
#[expect(clippy::indexing_slicing, reason = "the compiler runs it, and refuses what is beyond")]
pub(super) const fn words<const N: usize>(keys: &[washline_syntax::Key]) -> [&'static str; N] {
    let mut words = [""; N];
    let mut at = 0;
    while at < N {
        words[at] = keys[at].word();
        at += 1;
    }
    words
}

/// The names of `keys`.
pub(super) fn names<const N: usize>(keys: &'static [Key; N]) -> [&'static str; N] {
    keys.each_ref().map(|key| key.name)
}

/// The key that a path of [`Settings::said`](super::Settings::said) sets: `limits.tin`,
/// `families.sour.acid`, `glasses.coupe` (the key of the table, where its keys are names).
#[must_use]
pub fn key(path: &str) -> Option<&'static Key> {
    let (top, rest) = path.split_once('.').unwrap_or((path, ""));
    let top = keys().find(|key| key.name == top)?;
    let last = rest.rsplit('.').next().unwrap_or(rest);
    let within = |keys: &'static [Key]| keys.iter().find(|key| key.name == last);
    match &top.holds {
        Holds::Table(keys) if !rest.is_empty() => within(keys),
        Holds::Named(_, Holds::Table(keys)) | Holds::Tables(keys) => within(keys).or(Some(top)),
        _ => Some(top),
    }
}
