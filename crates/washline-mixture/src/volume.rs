//! The volume of a mixture at 20 °C.
//!
//! Ethanol and water by the international alcoholometric formula; dissolved sugar as the
//! volume it adds to the water present (sucrose solutions, ICUMSA); the rest by the
//! apparent volume of a gram.

use crate::composition::Composition;
use crate::constants::{
    ACID_ML_PER_G, CRYSTAL_SUCROSE_ML_PER_G, FAT_ML_PER_G, LIQUID_BRIX, OTHER_ML_PER_G,
    PROTEIN_ML_PER_G, SALT_ML_PER_G,
};
use crate::held::share;
use crate::{ethanol, sucrose};

/// The volume of `c`, ml at 20 °C; its parts are finite numbers.
pub(crate) fn of(c: &Composition) -> f64 {
    ethanol_and_water(c.ethanol, c.water)
        + dissolved_sugar(c.sugar, c.water)
        + c.acid * ACID_ML_PER_G
        + c.fat * FAT_ML_PER_G
        + c.protein * PROTEIN_ML_PER_G
        + c.salt * SALT_ML_PER_G
        + c.other * OTHER_ML_PER_G
}

fn ethanol_and_water(ethanol: f64, water: f64) -> f64 {
    let both = ethanol + water;
    let fraction = if both.abs() > 1e-12 { ethanol / both } else { 0.0 };
    1000.0 * both / ethanol::density_just_beyond(fraction)
}

/// Sugar past what `water` holds as a liquid is crystal.
fn dissolved_sugar(sugar: f64, water: f64) -> f64 {
    const MOST_TO_WATER: f64 = LIQUID_BRIX / (100.0 - LIQUID_BRIX);
    let dissolved = sugar.min(MOST_TO_WATER * water.max(0.0));
    let solution = dissolved + water.max(0.0);
    dissolved * sucrose::apparent_ml_per_g(share(dissolved, solution))
        + (sugar - dissolved) * CRYSTAL_SUCROSE_ML_PER_G
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solution(brix: f64) -> Composition {
        sucrose::syrup(brix)
    }

    /// A syrup's volume is that of ICUMSA's density, but for the two scales of water
    /// (998.201 in OIML R 22, 998.203 kg/m3 in ICUMSA).
    #[test]
    fn syrups_have_their_own_density() {
        for brix in [0.0, 10.0, 25.0, 50.0, 60.0, 66.667, 75.0] {
            let got = solution(brix).density() * 1000.0;
            let expected = sucrose::density_kg_m3(brix / 100.0, 20.0);
            assert!((got - expected).abs() < 0.01, "{brix} Brix: {got}, {expected}");
        }
    }

    /// Grams of sugar in 100 ml of 1:1, 3:2 and 2:1 by weight, from ICUMSA SPS-4.
    #[test]
    fn syrups_by_weight_hold_their_sugar() {
        for (brix, expected) in [(50.0, 61.48), (60.0, 77.20), (200.0 / 3.0, 88.45)] {
            let got = solution(brix).sugar_g_per_100ml();
            assert!((got - expected).abs() < 0.01, "{brix} Brix: {got}, {expected}");
        }
    }

    /// Density at 10 and 20 % by mass: CRC Handbook by a public copy for citric
    /// acid; Poradnik fizykochemiczny, WNT 1974 for salt.
    #[test]
    fn acid_and_salt_have_their_own_density() {
        let citric = |percent: f64| Composition {
            acid: percent,
            water: 100.0 - percent,
            ..Composition::ZERO
        };
        assert!((citric(10.0).density() - 1.0402).abs() < 0.0005);
        assert!((citric(20.0).density() - 1.0858).abs() < 0.0005);
        let brine = Composition { salt: 4.0, water: 96.0, ..Composition::ZERO };
        assert!((brine.density() - 1.0268).abs() < 0.0005);
    }

    #[test]
    fn sugar_without_water_is_crystal() {
        let sugar = Composition { sugar: 158.7, ..Composition::ZERO };
        assert!((sugar.volume_ml() - 100.0).abs() < 1e-9);
    }

    #[test]
    fn dissolving_more_sugar_never_jumps() {
        let at = |sugar| of(&Composition { sugar, water: 10.0, ..Composition::ZERO });
        for grams in 1..80 {
            let step = at(f64::from(grams)) - at(f64::from(grams) - 1.0);
            assert!((0.60..0.67).contains(&step), "{grams} g: {step} ml");
        }
    }
}
