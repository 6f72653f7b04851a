//! What a prep comes to: its lines by mass, what leaves it, what was measured.

use washline_measure::{Measure, UnitKind};
use washline_mixture::Composition;
use washline_reference::{Sort, Trait};
use washline_syntax::{Key, Technique, Value};

use crate::figures::WATER_G_PER_ML;
use crate::makeup::Part;
use crate::{Input, Makeup, Method, Read, Record, Settings};

/// A prep as composed.
#[derive(Clone, Debug)]
pub(crate) struct Composed {
    /// What one unit of it is made of.
    pub makeup: Makeup,
    /// What it makes, as computed, all of it.
    pub computed: Composition,
    /// What it makes, after what was measured overrules.
    pub finished: Composition,
}

/// Water lost in an open boil: 5 to 15 % of it in ten minutes. Common practice, no source.
const BOIL_LOSS_A_MINUTE: f64 = 0.01;
/// A boil whose time is not said is taken for five minutes. Common practice, no source.
const BOIL_MINUTES: f64 = 5.0;
/// What leaving solids hold where the reference does not say, g of liquor a gram of dry solid.
/// Common practice, no source.
const HELD: f64 = 0.3;
/// What butter and other fats take of the spirit they wash: 2 to 4 %. Common practice, no source.
const FAT_TAKES: f64 = 0.03;
/// Milk-washing yields 85 to 92 % pressed. Common practice, no source.
const MILK_YIELD: f64 = 0.885;

/// Composes the prep from its lines as read.
pub(crate) fn compose(
    record: &Record,
    reads: &[Read],
    method: &Method,
    settings: &Settings,
) -> Composed {
    let mut total = Composition::ZERO;
    let mut shifts: Vec<(Input, Composition)> = Vec::new();
    let mut sulphites = 0.0;
    let mut quinine = 0.0;
    let mut caffeine = 0.0;
    for read in reads.iter().filter(|read| read.counted) {
        total = total.plus(&read.composition);
        shifts.extend(read.shifts.iter().copied());
        sulphites += read.sulphites;
        quinine += read.quinine;
        caffeine += read.caffeine;
    }
    let brewed = total;
    total = boil(total, method);
    let computed = lose(total, reads, method, record);
    let finished = measured(computed, record, method, settings);
    let kept = if brewed.mass() > 0.0 { finished.mass() / brewed.mass() } else { 0.0 };
    let volume = finished.volume_ml();
    let liquid = !is_solid(&finished);
    let units = if liquid { volume } else { finished.mass() };
    let a_unit = if units > 0.0 { 1.0 / units } else { 0.0 };
    let one = overrule(finished.times(a_unit), record, liquid);
    let stated = one != finished.times(a_unit);
    let mut makeup = Makeup {
        liquid,
        one,
        shifts: Vec::new(),
        sulphites: sulphites * kept * a_unit,
        quinine: quinine * kept * a_unit,
        caffeine: caffeine * kept * a_unit,
        carbon_dioxide: 0.0,
    };
    makeup.shifts = if stated {
        measured_doubts(record, &makeup)
    } else {
        concentrate(&brewed, &finished, &merge(shifts), a_unit)
    };
    Composed { makeup, computed, finished }
}

/// A shift of what goes in changes what comes out in the same proportion, at a volume that follows.
fn concentrate(
    brewed: &Composition,
    finished: &Composition,
    shifts: &[(Input, Composition)],
    a_unit: f64,
) -> Vec<(Input, Composition)> {
    let share = |after: f64, before: f64| if before > 1e-9 { after / before } else { 0.0 };
    shifts
        .iter()
        .map(|(input, shift)| {
            let moved = Composition {
                water: shift.water * share(finished.water, brewed.water),
                ethanol: shift.ethanol * share(finished.ethanol, brewed.ethanol),
                sugar: shift.sugar * share(finished.sugar, brewed.sugar),
                acid: shift.acid * share(finished.acid, brewed.acid),
                fat: shift.fat * share(finished.fat, brewed.fat),
                protein: shift.protein * share(finished.protein, brewed.protein),
                salt: shift.salt * share(finished.salt, brewed.salt),
                other: shift.other * share(finished.other, brewed.other),
            };
            let whole = finished.plus(&moved);
            let volume = whole.volume_ml();
            let one = if volume > 0.0 { whole.times(1.0 / volume) } else { whole };
            (*input, one.minus(&finished.times(a_unit)))
        })
        .collect()
}

