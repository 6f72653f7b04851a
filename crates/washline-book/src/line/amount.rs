//! How much an amount is, in millilitres or grams, and how well that is known.

use washline_measure::{Estimate, Measure, Unit, UnitKind};
use washline_reference::{Datum, Ingredient, Sort, bar_measure, lookup};
use washline_syntax::Property;

use crate::{Input, Settings};

use super::Lack;

/// What a house and an entry say of the sizes of their measures.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Portions<'a> {
    pub settings: &'a Settings,
    /// What one part is, ml.
    pub part: Option<f64>,
}

/// What the thing measured is.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Thing {
    pub ingredient: Option<&'static Ingredient>,
    pub liquid: bool,
    /// Millilitres of one dash, as its stock says.
    pub dash: Option<f64>,
    /// Millilitres of one pack, as its stock says.
    pub pack: Option<f64>,
}

/// A size: its value in millilitres or grams, and the inputs it hangs on, each with
/// its standard uncertainty in the same unit.
#[derive(Clone, Debug, Default)]
pub(super) struct Sized {
    pub value: f64,
    pub grams: bool,
    pub doubts: Vec<(Input, f64)>,
}

/// A jigger's tolerance: 95 % of pours lie within 5 % of the line. Common practice, no source.
const POUR: f64 = 0.025;
/// A kitchen scale's: 1 %. Common practice, no source.
const WEIGH: f64 = 0.005;
/// A carbonated lengthener's splash, ml. Common practice, no source.
const LONG_SPLASH: (f64, f64, f64) = (30.0, 15.0, 45.0);

impl Portions<'_> {
    /// How much `measure` of `thing` is.
    pub(super) fn size(&self, measure: &Measure, thing: &Thing) -> Result<Sized, Lack> {
        let one = self.one(measure.unit, measure.quantity.middle().to_f64(), thing)?;
        let number = measure.quantity.middle().to_f64();
        let own = measure.quantity.uncertainty();
        let doubts = one.doubts.iter().map(|(input, u)| (*input, u * number)).collect();
        let mut sized = Sized { value: one.value * number, grams: one.grams, doubts };
        if own > 0.0 {
            sized.doubts.push((Input::Line(0, 0), own * one.value));
        }
        let tolerance = match measure.unit.map(Unit::kind) {
            Some(UnitKind::Metric | UnitKind::Customary | UnitKind::Part) => POUR,
            Some(UnitKind::Mass) => WEIGH,
            _ => 0.0,
        };
        if tolerance > 0.0 {
            sized.doubts.push((Input::Line(0, 0), tolerance * sized.value));
        }
        Ok(sized)
    }

    /// How large one `unit` of `thing` is; `number` is how many there are.
    fn one(&self, unit: Option<Unit>, number: f64, thing: &Thing) -> Result<Sized, Lack> {
        let Some(unit) = unit else {
            let whole = self.counted(None, thing);
            return whole.map_err(|_| match number < 1.0 && thing.liquid {
                true => Lack::Proportion,
                false => Lack::Unit,
            });
        };
        match unit.kind() {
            UnitKind::Mass => {
                let grams = unit.grams().map_or(0.0, washline_measure::Exact::to_f64);
                Ok(Sized { value: grams, grams: true, doubts: Vec::new() })
            }
            UnitKind::Metric | UnitKind::Customary => self.volume(unit, thing),
            UnitKind::Bar => Ok(self.bar(unit, thing)),
            UnitKind::Part => {
                let part = self.part.ok_or(Lack::Size)?;
                Ok(Sized { value: part, ..Sized::default() })
            }
            UnitKind::Count => self.counted(Some(unit), thing),
        }
    }

    fn volume(&self, unit: Unit, thing: &Thing) -> Result<Sized, Lack> {
        let said = self.settings.bar.get(&unit);
        let exact = unit.ml(self.settings.ounce).map_or(0.0, washline_measure::Exact::to_f64);
        let ml = said.map_or(exact, |(value, _, _)| *value);
        let Some(solid) = thing.ingredient.filter(|_| !thing.liquid) else {
            return Ok(Sized { value: ml, ..Sized::default() });
        };
        if unit == Unit::Oz {
            let grams = Unit::OzWt.grams().map_or(0.0, washline_measure::Exact::to_f64);
            return Ok(Sized { value: grams, grams: true, doubts: Vec::new() });
        }
        if let Some(size) = solid.size(Some(unit)) {
            return Ok(of_datum(&size.amount, size.grams, Input::Size(solid.id, Some(unit))));
        }
        let density = solid.density.ok_or(Lack::Density)?;
        Ok(of_datum(&density, true, Input::Size(solid.id, None)).times(ml))
    }

    fn bar(&self, unit: Unit, thing: &Thing) -> Sized {
        if unit == Unit::Dash
            && let Some(dash) = thing.dash
        {
            return Sized { value: dash, ..Sized::default() };
        }
        if let Some(own) = thing.ingredient.and_then(|known| known.size(Some(unit))) {
            let id = thing.ingredient.map_or(0, |known| known.id);
            return of_datum(&own.amount, own.grams, Input::Size(id, Some(unit)));
        }
        if let Some((value, low, high)) = self.settings.bar.get(&unit) {
            let estimate = Estimate::of_range(*value, *low, *high);
            return of_estimate(estimate, false, Input::Measure(unit));
        }
        if unit == Unit::Splash && thing.ingredient.is_some_and(|known| known.sort == Sort::Soda) {
            let (value, low, high) = LONG_SPLASH;
            let estimate = Estimate::of_range(value, low, high);
            return of_estimate(estimate, false, Input::Measure(unit));
        }
        let ml = bar_measure(unit)
            .map_or_else(Sized::default, |datum| of_datum(&datum, false, Input::Measure(unit)));
        // A spoon of a powder is weighed by its bulk density.
        match thing.ingredient.filter(|_| !thing.liquid).and_then(|known| known.density) {
            Some(density) => Sized { grams: true, ..ml.times(density.value) },
            None => ml,
        }
    }

    fn counted(&self, unit: Option<Unit>, thing: &Thing) -> Result<Sized, Lack> {
        if matches!(unit, Some(Unit::Can | Unit::Bottle))
            && let Some(pack) = thing.pack
        {
            return Ok(Sized { value: pack, ..Sized::default() });
        }
        let known = thing.ingredient.ok_or(Lack::Size)?;
        let half = unit == Some(Unit::Half);
        let wanted = if half { None } else { unit };
        let whole = [Unit::Piece, Unit::Cube, Unit::Leaf, Unit::Bean, Unit::Berry, Unit::Clove];
        let size = known
            .size(wanted)
            .or_else(|| {
                let nothing_else = unit.is_none() || unit.is_some_and(|u| whole.contains(&u));
                nothing_else.then(|| known.size(None)).flatten()
            })
            .or_else(|| {
                // The noun is part of the name: one orange peel is one.
                let own = unit.is_some_and(|unit| known.name.ends_with(unit.name()));
                own.then(|| known.size(None)).flatten()
            })
            .or_else(|| {
                let any = known.sizes.iter().find(|s| s.unit.is_some_and(|u| whole.contains(&u)));
                any.filter(|_| unit.is_none() && !known.liquid)
            })
            .ok_or(Lack::Size)?;
        let one = of_datum(&size.amount, size.grams, Input::Size(known.id, wanted));
        Ok(if half { one.times(0.5) } else { one })
    }
}

