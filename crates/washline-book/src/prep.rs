//! What a prep comes to: its lines by mass, what leaves it, what was measured.

use washline_measure::Estimate;
use washline_mixture::Composition;

use crate::makeup::Part;
use crate::{Input, Makeup, Method, Read, Record, Settings};

mod leaves;
mod measured;
mod proportion;
mod used;

pub use measured::Yield;
pub use proportion::Proportion;

use leaves::Leaving;

/// What a prep makes as computed from its lines, before what was measured overrules.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Makes {
    /// Its volume, ml.
    pub ml: Estimate,
    /// Its mass, g.
    pub g: Estimate,
    /// Its parts, g.
    pub composition: Composition,
    /// Its sugar, % of mass, once the stated yield has said what was lost.
    pub brix: Estimate,
    /// Whether water boils off or may dry off: it was heated.
    pub heated: bool,
    /// Whether liquor stays in what is strained out, filtered or washed.
    pub strained: bool,
    /// Whether it can be reckoned at all: not what ferments, dries, is whipped or charged with gas.
    pub settled: bool,
}

/// A prep as composed.
#[derive(Clone, Debug)]
pub(crate) struct Composed {
    /// What one unit of it is made of.
    pub makeup: Makeup,
    /// What it makes, as computed, all of it.
    pub makes: Makes,
    /// What it makes, after what was measured overrules.
    pub finished: Composition,
    /// How all of it changes when an input grows by one standard uncertainty.
    pub shifts: Vec<(Input, Composition)>,
}

/// Composes the prep from its lines as read.
pub(crate) fn compose(
    record: &Record,
    reads: &[Read],
    method: &Method,
    settings: &Settings,
) -> Composed {
    let lines = used::lines(record, reads, method);
    let mut total = Composition::ZERO;
    let mut shifts: Vec<(Input, Composition)> = Vec::new();
    let (mut sulphites, mut quinine, mut caffeine) = (0.0, 0.0, 0.0);
    for line in &lines {
        total = total.plus(&line.composition);
        shifts.extend(line.shifts.iter().copied());
        sulphites += line.read.sulphites;
        quinine += line.read.quinine;
        caffeine += line.read.caffeine;
    }
    let leaving = Leaving::of(record, &lines, method);
    let computed = leaving.left(&total);
    let mut shifts: Vec<(Input, Composition)> = merge(shifts)
        .into_iter()
        .map(|(input, shift)| (input, leaving.left(&total.plus(&shift)).minus(&computed)))
        .collect();
    shifts.extend(leaving.doubts(&total, &computed));
    let finished = measured::overrules(computed, record, &leaving, settings);
    let mut makes = makes(computed, &shifts, &leaving, method);
    let liquid = !is_solid(&finished);
    let units = if liquid { finished.volume_ml() } else { finished.mass() };
    let a_unit = if units > 0.0 { 1.0 / units } else { 0.0 };
    let plain = finished.times(a_unit);
    let one = measured::stated(plain, record, liquid);
    let kept = leaving.liquor_kept(&total) * dissolved_kept(&finished, &computed);
    let mut makeup = Makeup {
        liquid,
        one,
        shifts: concentrate(&computed, &finished, &shifts, liquid),
        sulphites: sulphites * kept * a_unit,
        quinine: quinine * kept * a_unit,
        caffeine: caffeine * kept * a_unit,
        carbon_dioxide: 0.0,
    };
    makes.brix = brix(&plain, &makeup.shifts);
    if one != plain {
        makeup.shifts = beside_measured(record, &makeup);
    }
    if finished != computed || one != plain {
        let spread = if finished == computed { makes.ml.u } else { READ_YIELD * makes.ml.value };
        shifts = makeup.shifts.iter().map(|(input, one)| (*input, one.times(units))).collect();
        let by = share(spread, makes.ml.value);
        shifts.push((Input::Loss(record.id.0, Loss::Yield), one.times(units * by)));
    }
    Composed { makeup, makes, finished, shifts }
}

/// A jug is read to 2 %. Common practice, no source.
const READ_YIELD: f64 = 0.01;

/// What of a prep nobody knows exactly when it leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Loss {
    /// The water that boils off.
    Boiled,
    /// The liquor that strained solids and filters hold.
    Held,
    /// What a wash takes.
    Washed,
    /// How exactly the yield was read.
    Yield,
}

fn makes(
    computed: Composition,
    shifts: &[(Input, Composition)],
    leaving: &Leaving,
    method: &Method,
) -> Makes {
    let (ml, g) = (computed.volume_ml(), computed.mass());
    let (mut ml_square, mut g_square) = (0.0, 0.0);
    for (_, shift) in shifts {
        let moved = computed.plus(shift);
        ml_square += (moved.volume_ml() - ml).powi(2);
        g_square += (moved.mass() - g).powi(2);
    }
    Makes {
        ml: Estimate { value: ml, u: ml_square.sqrt() },
        g: Estimate { value: g, u: g_square.sqrt() },
        composition: computed,
        brix: Estimate::default(),
        heated: method.has(leaves::HEATED),
        strained: leaving.strained,
        settled: !method.has(leaves::UNSETTLING),
    }
}

