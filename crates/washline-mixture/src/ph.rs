//! An estimate of pH from titratable acid.
//!
//! Citric acid and some of its potassium salt in water at 25 °C, activities taken as
//! concentrations: good to about half a unit in a drink soured with lemon or lime, worse
//! with orange, wine or milk. It is never a measurement, and no safety rests on it.

use crate::constants::{BUFFER_SHARE, CITRIC_PKA, MOLAR_CITRIC};
use crate::held::held;

/// The pH of a drink with `acid_g_per_100ml` of titratable acid as citric, buffered as
/// citrus juice is.
#[must_use]
pub fn estimate(acid_g_per_100ml: f64) -> f64 {
    buffered(acid_g_per_100ml, BUFFER_SHARE)
}

/// As [`estimate`], with `buffer_share` mineral partners (potassium, mostly) for each
/// equivalent of titratable acid.
#[must_use]
pub fn buffered(acid_g_per_100ml: f64, buffer_share: f64) -> f64 {
    let titratable = held(acid_g_per_100ml, 0.0, 100.0) * 10.0 * 3.0 / MOLAR_CITRIC;
    let minerals = titratable * held(buffer_share, 0.0, 10.0);
    let citrate = (titratable + minerals) / 3.0;
    // Charges balance at one pH only, and their difference falls as pH grows.
    let (mut low, mut high) = (0.0, 14.0);
    for _ in 0..48 {
        let ph = f64::midpoint(low, high);
        if excess_charge(ph, citrate, minerals) > 0.0 {
            low = ph;
        } else {
            high = ph;
        }
    }
    f64::midpoint(low, high)
}

/// Positive less negative charge in mol/l at `ph`.
fn excess_charge(ph: f64, citrate: f64, minerals: f64) -> f64 {
    let hydrogen = 10f64.powf(-ph);
    let hydroxide = 10f64.powf(ph - 14.0);
    let [k1, k2, k3] = CITRIC_PKA.map(|pka| 10f64.powf(-pka) / hydrogen);
    let (one, two, three) = (k1, k1 * k2, k1 * k2 * k3);
    let charge = (one + 2.0 * two + 3.0 * three) / (1.0 + one + two + three);
    hydrogen + minerals - hydroxide - citrate * charge
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    /// Pure citric acid: 0.1 mol/l (1.92 %) has pH 2.1, 0.01 mol/l 2.6 (laboratory tables,
    /// from memory).
    #[test]
    fn pure_citric_acid() {
        close(buffered(1.921, 0.0), 2.1, 0.1);
        close(buffered(0.192, 0.0), 2.6, 0.1);
    }

    /// Lemon juice, some 5 to 6 % acid, has pH 2.2 to 2.6 (USDA and FDA lists of foods,
    /// from memory).
    #[test]
    fn lemon_juice() {
        close(estimate(5.5), 2.3, 0.4);
    }

    #[test]
    fn no_acid_is_neutral_and_more_is_sourer() {
        close(estimate(0.0), 7.0, 0.01);
        assert!(estimate(0.2) > estimate(0.8) && estimate(0.8) > estimate(5.0));
        for x in [f64::NAN, f64::INFINITY, -1.0, 1e300] {
            assert!((0.0..=14.0).contains(&estimate(x)));
        }
    }
}
