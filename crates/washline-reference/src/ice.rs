//! Ice: what a piece displaces, what a packed glass has left, what water it brings.

use crate::compiled::{ICE_NAMES, ICES};
use crate::{Datum, named, plural};

/// A kind of ice.
#[derive(Debug, PartialEq)]
pub struct Ice {
    /// Its name.
    pub name: &'static str,
    /// Other names.
    pub aliases: &'static [&'static str],
    /// What one piece displaces, ml, at the size below.
    pub piece_ml: Option<Datum>,
    /// How wide that piece is, cm.
    pub across_cm: Option<Datum>,
    /// The share of a packed glass that is left for the drink.
    pub leaves: Option<Datum>,
    /// The water that clings to it, a share of its mass.
    pub clinging: Option<Datum>,
}

/// Every kind of ice.
#[must_use]
pub fn ices() -> &'static [Ice] {
    &ICES
}

/// The ice that `folded` names, a plural turned.
#[must_use]
pub fn ice(folded: &str) -> Option<&'static Ice> {
    let exact = |name: &str| named::entry(&ICES, &ICE_NAMES, name);
    exact(folded).or_else(|| plural::turned(folded).find_map(|name| exact(&name)))
}

/// Every spelling of an ice's name, folded, with its place in [`ices`].
pub fn ice_names() -> impl Iterator<Item = (&'static str, u16)> {
    ICE_NAMES.iter().copied()
}
