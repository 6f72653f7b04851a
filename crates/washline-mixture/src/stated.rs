//! From what is stated per 100 ml, as on a label, to masses.

use crate::composition::Composition;
use crate::constants::ETHANOL_G_PER_ML;
use crate::held::held;

/// What a label or a table states of 100 ml at 20 °C.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stated {
    /// Strength, percent by volume.
    pub abv: f64,
    /// Sugar, g.
    pub sugar: f64,
    /// Titratable acid as citric, g.
    pub acid: f64,
    /// Fat, g.
    pub fat: f64,
    /// Protein, g.
    pub protein: f64,
    /// Salt, g.
    pub salt: f64,
    /// Other dissolved solids, g.
    pub other: f64,
    /// Density, g/ml, where it was measured.
    pub density: Option<f64>,
}

/// The masses in 100 ml. Water is what closes the volume; where a density is stated, what
/// closes the mass. A statement that leaves no room for water has none.
#[must_use]
pub fn per_100_ml(stated: &Stated) -> Composition {
    let dry = dry(stated);
    match stated.density {
        Some(density) => {
            let water = 100.0 * held(density, 0.0, 10.0) - dry.mass();
            Composition { water: water.max(0.0), ..dry }
        }
        None => closed(dry),
    }
}

fn dry(stated: &Stated) -> Composition {
    // Nothing weighs more than 1 kg in 100 ml.
    let grams = |x| held(x, 0.0, 1000.0);
    Composition {
        water: 0.0,
        ethanol: held(stated.abv, 0.0, 100.0) * ETHANOL_G_PER_ML,
        sugar: grams(stated.sugar),
        acid: grams(stated.acid),
        fat: grams(stated.fat),
        protein: grams(stated.protein),
        salt: grams(stated.salt),
        other: grams(stated.other),
    }
}

/// `dry` with the water that makes it 100 ml. A gram of water adds very nearly a
/// millilitre whatever it joins, so the missing volume is a step that shrinks the error
/// some tenfold each time.
fn closed(dry: Composition) -> Composition {
    let mut c = dry;
    for _ in 0..12 {
        let missing = 100.0 - c.volume_ml();
        c.water = (c.water + missing).max(0.0);
        if missing.abs() < 1e-10 {
            break;
        }
    }
    c
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    /// 40 % vol is 33.30 % by mass at 948.05 kg/m3: OIML R 22:1975.
    #[test]
    fn a_spirit_is_its_strength_and_water() {
        let spirit = per_100_ml(&Stated { abv: 40.0, ..Stated::default() });
        close(spirit.volume_ml(), 100.0, 1e-8);
        close(spirit.abv_percent(), 40.0, 1e-8);
        close(spirit.density(), 0.948_05, 0.000_02);
        close(spirit.ethanol, 31.569, 0.001);
    }

    #[test]
    fn what_was_stated_reads_back() {
        for abv in [0.0, 5.0, 17.0, 24.0, 40.0, 70.0] {
            for sugar in [0.0, 5.0, 30.0, 45.0] {
                let stated = Stated { abv, sugar, acid: 0.6, salt: 0.2, ..Stated::default() };
                let c = per_100_ml(&stated);
                if c.water == 0.0 {
                    continue;
                }
                close(c.volume_ml(), 100.0, 1e-7);
                close(c.abv_percent(), abv, 1e-7);
                close(c.sugar_g_per_100ml(), sugar, 1e-7);
                close(c.acid_g_per_100ml(), 0.6, 1e-7);
            }
        }
    }

    /// 1:1 syrup: 61.48 g in 100 ml at 1229.65 kg/m3 is as much water (ICUMSA SPS-4).
    #[test]
    fn a_syrup_closes_on_its_water() {
        let closed = per_100_ml(&Stated { sugar: 61.48, ..Stated::default() });
        close(closed.water, 61.48, 0.01);
        let weighed =
            per_100_ml(&Stated { sugar: 61.48, density: Some(1.229_65), ..Stated::default() });
        close(weighed.water, 61.485, 0.001);
    }

    #[test]
    fn no_statement_makes_anything_but_numbers() {
        for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -40.0, 1e300] {
            for density in [None, Some(x)] {
                let c =
                    per_100_ml(&Stated { abv: x, sugar: x, acid: x, density, ..Stated::default() });
                assert!(c.mass().is_finite() && c.water >= 0.0, "{c:?}");
            }
        }
    }
}
