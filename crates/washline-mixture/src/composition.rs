//! What a mixture is made of, in grams, and the figures read off it.

use crate::constants::ETHANOL_G_PER_ML;
use crate::held::share;
use crate::volume;

/// Grams of each part of a mixture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Composition {
    /// Water.
    pub water: f64,
    /// Ethanol.
    pub ethanol: f64,
    /// Sugar, as sucrose.
    pub sugar: f64,
    /// Titratable acid, as citric.
    pub acid: f64,
    /// Fat.
    pub fat: f64,
    /// Protein.
    pub protein: f64,
    /// Salt.
    pub salt: f64,
    /// Other dissolved solids.
    pub other: f64,
}

/// The largest mass any part is taken for, grams: a thousand tonnes.
const MOST_G: f64 = 1e9;

impl Composition {
    /// Nothing at all.
    pub const ZERO: Self = Self {
        water: 0.0,
        ethanol: 0.0,
        sugar: 0.0,
        acid: 0.0,
        fat: 0.0,
        protein: 0.0,
        salt: 0.0,
        other: 0.0,
    };

    /// `grams` of water.
    #[must_use]
    pub const fn water(grams: f64) -> Self {
        Self { water: grams, ..Self::ZERO }
    }

    /// Both together.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        self.with(other, |a, b| a + b)
    }

    /// What is left when `other` is taken out.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Self {
        self.with(other, |a, b| a - b)
    }

    /// The same `factor` times over.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        self.map(|part| part * factor)
    }

    /// The whole, grams.
    #[must_use]
    pub fn mass(&self) -> f64 {
        let c = self.sane();
        c.water + c.ethanol + c.sugar + c.acid + c.fat + c.protein + c.salt + c.other
    }

    /// The volume at 20 °C, ml. Volumes do not add: 50 ml of ethanol and 50 ml of water
    /// make 96.46 ml.
    #[must_use]
    pub fn volume_ml(&self) -> f64 {
        volume::of(&self.sane())
    }

    /// The density at 20 °C, g/ml; 0 of nothing.
    #[must_use]
    pub fn density(&self) -> f64 {
        share(self.mass(), self.volume_ml())
    }

    /// The strength in percent by volume at 20 °C.
    #[must_use]
    pub fn abv_percent(&self) -> f64 {
        per_100(self.sane().ethanol / ETHANOL_G_PER_ML, self.volume_ml()).min(100.0)
    }

    /// Grams of sugar in 100 ml.
    #[must_use]
    pub fn sugar_g_per_100ml(&self) -> f64 {
        per_100(self.sane().sugar, self.volume_ml())
    }

    /// Grams of acid, as citric, in 100 ml.
    #[must_use]
    pub fn acid_g_per_100ml(&self) -> f64 {
        per_100(self.sane().acid, self.volume_ml())
    }

    /// Grams of salt in 100 ml.
    #[must_use]
    pub fn salt_g_per_100ml(&self) -> f64 {
        per_100(self.sane().salt, self.volume_ml())
    }

    /// Sugar in percent of the mass of the whole. A refractometer reads acid and other
    /// solids with the sugar and is misled by ethanol: this figure is neither.
    #[must_use]
    pub fn brix(&self) -> f64 {
        per_100(self.sane().sugar, self.mass())
    }

    /// Every part a finite number: not-a-number counts as nothing, the endless as much.
    pub(crate) fn sane(&self) -> Self {
        self.map(|part| if part.is_nan() { 0.0 } else { part.clamp(-MOST_G, MOST_G) })
    }

    /// As [`Self::sane`], and no part below zero: what a physical balance can work on.
    pub(crate) fn physical(&self) -> Self {
        self.sane().map(|part| part.max(0.0))
    }

    fn map(&self, f: impl Fn(f64) -> f64) -> Self {
        Self {
            water: f(self.water),
            ethanol: f(self.ethanol),
            sugar: f(self.sugar),
            acid: f(self.acid),
            fat: f(self.fat),
            protein: f(self.protein),
            salt: f(self.salt),
            other: f(self.other),
        }
    }

    fn with(&self, other: &Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            water: f(self.water, other.water),
            ethanol: f(self.ethanol, other.ethanol),
            sugar: f(self.sugar, other.sugar),
            acid: f(self.acid, other.acid),
            fat: f(self.fat, other.fat),
            protein: f(self.protein, other.protein),
            salt: f(self.salt, other.salt),
            other: f(self.other, other.other),
        }
    }
}

fn per_100(part: f64, whole: f64) -> f64 {
    100.0 * share(part, whole)
}

#[cfg(test)]
mod tests {
    use super::*;

    const AWKWARD: [f64; 8] =
        [0.0, -3.0, 1e-300, 1e300, f64::INFINITY, f64::NEG_INFINITY, f64::NAN, 40.0];

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    /// Half ethanol, half water by volume contracts to 96.46 ml: OIML R 22.
    #[test]
    fn volumes_do_not_add() {
        let half = Composition {
            water: 50.0 * 0.998_201,
            ethanol: 50.0 * ETHANOL_G_PER_ML,
            ..Composition::ZERO
        };
        close(half.volume_ml(), 96.46, 0.005);
        close(half.abv_percent(), 51.83, 0.01);
    }

    #[test]
    fn parts_add_up() {
        let one = Composition { water: 60.0, sugar: 30.0, acid: 1.0, ..Composition::ZERO };
        let two = one.times(2.0);
        assert_eq!(two.minus(&one), one);
        assert_eq!(one.plus(&one), two);
        close(two.mass(), 182.0, 1e-12);
        close(two.brix(), one.brix(), 1e-12);
        close(two.volume_ml(), 2.0 * one.volume_ml(), 1e-9);
    }

    #[test]
    fn every_figure_of_anything_is_a_number() {
        for water in AWKWARD {
            for ethanol in AWKWARD {
                for sugar in AWKWARD {
                    let c = Composition { water, ethanol, sugar, acid: sugar, ..Composition::ZERO };
                    for figure in [
                        c.mass(),
                        c.volume_ml(),
                        c.density(),
                        c.abv_percent(),
                        c.sugar_g_per_100ml(),
                        c.acid_g_per_100ml(),
                        c.salt_g_per_100ml(),
                        c.brix(),
                        c.energy_kcal(),
                        c.energy_kj(),
                    ] {
                        assert!(figure.is_finite(), "{figure} of {c:?}");
                    }
                }
            }
        }
    }
}
