//! Glasses and what they hold.

use crate::compiled::{GLASS_NAMES, GLASSES};
use crate::{Datum, named, plural};

/// A glass, cup or bowl.
#[derive(Debug, PartialEq)]
pub struct Glass {
    /// Its name in the trade.
    pub name: &'static str,
    /// Other names.
    pub aliases: &'static [&'static str],
    /// What it holds to the brim, ml.
    pub brim: Datum,
    /// The share of the brim that it is filled to.
    pub wash_line: Datum,
    /// Whether it stands on a stem, so that a hand does not warm it.
    pub stemmed: bool,
}

/// Every glass.
#[must_use]
pub fn glasses() -> &'static [Glass] {
    &GLASSES
}

/// The glass that `folded` names, a plural turned.
#[must_use]
pub fn glass(folded: &str) -> Option<&'static Glass> {
    let exact = |name: &str| named::entry(&GLASSES, &GLASS_NAMES, name);
    exact(folded).or_else(|| plural::turned(folded).find_map(|name| exact(&name)))
}

/// Every spelling of a glass's name, folded, with its place in [`glasses`].
pub fn glass_names() -> impl Iterator<Item = (&'static str, u16)> {
    GLASS_NAMES.iter().copied()
}