impl Sized {
    fn times(mut self, factor: f64) -> Self {
        self.value *= factor;
        for (_, u) in &mut self.doubts {
            *u *= factor;
        }
        self
    }

    /// The value with all its doubts.
    pub(super) fn estimate(&self) -> Estimate {
        let square: f64 = self.doubts.iter().map(|(_, u)| u * u).sum();
        Estimate { value: self.value, u: square.sqrt() }
    }
}

fn of_datum(datum: &Datum, grams: bool, input: Input) -> Sized {
    of_estimate(datum.estimate(), grams, input)
}

fn of_estimate(estimate: Estimate, grams: bool, input: Input) -> Sized {
    let doubts = if estimate.u > 0.0 { vec![(input, estimate.u)] } else { Vec::new() };
    Sized { value: estimate.value, grams, doubts }
}

/// Grams of granulated sugar in a millilitre of it as it lies. Source: USDA SR26, NDB 19335,
/// 200 g a US cup.
const BULK_SUGAR: f64 = 0.8454;
/// Grams of water in a millilitre at 20 °C. Source: OIML R 22.
const WATER: f64 = 0.9982;

/// The Brix of a syrup of `sugar` to `water`. `ingredient` is the syrup: honey syrup
/// is made of honey, which is not all sugar.
#[must_use]
pub fn syrup_brix(property: &Property, ingredient: Option<&Ingredient>) -> Option<f64> {
    let Property::Ratio { sugar, water, by_volume } = property else { return None };
    let (mut sugar, mut water) = (sugar.to_f64(), water.to_f64());
    let base = ingredient
        .and_then(|syrup| syrup.name.split_once(' '))
        .and_then(|(first, _)| lookup(first))
        .filter(|base| base.sort == Sort::Syrup)
        .map(|base| {
            let made = crate::Makeup::of(base);
            (made.one.sugar / made.grams_a_unit(), made.grams_a_unit())
        });
    let (share, density) = base.unwrap_or((1.0, BULK_SUGAR));
    if *by_volume {
        sugar *= density;
        water *= WATER;
    }
    let whole = sugar + water;
    (whole > 0.0).then(|| 100.0 * sugar * share / whole)
}
