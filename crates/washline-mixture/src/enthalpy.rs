//! The heat a liquid holds.
//!
//! Counted from its pure parts at 25 °C: the heat that ethanol and water give off on mixing
//! there (Larkin 1975), plus the liquid's heat capacity from there to its temperature. So
//! the heat of dilution at any temperature follows from the two, and no formula is used
//! outside the range it was measured in. The heat of dissolving sugar and acid is left out:
//! they arrive dissolved, and their heat of dilution is small.

use crate::coefficients::EXCESS_ENTHALPY;
use crate::composition::Composition;
use crate::constants::{
    FAT_AND_PROTEIN_KJ_PER_G_K, ICE_KJ_PER_G_K, ICE_LATENT_KJ_PER_G, MOLAR_ETHANOL, MOLAR_WATER,
    SOLIDS_KJ_PER_G_K, SUGAR_KJ_PER_G_K,
};
use crate::ethanol;
use crate::held::share;

/// Where heat is counted from, °C.
pub(crate) const DATUM_C: f64 = 25.0;

/// The heat of `liquid` at `t` °C, kJ.
pub(crate) fn of_liquid(liquid: &Composition, t: f64) -> f64 {
    // Heat capacity is all but linear in t: its value halfway is its mean.
    let mean = heat_capacity(liquid, f64::midpoint(t, DATUM_C));
    heat_of_mixing(liquid.ethanol, liquid.water) + mean * (t - DATUM_C)
}

/// The heat of `grams` of ice at `t` °C, not above 0, kJ.
pub(crate) fn of_ice(grams: f64, t: f64) -> f64 {
    let as_water = of_liquid(&Composition::water(grams), 0.0);
    as_water + grams * (ICE_KJ_PER_G_K * t.min(0.0) - ICE_LATENT_KJ_PER_G)
}

/// The heat capacity of `liquid` at `t` °C, kJ/K.
pub(crate) fn heat_capacity(liquid: &Composition, t: f64) -> f64 {
    let both = liquid.ethanol + liquid.water;
    let p = share(liquid.ethanol, both);
    let sugar = SUGAR_KJ_PER_G_K.0 + SUGAR_KJ_PER_G_K.1 * t;
    both * ethanol::heat_capacity(p, t) / 1000.0
        + liquid.sugar * sugar
        + (liquid.fat + liquid.protein) * FAT_AND_PROTEIN_KJ_PER_G_K
        + (liquid.acid + liquid.salt + liquid.other) * SOLIDS_KJ_PER_G_K
}

/// The heat ethanol and water take up on mixing at 25 °C, kJ: below zero, they warm.
fn heat_of_mixing(ethanol: f64, water: f64) -> f64 {
    let (ethanol, water) = (ethanol / MOLAR_ETHANOL, water / MOLAR_WATER);
    let moles = ethanol + water;
    let x = share(ethanol, moles);
    let [a0, a1, a2, a3, a4] = EXCESS_ENTHALPY;
    let root = x.sqrt();
    let sum = a0 + root * (a1 + x * (a2 + x * (a3 + x * x * a4)));
    moles * x * (1.0 - x) * sum / 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    fn mole_of(x: f64) -> Composition {
        Composition {
            ethanol: x * MOLAR_ETHANOL,
            water: (1.0 - x) * MOLAR_WATER,
            ..Composition::ZERO
        }
    }

    /// Deepest, some -0.8 kJ/mol, near a mole in seven: physical chemistry handbooks, from
    /// memory.
    #[test]
    fn mixing_warms_most_near_a_mole_in_seven() {
        let at = |x| of_liquid(&mole_of(x), DATUM_C);
        close(at(0.15), -0.79, 0.04);
        assert!(at(0.05) > at(0.15) && at(0.4) > at(0.15));
        assert!(at(0.0).abs() < 1e-9 && at(1.0).abs() < 1e-9);
    }

    /// IAPWS-95: water from 0 to 20 °C takes 83.9 J/g.
    #[test]
    fn water_holds_its_heat() {
        let water = Composition::water(1000.0);
        close(of_liquid(&water, 20.0) - of_liquid(&water, 0.0), 83.9, 0.4);
    }

    /// IAPWS-95 and IAPWS-06: melting at 0 °C takes 333.43 kJ/kg; ice at -18 °C is some
    /// 36.5 kJ/kg colder (2.0967 to 1.9645 kJ/(kg K)).
    #[test]
    fn ice_holds_less() {
        let water = of_liquid(&Composition::water(1000.0), 0.0);
        close(water - of_ice(1000.0, 0.0), 333.43, 1e-9);
        close(of_ice(1000.0, 0.0) - of_ice(1000.0, -18.0), 36.5, 0.5);
    }

    /// Sucrose solutions at 20 °C, kJ/(kg K): 20 Brix 3.63, 50 Brix 2.81 (Bubnik & Kadlec
    /// 1995, from memory).
    #[test]
    fn sugar_lowers_the_heat_capacity() {
        for (brix, expected) in [(20.0, 3.63), (50.0, 2.81)] {
            let syrup = crate::sucrose::syrup(brix);
            close(10.0 * heat_capacity(&syrup, 20.0), expected, 0.08);
        }
    }
}
