//! Sucrose and water: density, solubility, syrups.

use crate::coefficients::{ICUMSA, ICUMSA_WATER, SUCROSE_SOLUBILITY, polynomial};
use crate::composition::Composition;
use crate::held::held;

/// Density in kg/m3 of a solution with mass fraction `w` of sucrose at `t` °C, by ICUMSA
/// SPS-4, valid from 0 to 100 °C and held at its ends beyond.
#[must_use]
pub fn density_kg_m3(w: f64, t: f64) -> f64 {
    let w = held(w, 0.0, 1.0);
    let t = held(t, 0.0, 100.0);
    let tau = (t - 20.0) / 100.0;
    let sugar = ICUMSA.iter().rev().fold(0.0, |sum, row| sum * tau + polynomial(row, w));
    water_kg_m3(t) + w * sugar
}

/// What water holds at `t` °C, percent by mass.
#[must_use]
pub fn solubility_percent(t: f64) -> f64 {
    polynomial(&SUCROSE_SOLUBILITY, held(t, 0.0, 100.0))
}

/// A hundred grams of a syrup of `brix_percent`.
#[must_use]
pub fn syrup(brix_percent: f64) -> Composition {
    let sugar = held(brix_percent, 0.0, 100.0);
    Composition { sugar, water: 100.0 - sugar, ..Composition::ZERO }
}

/// What a gram of sucrose adds to the volume of its water at 20 °C, ml, in a solution of
/// mass fraction `w`: the solution's volume less the water's, over the sugar.
pub(crate) fn apparent_ml_per_g(w: f64) -> f64 {
    const WATER: f64 = 998.203_1;
    let w = held(w, -0.02, 1.0);
    let excess = ICUMSA.first().map_or(0.0, |row| polynomial(row, w));
    1000.0 * (WATER - (1.0 - w) * excess) / (WATER * (WATER + w * excess))
}

fn water_kg_m3(t: f64) -> f64 {
    polynomial(&ICUMSA_WATER.0, t) / (1.0 + ICUMSA_WATER.1 * t)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    /// ICUMSA SPS-4 by its own table at 20 °C.
    #[test]
    fn density_by_brix() {
        for (brix, expected) in [
            (0.0, 998.203),
            (0.5, 1000.132),
            (5.5, 1019.804),
            (13.0, 1050.653),
            (25.0, 1103.591),
            (37.0, 1161.299),
            (49.0, 1224.170),
            (50.0, 1229.65),
            (60.0, 1286.61),
            (61.0, 1292.522),
            (66.667, 1326.75),
            (73.0, 1366.496),
        ] {
            close(density_kg_m3(brix / 100.0, 20.0), expected, 0.05);
        }
    }

    /// A few points of the CRC Handbook, an independent table.
    #[test]
    fn density_by_another_table() {
        close(density_kg_m3(0.005, 20.0), 1000.2, 0.35);
        close(density_kg_m3(0.055, 20.0), 1019.8, 0.35);
        close(density_kg_m3(0.13, 20.0), 1050.7, 0.35);
    }

    /// Bubnik & Kadlec 1995: 66.72 at 20 °C, 64.80 at 4 °C; an older handbook has 67.09
    /// at 20 °C. So 2:1 by weight stands at the limit, and beyond it when chilled.
    #[test]
    fn solubility() {
        close(solubility_percent(20.0), 66.72, 0.01);
        close(solubility_percent(4.0), 64.80, 0.01);
        close(solubility_percent(20.0), 67.09, 0.4);
        assert!(solubility_percent(4.0) < 200.0 / 3.0);
    }

    /// IAPWS-95: water at 20 and 0 °C, kg/m3.
    #[test]
    fn without_sugar_it_is_water() {
        close(density_kg_m3(0.0, 20.0), 998.2072, 0.01);
        close(density_kg_m3(0.0, 0.0), 999.8431, 0.01);
    }

    #[test]
    fn the_ends_hold_for_anything() {
        for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -5.0, 1e300] {
            assert!(density_kg_m3(x, x).is_finite());
            assert!(solubility_percent(x).is_finite());
            assert!(syrup(x).density().is_finite());
        }
    }
}