/// A refractometer and a hydrometer are read to half a unit. Common practice, no source.
const READING: f64 = 0.25;

fn measured_doubts(record: &Record, makeup: &Makeup) -> Vec<(Input, Composition)> {
    let mut out = Vec::new();
    let one = &makeup.one;
    if one.sugar > 0.0 {
        let by = one.mass() * READING / 100.0;
        let shift = Composition { sugar: by, water: -by, ..Composition::ZERO };
        out.push((Input::Stated(record.id.0, Part::Sugar), shift));
    }
    if one.ethanol > 0.0 {
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

/// Minutes of open boiling.
fn boil_minutes(method: &Method) -> f64 {
    let boils = [Technique::Boil, Technique::Simmer, Technique::Reduce];
    let minutes =
        method.acts.iter().filter(|act| act.act.technique.is_some_and(|t| boils.contains(&t))).map(
            |act| match act.act.seconds {
                Some((low, high)) => f64::midpoint(low, high) / 60.0,
                None if act.act.technique == Some(Technique::Boil) => 1.0,
                None => BOIL_MINUTES,
            },
        );
    minutes.sum::<f64>().min(60.0)
}

fn boil(total: Composition, method: &Method) -> Composition {
    let lost = (boil_minutes(method) * BOIL_LOSS_A_MINUTE).min(0.6);
    Composition { water: total.water * (1.0 - lost), ..total }
}

/// The acts at which solids leave.
const LEAVING: &[Technique] = &[
    Technique::Strain,
    Technique::DoubleStrain,
    Technique::FineStrain,
    Technique::Press,
    Technique::Filter,
    Technique::Discard,
    Technique::Skim,
    Technique::FatWash,
    Technique::Clarify,
    Technique::MilkWash,
];

/// What leaves at a strain: solids with what they hold, fat at a wash, curd.
fn lose(total: Composition, reads: &[Read], method: &Method, record: &Record) -> Composition {
    let mut left = total;
    if let Some(strained) = method.position(LEAVING) {
        let entered_later = |line: usize| {
            method.acts.iter().skip(strained + 1).any(|act| act.mentions.contains(&line))
                && !method.acts.iter().take(strained).any(|act| act.mentions.contains(&line))
        };
        let mut held = 0.0;
        for (line, read) in reads.iter().enumerate().filter(|(_, read)| read.counted) {
            if !leaves(read) || entered_later(line) {
                continue;
            }
            let dry = read.composition.other + read.composition.protein + read.composition.fat;
            let holds = read.ingredient().and_then(|i| i.holds).map_or(HELD, |d| d.value);
            let whole = read.composition.mass();
            left.other = (left.other - read.composition.other).max(0.0);
            left.protein = (left.protein - read.composition.protein).max(0.0);
            left.fat = (left.fat - read.composition.fat).max(0.0);
            held +=
                holds * if read.composition.water > 0.3 * whole { whole } else { dry.max(whole) };
        }
        let mass = left.mass();
        if mass > 0.0 {
            left = left.times((1.0 - held / mass).clamp(0.05, 1.0));
        }
    }
    let washed = method.has(&[Technique::FatWash]);
    let fatty = |read: &&Read| read.sort_is(&[Sort::Fat]) || read.is_butter();
    if washed || (method.has(LEAVING) && reads.iter().any(|r| fatty(&r) && r.counted)) {
        let fat: f64 = reads.iter().filter(fatty).map(|read| read.composition.fat).sum();
        left.fat = (left.fat - fat).max(0.0);
        left = left.times(1.0 - FAT_TAKES);
    }
    if method.has(&[Technique::MilkWash]) {
        left.fat = 0.0;
        left.protein *= 0.2;
        left = left.times(MILK_YIELD);
    }
    if let Some(loss) = record.number(Key::Loss) {
        return total_after(total, &left, loss);
    }
    left
}

/// A stated loss overrules: so much of the mass is gone, with the composition of what is left.
fn total_after(total: Composition, left: &Composition, percent: f64) -> Composition {
    let mass = left.mass();
    let kept = total.mass() * (1.0 - percent / 100.0).clamp(0.0, 1.0);
    if mass > 0.0 { left.times(kept / mass) } else { *left }
}

/// Whether a line is a solid that a strain takes out: not sugar, salt, acid and other things
/// that dissolve, and not what is blended in.
fn leaves(read: &Read) -> bool {
    let Some(ingredient) = read.ingredient() else { return false };
    let solid = matches!(
        ingredient.sort,
        Sort::Fruit
            | Sort::Vegetable
            | Sort::Herb
            | Sort::Spice
            | Sort::Flower
            | Sort::Nut
            | Sort::Tea
            | Sort::Coffee
            | Sort::Chocolate
    );
    solid && !ingredient.liquid
}

/// A measured yield below the computed means water lost where it was heated open, liquor
/// lost where it was strained.
fn measured(
    computed: Composition,
    record: &Record,
    method: &Method,
    settings: &Settings,
) -> Composition {
    let Some(yields) = stated_yield(record, settings) else { return computed };
    let (have, want) = match yields {
        Yield::Ml(ml) => (computed.volume_ml(), ml),
        Yield::Grams(g) => (computed.mass(), g),
    };
    if have <= 0.0 || want <= 0.0 || want >= have {
        return computed;
    }
    let heated = method.has(&[Technique::Boil, Technique::Simmer, Technique::Reduce]);
    if !heated {
        return computed.times(want / have);
    }
    // Take water out until the volume or the mass is the measured one.
    let mut lost = have - want;
    let mut result = computed;
    for _ in 0..8 {
        result =
            Composition { water: (computed.water - lost * WATER_G_PER_ML).max(0.0), ..computed };
        let now = match yields {
            Yield::Ml(_) => result.volume_ml(),
            Yield::Grams(_) => result.mass(),
        };
        lost += now - want;
        if (now - want).abs() < 1e-6 {
            break;
        }
    }
    result
}

/// A yield as stated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Yield {
    /// Millilitres.
    Ml(f64),
    /// Grams.
    Grams(f64),
}

/// The volume or mass that `yields:` states.
pub(crate) fn stated_yield(record: &Record, settings: &Settings) -> Option<Yield> {
    let field = record.field(Key::Yields)?;
    let Value::Amount(first, second) = &field.value else { return None };
    let of = |measure: &Measure| {
        let unit = measure.unit?;
        let number = measure.quantity.middle().to_f64();
        match unit.kind() {
            UnitKind::Mass => Some(Yield::Grams(number * unit.grams()?.to_f64())),
            UnitKind::Metric | UnitKind::Customary => {
                Some(Yield::Ml(number * unit.ml(settings.ounce)?.to_f64()))
            }
            _ => None,
        }
    };
    of(first).or_else(|| second.as_ref().and_then(of))
}

/// What was measured wins over what was computed.
fn overrule(one: Composition, record: &Record, liquid: bool) -> Composition {
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

impl Read {
    /// Butter and its like: dairy that is mostly fat.
    pub(crate) fn is_butter(&self) -> bool {
        self.sort_is(&[Sort::Dairy])
            && self.composition.fat > 0.5 * self.composition.mass()
            && !self.is(Trait::Foams)
    }
}