/// Sugar of one unit, % of mass.
fn brix(one: &Composition, shifts: &[(Input, Composition)]) -> Estimate {
    let value = one.brix();
    let square: f64 = shifts.iter().map(|(_, s)| (one.plus(s).brix() - value).powi(2)).sum();
    Estimate { value, u: square.sqrt() }
}

/// How one unit changes, where all of it changes by `shifts`.
fn concentrate(
    computed: &Composition,
    finished: &Composition,
    shifts: &[(Input, Composition)],
    liquid: bool,
) -> Vec<(Input, Composition)> {
    let one = |whole: &Composition| {
        let units = if liquid { whole.volume_ml() } else { whole.mass() };
        whole.times(share(1.0, units))
    };
    let plain = one(finished);
    let lost = |after: f64, before: f64| if before > 1e-9 { after / before } else { 1.0 };
    // What a yield took away, it took of the doubt too.
    let scaled = |shift: &Composition| Composition {
        water: shift.water * lost(finished.water, computed.water),
        ethanol: shift.ethanol * lost(finished.ethanol, computed.ethanol),
        sugar: shift.sugar * lost(finished.sugar, computed.sugar),
        acid: shift.acid * lost(finished.acid, computed.acid),
        fat: shift.fat * lost(finished.fat, computed.fat),
        protein: shift.protein * lost(finished.protein, computed.protein),
        salt: shift.salt * lost(finished.salt, computed.salt),
        other: shift.other * lost(finished.other, computed.other),
    };
    let moved = |(input, shift): &(Input, Composition)| {
        (*input, one(&finished.plus(&scaled(shift))).minus(&plain))
    };
    let tells = |(_, shift): &(Input, Composition)| largest(shift) > 1e-12;
    shifts.iter().map(moved).filter(tells).collect()
}

fn largest(c: &Composition) -> f64 {
    let parts = [c.water, c.ethanol, c.sugar, c.acid, c.fat, c.protein, c.salt, c.other];
    parts.iter().fold(0.0, |most, part| most.max(part.abs()))
}

/// A refractometer and a hydrometer are read to half a unit. Common practice, no source.
const READING: f64 = 0.25;

/// What was measured has the doubt of its reading; the rest keeps its own.
fn beside_measured(record: &Record, makeup: &Makeup) -> Vec<(Input, Composition)> {
    use washline_syntax::Key;
    let says = |key: Key| record.number(key).is_some();
    let sugar = says(Key::Sugar) || says(Key::Brix);
    let ethanol = says(Key::Abv);
    let acid = says(Key::Acid);
    let rest = |shift: &Composition| Composition {
        sugar: if sugar { 0.0 } else { shift.sugar },
        ethanol: if ethanol { 0.0 } else { shift.ethanol },
        acid: if acid { 0.0 } else { shift.acid },
        // Water closes the volume: with sugar or strength measured it has nothing left to answer for.
        water: if sugar || ethanol { 0.0 } else { shift.water },
        ..*shift
    };
    let kept = makeup.shifts.iter().map(|(input, shift)| (*input, rest(shift)));
    let mut out: Vec<_> = kept.filter(|(_, shift)| largest(shift) > 1e-12).collect();
    let one = &makeup.one;
    if sugar && one.sugar > 0.0 {
        let by = one.mass() * READING / 100.0;
        let shift = Composition { sugar: by, water: -by, ..Composition::ZERO };
        out.push((Input::Stated(record.id.0, Part::Sugar), shift));
    }
    if ethanol && one.ethanol > 0.0 {
        let by = 0.789_24 * READING / 100.0;
        let shift = Composition { ethanol: by, water: -by, ..Composition::ZERO };
        out.push((Input::Stated(record.id.0, Part::Abv), shift));
    }
    out
}

/// Inputs that are one thing add before they are squared.
pub(crate) fn merge(mut shifts: Vec<(Input, Composition)>) -> Vec<(Input, Composition)> {
    shifts.sort_by_key(|(input, _)| *input);
    let mut out: Vec<(Input, Composition)> = Vec::with_capacity(shifts.len());
    for (input, shift) in shifts {
        match out.last_mut() {
            // Two doubts of one line's measuring are independent.
            Some((last, sum)) if *last == input && !matches!(input, Input::Line(..)) => {
                *sum = sum.plus(&shift);
            }
            _ => out.push((input, shift)),
        }
    }
    out
}

/// Mostly fat, sugar or solids, with hardly any water: weighed, not poured.
fn is_solid(c: &Composition) -> bool {
    let mass = c.mass();
    mass > 0.0 && c.water + c.ethanol < 0.12 * mass
}

/// The share of what is dissolved that is left after a measured yield; water alone boils off.
fn dissolved_kept(finished: &Composition, computed: &Composition) -> f64 {
    let dissolved = |c: &Composition| c.mass() - c.water;
    if dissolved(computed) > 1e-9 {
        return share(dissolved(finished), dissolved(computed)).min(1.0);
    }
    share(finished.mass(), computed.mass()).min(1.0)
}

fn share(part: f64, whole: f64) -> f64 {
    if whole > 0.0 { part / whole } else { 0.0 }
}

#[cfg(test)]
mod checks;
