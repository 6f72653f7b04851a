//! Techniques: how much water each brings, and whether it needs ice.

use crate::compiled::{TECHNIQUE_NAMES, TECHNIQUES};
use crate::{Datum, Dilution, named};

/// A technique that serves or holds a drink.
#[derive(Debug, PartialEq)]
pub struct Technique {
    /// Its name.
    pub name: &'static str,
    /// Other names.
    pub aliases: &'static [&'static str],
    /// How its water is reckoned.
    pub dilution: Dilution,
    /// The share of the poured volume that it adds as water; of [`Dilution::IceInLine`], where no ice is weighed.
    pub share: Option<Datum>,
    /// How far a drink may lie from the formula, as a share of the poured volume around 0.
    pub residual: Option<Datum>,
    /// The share of the ice put in that is still ice when it is handed over.
    pub unmelted: Option<Datum>,
    /// The ice put in where the line does not say, g.
    pub ice_g: Option<Datum>,
    /// Whether it is done with ice.
    pub needs_ice: bool,
    /// Whether it leaves the drink colder than its ingredients.
    pub chills: bool,
}

/// Every technique that has a model.
#[must_use]
pub fn techniques() -> &'static [Technique] {
    &TECHNIQUES
}

/// The technique that `folded` names.
#[must_use]
pub fn technique(folded: &str) -> Option<&'static Technique> {
    named::entry(&TECHNIQUES, &TECHNIQUE_NAMES, folded)
}
