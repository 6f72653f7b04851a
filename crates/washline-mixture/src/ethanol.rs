//! Ethanol and water: density, strength, heat capacity.

use crate::coefficients::{HEAT_CAPACITY, OIML_A, OIML_B, OIML_C, polynomial};
use crate::constants::ETHANOL_G_PER_ML;
use crate::held::held;

/// Density in kg/m3 of a mixture with mass fraction `p` of ethanol at `t` °C, by the full
/// formula of OIML R 22, valid from -20 to 40 °C and held at its ends beyond.
#[must_use]
pub fn density_kg_m3(p: f64, t: f64) -> f64 {
    let p = held(p, 0.0, 1.0);
    let dt = held(t, -20.0, 40.0) - 20.0;
    let water = dt * polynomial(&OIML_B, dt);
    let mixed = OIML_C.iter().rev().fold(0.0, |sum, row| (sum + polynomial(row, p)) * dt);
    density_20(p) + water + p * mixed
}

/// Density in kg/m3 at 20 °C: the first twelve terms of the same formula.
#[must_use]
pub fn density_20(p: f64) -> f64 {
    polynomial(&OIML_A, held(p, 0.0, 1.0))
}

/// As [`density_20`], carried on smoothly a little past pure water and pure ethanol, so
/// that a slope taken at either is the true slope.
pub(crate) fn density_just_beyond(p: f64) -> f64 {
    polynomial(&OIML_A, held(p, -0.02, 1.02))
}

/// Mass fraction of ethanol in a mixture of `percent` by volume at 20 °C.
#[must_use]
pub fn mass_fraction_of_abv(percent: f64) -> f64 {
    let q = held(percent, 0.0, 100.0) / 100.0;
    // Newton from a start within 0.02: four steps reach the last digit.
    let mut p = 0.8 * q / (1.0 - 0.2 * q);
    for _ in 0..4 {
        let (volume, slope) = volume_fraction(p);
        p = held(p - (volume - q) / slope, 0.0, 1.0);
    }
    p
}

/// Strength in percent by volume at 20 °C of a mixture with mass fraction `p` of ethanol.
#[must_use]
pub fn abv_of_mass_fraction(p: f64) -> f64 {
    (100.0 * volume_fraction(held(p, 0.0, 1.0)).0).min(100.0)
}

/// Heat capacity in kJ/(kg K) of a mixture with mass fraction `p` of ethanol at `t` °C,
/// linear between the table's rows; `t` is held within -20..40.
#[must_use]
pub fn heat_capacity(p: f64, t: f64) -> f64 {
    let p = held(p, 0.0, 1.0);
    let dt = held(t, -20.0, 40.0) - 5.0;
    let at = |row: &(f64, f64, f64)| row.1 + row.2 * dt;
    HEAT_CAPACITY
        .iter()
        .zip(HEAT_CAPACITY.iter().skip(1))
        .find(|(_, high)| p <= high.0)
        .map_or(0.0, |(low, high)| at(low) + (at(high) - at(low)) * (p - low.0) / (high.0 - low.0))
}

/// Volume of ethanol to volume of the whole, and its slope by the mass fraction.
fn volume_fraction(p: f64) -> (f64, f64) {
    let (mut density, mut slope) = (0.0, 0.0);
    for a in OIML_A.iter().rev() {
        slope = slope * p + density;
        density = density * p + a;
    }
    let ethanol = 1000.0 * ETHANOL_G_PER_ML;
    (p * density / ethanol, (density + p * slope) / ethanol)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    /// Published validation points of OIML R 22 and of USP 29's alcoholometric table.
    #[test]
    fn density_by_mass_and_temperature() {
        for (p, t, expected) in [
            (0.0, 20.0, 998.201_23),
            (1.0, 20.0, 789.239_123_3),
            (0.0, 0.0, 999.836_933_2),
            (1.0, 0.0, 806.215_120_6),
            (0.5, 20.0, 913.770_595),
            (0.73, 15.5, 864.248_630_6),
        ] {
            close(density_kg_m3(p, t), expected, 1e-5);
        }
        close(density_kg_m3(0.30, 0.0), 965.63, 0.4); // CoolProp 8.0.0, Melinder
    }

    /// OIML R 22:1975, table of densities at 20 °C by mass: p, kg/m3, % vol.
    #[test]
    fn density_and_strength_by_mass() {
        for (p, density, abv) in [
            (0.005, 997.246, 0.6318),
            (0.010, 996.309, 1.2624),
            (0.015, 995.389, 1.8918),
            (0.120, 979.096, 14.8867),
            (0.245, 962.366, 29.8743),
            (0.370, 941.107, 44.1197),
            (0.495, 914.878, 57.3799),
            (0.620, 886.460, 69.6374),
            (0.745, 856.808, 80.8782),
            (0.870, 825.750, 91.0247),
            (0.995, 790.802, 99.6971),
        ] {
            close(density_20(p), density, 0.02);
            close(abv_of_mass_fraction(p), abv, 0.002);
            close(mass_fraction_of_abv(abv), p, 2e-5);
        }
    }

    /// OIML R 22:1975, inverted: % vol, mass fraction, kg/m3.
    #[test]
    fn mass_and_density_by_strength() {
        for (abv, p, density) in [
            (11.5, 0.092_338, 982.935),
            (24.0, 0.195_434, 969.213),
            (36.5, 0.302_145, 953.425),
            (49.0, 0.414_904, 932.088),
            (61.5, 0.535_896, 905.739),
            (74.0, 0.667_163, 875.404),
            (86.5, 0.812_429, 840.310),
            (99.0, 0.983_753, 794.251),
        ] {
            close(mass_fraction_of_abv(abv), p, 1e-6);
            close(density_20(mass_fraction_of_abv(abv)), density, 0.02);
        }
    }

    /// A few points of the CRC Handbook, 102nd ed. (2021), an independent table.
    #[test]
    fn density_by_another_table() {
        close(density_20(0.12), 979.2, 0.3);
        close(density_20(0.62), 886.5, 0.3);
    }

    /// CoolProp 8.0.0, `INCOMP::MEA` and `Ethanol`.
    #[test]
    fn heat_capacity_within_two_percent() {
        for (p, t, expected) in [
            (0.00, 0.0, 4.2171),
            (0.00, 20.0, 4.1683),
            (0.05, 10.0, 4.2857),
            (0.15, -5.0, 4.4307),
            (0.25, -5.0, 4.2770),
            (0.25, 15.0, 4.2860),
            (0.35, 0.0, 4.0293),
            (0.45, 20.0, 3.9286),
            (0.55, -5.0, 3.4359),
            (0.60, 20.0, 3.5508),
            (1.00, 20.0, 2.3960),
        ] {
            close(heat_capacity(p, t), expected, 0.02 * expected);
        }
    }

    #[test]
    fn strength_and_mass_are_each_other_undone() {
        for percent in 0..=100 {
            let percent = f64::from(percent);
            close(abv_of_mass_fraction(mass_fraction_of_abv(percent)), percent, 1e-6);
        }
    }

    #[test]
    fn the_ends_hold_for_anything() {
        for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -5.0, 1e300] {
            for y in [
                density_20(x),
                density_kg_m3(x, x),
                mass_fraction_of_abv(x),
                abv_of_mass_fraction(x),
                heat_capacity(x, x),
            ] {
                assert!(y.is_finite(), "{y} of {x}");
            }
        }
    }
}
