//! What was measured of a prep wins over what was computed.

use washline_measure::{Measure, UnitKind};
use washline_mixture::Composition;
use washline_syntax::{Key, Value};

use crate::figures::WATER_G_PER_ML;
use crate::{Record, Settings};

use super::leaves::Leaving;

/// A yield as stated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Yield {
    /// Millilitres.
    Ml(f64),
    /// Grams.
    Grams(f64),
}

impl Yield {
    /// The volume or mass that `yields:` states; of two the first. A yield in counts has neither.
    #[must_use]
    pub fn stated(record: &Record, settings: &Settings) -> Option<Self> {
        let field = record.field(Key::Yields)?;
        let Value::Amount(first, second) = &field.value else { return None };
        let of = |measure: &Measure| {
            let unit = measure.unit?;
            let number = measure.quantity.middle().to_f64();
            match unit.kind() {
                UnitKind::Mass => Some(Self::Grams(number * unit.grams()?.to_f64())),
                UnitKind::Metric | UnitKind::Customary => {
                    Some(Self::Ml(number * unit.ml(settings.ounce)?.to_f64()))
                }
                _ => None,
            }
        };
        of(first).or_else(|| second.as_ref().and_then(of))
    }

    fn of(self, c: &Composition) -> f64 {
        match self {
            Self::Ml(_) => c.volume_ml(),
            Self::Grams(_) => c.mass(),
        }
    }

    const fn value(self) -> f64 {
        match self {
            Self::Ml(value) | Self::Grams(value) => value,
        }
    }
}

/// A measured yield below the computed means water lost where it was heated open, liquor lost
/// where it was strained; where both, water as far as boiling explains it.
pub(super) fn overrules(
    computed: Composition,
    record: &Record,
    leaving: &Leaving,
    settings: &Settings,
) -> Composition {
    let Some(yields) = Yield::stated(record, settings) else { return computed };
    let (have, want) = (yields.of(&computed), yields.value());
    if have <= 0.0 || want <= 0.0 || want >= have {
        return computed;
    }
    let boils = leaving.most_boiled();
    if boils <= 0.0 {
        return computed.times(want / have);
    }
    let most = if leaving.strained { boils * computed.water } else { computed.water };
    let dried = without_water(&computed, yields, most);
    let left = yields.of(&dried);
    if left > want { dried.times(want / left) } else { dried }
}

/// Water taken out until the volume or the mass is the measured one, at most `most` grams.
fn without_water(computed: &Composition, yields: Yield, most: f64) -> Composition {
    let want = yields.value();
    let mut lost = (yields.of(computed) - want) * WATER_G_PER_ML;
    let mut result = *computed;
    for _ in 0..8 {
        lost = lost.clamp(0.0, most);
        result = Composition { water: (computed.water - lost).max(0.0), ..*computed };
        let over = yields.of(&result) - want;
        if over.abs() < 1e-6 {
            break;
        }
        lost += over * WATER_G_PER_ML;
    }
    result
}

/// One unit with the properties that the entry states.
pub(super) fn stated(one: Composition, record: &Record, liquid: bool) -> Composition {
    let mut out = one;
    if !liquid {
        return out;
    }
    if let Some(abv) = record.number(Key::Abv) {
        out.ethanol = abv / 100.0 * 0.789_24;
    }
    if let Some(sugar) = record.number(Key::Sugar) {
        out.sugar = sugar / 100.0;
    }
    if let Some(acid) = record.number(Key::Acid) {
        out.acid = acid / 100.0;
    }
    let changed = out != one;
    if let Some(brix) = record.number(Key::Brix) {
        let dry = out.mass() - out.sugar - out.water;
        // Sugar and water share what the rest leaves of a millilitre, in the measured proportion.
        let mut mass = out.mass();
        for _ in 0..12 {
            out.sugar = brix / 100.0 * mass;
            out.water = (mass - dry - out.sugar).max(0.0);
            let volume = out.volume_ml();
            if volume <= 0.0 {
                break;
            }
            mass /= volume;
        }
    } else if changed {
        close(&mut out);
    }
    if let Some(salt) = record.number(Key::Salt) {
        out.salt = salt / 100.0 * out.mass();
        close(&mut out);
    }
    if let Some(density) = record.number(Key::Density) {
        let rest = out.mass() - out.water;
        out.water = (density - rest).max(0.0);
    }
    out
}

/// Water closes the volume to one millilitre.
fn close(out: &mut Composition) {
    for _ in 0..8 {
        let over = out.volume_ml() - 1.0;
        out.water = (out.water - over * WATER_G_PER_ML).max(0.0);
        if over.abs() < 1e-9 {
            break;
        }
    }
}
