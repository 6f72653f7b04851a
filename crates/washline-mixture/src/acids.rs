//! Acids as grams of citric acid of the same titratable acidity.
//!
//! A factor times grams of the acid gives grams as citric. Each acid's equivalent mass is
//! its molar mass over its acidic hydrogens; of phosphoric acid's three the first two
//! count, the third is beyond any titration of a drink.

use crate::constants::{
    MOLAR_ACETIC, MOLAR_CITRIC, MOLAR_CITRIC_MONOHYDRATE, MOLAR_LACTIC, MOLAR_MALIC,
    MOLAR_PHOSPHORIC, MOLAR_TARTARIC,
};

const CITRIC_EQUIVALENT: f64 = MOLAR_CITRIC / 3.0;

/// Malic acid: two hydrogens.
pub const MALIC: f64 = CITRIC_EQUIVALENT / (MOLAR_MALIC / 2.0);
/// Tartaric acid: two hydrogens.
pub const TARTARIC: f64 = CITRIC_EQUIVALENT / (MOLAR_TARTARIC / 2.0);
/// Lactic acid: one hydrogen.
pub const LACTIC: f64 = CITRIC_EQUIVALENT / MOLAR_LACTIC;
/// Acetic acid: one hydrogen.
pub const ACETIC: f64 = CITRIC_EQUIVALENT / MOLAR_ACETIC;
/// Phosphoric acid: its first two hydrogens.
pub const PHOSPHORIC: f64 = CITRIC_EQUIVALENT / (MOLAR_PHOSPHORIC / 2.0);
/// Citric acid as its monohydrate: its crystal water left out.
pub const CITRIC_MONOHYDRATE: f64 = MOLAR_CITRIC / MOLAR_CITRIC_MONOHYDRATE;

#[cfg(test)]
mod tests {
    use super::*;

    /// Equivalent masses from IUPAC's atomic masses: citric 64.04, malic 67.05, tartaric
    /// 75.04, lactic 90.08, acetic 60.05, phosphoric 49.00; the monohydrate 210.14.
    #[test]
    fn factors_are_ratios_of_equivalent_masses() {
        for (factor, expected) in [
            (MALIC, 64.04 / 67.05),
            (TARTARIC, 64.04 / 75.04),
            (LACTIC, 64.04 / 90.08),
            (ACETIC, 64.04 / 60.05),
            (PHOSPHORIC, 64.04 / 49.00),
            (CITRIC_MONOHYDRATE, 192.12 / 210.14),
        ] {
            assert!((factor - expected).abs() < 2e-4, "{factor} is not {expected}");
        }
    }
}
