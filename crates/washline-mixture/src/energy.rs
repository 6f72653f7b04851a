//! Nutrition energy by the factors of Regulation (EU) No 1169/2011, Annex XIV.

use crate::composition::Composition;
use crate::constants::{
    ENERGY_ACID, ENERGY_CARBOHYDRATE, ENERGY_ETHANOL, ENERGY_FAT, ENERGY_PROTEIN,
};

impl Composition {
    /// Energy in kcal. Other solids, unknown to the figures, count for none.
    #[must_use]
    pub fn energy_kcal(&self) -> f64 {
        self.energy(|factor| factor.0)
    }

    /// Energy in kJ, by the kJ factors: not the kcal times 4.184.
    #[must_use]
    pub fn energy_kj(&self) -> f64 {
        self.energy(|factor| factor.1)
    }

    fn energy(&self, of: impl Fn((f64, f64)) -> f64) -> f64 {
        let c = self.sane();
        c.ethanol * of(ENERGY_ETHANOL)
            + c.sugar * of(ENERGY_CARBOHYDRATE)
            + c.protein * of(ENERGY_PROTEIN)
            + c.fat * of(ENERGY_FAT)
            + c.acid * of(ENERGY_ACID)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Regulation (EU) No 1169/2011, Annex XIV: carbohydrate 4 and 17, protein 4 and 17,
    /// fat 9 and 37, alcohol 7 and 29, organic acid 3 and 13.
    #[test]
    fn each_gram_by_its_own_factor() {
        let one = Composition::ZERO;
        for (gram, kcal, kj) in [
            (Composition { sugar: 1.0, ..one }, 4.0, 17.0),
            (Composition { protein: 1.0, ..one }, 4.0, 17.0),
            (Composition { fat: 1.0, ..one }, 9.0, 37.0),
            (Composition { ethanol: 1.0, ..one }, 7.0, 29.0),
            (Composition { acid: 1.0, ..one }, 3.0, 13.0),
            (Composition { water: 1.0, ..one }, 0.0, 0.0),
        ] {
            assert_eq!((gram.energy_kcal(), gram.energy_kj()), (kcal, kj), "{gram:?}");
        }
    }
}
