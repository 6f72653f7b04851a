//! What a syrup is weighed out at: what sweetens it to what thins it.

use washline_reference::Sort;

use crate::{Read, Record};

/// Parts of what sweetens to one of what thins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proportion {
    /// By weight.
    pub by_weight: f64,
    /// By volume, dry sugar as it lies; none where its bulk density is not known.
    pub by_volume: Option<f64>,
}

/// The least share of what sweetens that makes a syrup: 1:2 has a third. Common practice, no source.
const SYRUP: f64 = 0.3;

impl Record {
    /// The proportion at which its lines are weighed out, as far as it is a syrup.
    #[must_use]
    pub fn proportion(&self) -> Option<Proportion> {
        let counted = || self.reads.iter().filter(|read| read.counted);
        let sweet = || counted().filter(|read| read.sweetens());
        let thin = || counted().filter(|read| thins(read));
        let grams = |read: &Read| read.g.map(|g| g.value);
        let whole: f64 = counted().filter_map(grams).sum();
        let sugar: f64 = sweet().map(grams).sum::<Option<f64>>()?;
        let water: f64 = thin().map(grams).sum::<Option<f64>>()?;
        if sugar <= 0.0 || water <= 0.0 || sugar < SYRUP * whole {
            return None;
        }
        let sugar_ml = sweet().map(bulk_ml).sum::<Option<f64>>();
        let water_ml = thin().map(bulk_ml).sum::<Option<f64>>().filter(|ml| *ml > 0.0);
        let by_volume = sugar_ml.zip(water_ml).map(|(sugar, water)| sugar / water);
        Some(Proportion { by_weight: sugar / water, by_volume })
    }
}

impl Read {
    /// Whether it is sugar, or liquid sugar that is thinned with water.
    #[must_use]
    pub fn sweetens(&self) -> bool {
        let thick = self.composition.sugar > 0.55 * self.composition.mass();
        thick && !self.sort_is(&[Sort::Liqueur, Sort::Fruit])
    }
}

fn thins(read: &Read) -> bool {
    let liquid = read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid);
    liquid && !read.sweetens() || read.water
}

/// The volume of a line, ml; of a dry solid as it lies.
fn bulk_ml(read: &Read) -> Option<f64> {
    if read.unit_makeup.as_ref()?.liquid {
        return read.ml.map(|ml| ml.value);
    }
    Some(read.g?.value / read.ingredient()?.density?.value)
}
