//! Families of drinks and the bands their figures lie in.

use crate::Source;
use crate::compiled::FAMILIES;

/// Where a figure of a family is usually found; an end that means nothing is left open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// The low end.
    pub low: Option<f64>,
    /// The high end.
    pub high: Option<f64>,
    /// Where the ends come from.
    pub source: &'static Source,
}

/// A family of drinks.
#[derive(Debug, PartialEq)]
pub struct Family {
    /// Its word in `family:`.
    pub name: &'static str,
    /// What makes a drink one of it.
    pub doc: &'static str,
    /// Whether a drink of it always reaches the guest with water from ice or a line.
    pub always_diluted: bool,
    /// Whether it needs both sugar and acid.
    pub needs_sugar_and_acid: bool,
    /// Strength of the finished drink, % vol.
    pub strength: Option<Band>,
    /// Sugar of the finished drink, g/100 ml.
    pub sugar: Option<Band>,
    /// Titratable acid as citric of the finished drink, g/100 ml.
    pub acid: Option<Band>,
    /// Sugar over acid, by mass.
    pub ratio: Option<Band>,
}

/// Every family.
#[must_use]
pub fn families() -> &'static [Family] {
    &FAMILIES
}

/// The family whose word is `folded`; a blank stands for its hyphen.
#[must_use]
pub fn family(folded: &str) -> Option<&'static Family> {
    let same = |family: &&Family| {
        let plain = |b: u8| if b == b'-' { b' ' } else { b };
        family.name.bytes().map(plain).eq(folded.bytes().map(plain))
    };
    FAMILIES.iter().find(same)
}
