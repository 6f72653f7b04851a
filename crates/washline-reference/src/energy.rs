//! Energy conversion factors for declared nutrition.

use crate::Source;
use crate::compiled::ENERGIES;

/// What a gram of something yields.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Energy {
    /// Of what: `ethanol`, `sugar`, `protein`, `fat`, `acid`.
    pub of: &'static str,
    /// kcal/g.
    pub kcal: f64,
    /// kJ/g; by its own factor, not from the kcal.
    pub kj: f64,
    /// The law.
    pub source: &'static Source,
}

/// The factors of Regulation (EU) 1169/2011, Annex XIV.
#[must_use]
pub fn energies() -> &'static [Energy] {
    &ENERGIES
}

/// The factor of `of`: `ethanol`, `sugar`, `protein`, `fat`, `acid`, `polyols`, `fibre`.
#[must_use]
pub fn energy(of: &str) -> Option<Energy> {
    ENERGIES.iter().find(|energy| energy.of == of).copied()
}
