//! The smallest change of one line that brings a figure into its band.

use washline_book::{Figure, Figures, Read, Side};
use washline_measure::{Form, Unit, UnitKind};
use washline_syntax::{Amount, Ingredient, LineKind, Placed, Role};
use washline_text::{Edit, FileId};

use crate::Context;
use crate::convert::{fraction, trimmed};
use crate::words::number;

use super::Beyond;

/// A mend: one line poured larger or smaller.
pub(super) struct Mend {
    pub title: String,
    pub edits: Vec<(FileId, Edit)>,
}

/// Not more than so many times what the line says, nor less than that part of it; nor so many steps. Common practice, no source.
const MOST: f64 = 3.0;
const STEPS: usize = 40;
/// Grams of a millilitre of ethanol at 20 °C, enough to tell which way a line moves the strength.
/// OIML R 22 (1975): 0.78924.
const ETHANOL: f64 = 0.789;
/// How many ways to mend are offered.
const OFFERED: usize = 3;

/// For each line that can do it alone, the smallest change that brings the ratio in; the
/// smallest of all first, those that push another figure out last.
pub(super) fn of_ratio(context: &Context<'_>, beyond: &Beyond) -> Vec<Mend> {
    best(found(context, Figure::Ratio, beyond))
}

/// The same for sugar, acid or strength, where the card states its family and the whole range
/// lies beyond. What would push another figure out is no mend.
pub(super) fn of_figure(context: &Context<'_>, figure: Figure, beyond: &Beyond) -> Vec<Mend> {
    if !beyond.outside || context.record.families.inferred {
        return Vec::new();
    }
    let mut found = found(context, figure, beyond);
    found.retain(|(pushes, ..)| !pushes);
    best(found)
}

/// Whether it pushes another figure out, how much more or less is poured, ml, and the mend.
type Found = (bool, f64, Mend);

fn found(context: &Context<'_>, figure: Figure, beyond: &Beyond) -> Vec<Found> {
    let lines = (0..context.record.reads.len()).filter_map(|at| Line::of(context, at));
    lines.filter_map(|line| line.mend(context, figure, beyond)).collect()
}

fn best(mut found: Vec<Found>) -> Vec<Mend> {
    found.sort_by(|a, b| (a.0, a.1).partial_cmp(&(b.0, b.1)).unwrap_or(std::cmp::Ordering::Equal));
    found.truncate(OFFERED);
    found.into_iter().map(|(_, _, mend)| mend).collect()
}

/// A line whose amount is one plain measure of a liquid.
struct Line<'a> {
    at: usize,
    read: &'a Read,
    ingredient: &'a Ingredient,
    placed: &'a Placed,
    unit: Unit,
    /// How many of its unit it says.
    count: f64,
    /// Millilitres of one.
    one: f64,
}

impl<'a> Line<'a> {
    fn of(context: &Context<'a>, at: usize) -> Option<Self> {
        let read = context.record.reads.get(at)?;
        let poured = read.counted && !read.water && read.role == Role::Poured;
        if !poured || !read.unit_makeup.as_ref()?.liquid {
            return None;
        }
        let line = context.record.entry.lines.get(read.line as usize)?;
        let LineKind::Ingredient(ingredient) = &line.what else { return None };
        let Amount::Measures(sum) = &ingredient.amount else { return None };
        let ([placed], true) = (sum.as_slice(), ingredient.shared.is_empty()) else { return None };
        let quantity = placed.measure.quantity;
        let Form::One(count) = quantity.form else { return None };
        let unit = placed.measure.unit?;
        step(unit)?;
        let (count, ml) = (count.to_f64(), read.ml?.value);
        let sized = !quantity.approximate && count > 0.0 && ml > 0.0;
        sized.then_some(Self { at, read, ingredient, placed, unit, count, one: ml / count })
    }

    fn mend(&self, context: &Context<'_>, figure: Figure, beyond: &Beyond) -> Option<Found> {
        let end = match beyond.side {
            Side::Below => beyond.band.low?,
            Side::Above => beyond.band.high?,
        };
        let lever = self.lever(figure, end)?;
        let more = (lever > 0.0) == (beyond.side == Side::Below);
        for count in self.counts(context, more) {
            let ml = count * self.one;
            let Some(texts) = self.texts(context, count) else { continue };
            let figures = context.workspace.with_amount(context.record, self.at, ml)?;
            if figures.value(figure).is_some_and(|value| beyond.band.holds(value)) {
                let mend = self.write(context, &texts, &figures);
                let pushes = pushes(context, figure, &figures);
                return Some((pushes, (count - self.count).abs() * self.one, mend));
            }
        }
        None
    }

    /// What the line has more of than the band's end asks for, g or ml: which way it moves the
    /// figure. None where it hardly does.
    fn lever(&self, figure: Figure, end: f64) -> Option<f64> {
        let ml = self.read.ml?.value;
        let part = &self.read.composition;
        let (lever, least) = match figure {
            Figure::Ratio => (part.sugar - end * part.acid, 0.1),
            Figure::Sugar => (part.sugar - end * ml / 100.0, 0.1),
            Figure::Acid => (part.acid - end * ml / 100.0, 0.05),
            Figure::Abv => (part.ethanol / ETHANOL - end * ml / 100.0, 0.5),
            _ => return None,
        };
        (lever.abs() >= least).then_some(lever)
    }

    /// The amounts to try, in the line's unit, nearest first: what the house's jiggers pour, or
    /// steps of 2.5 ml, an eighth of an ounce, a spoon.
    fn counts(&self, context: &Context<'_>, more: bool) -> Vec<f64> {
        let step = step(self.unit).unwrap_or(1.0);
        let jiggers = &context.settings.jiggers;
        let spoon = matches!(self.unit, Unit::Bsp | Unit::Tsp);
        let mut counts: Vec<f64> = if jiggers.is_empty() || spoon {
            let steps = self.count / step;
            let first =
                if more { (steps + 1e-6).floor() + 1.0 } else { (steps - 1e-6).ceil() - 1.0 };
            let way = if more { 1.0 } else { -1.0 };
            let nth = (0_u8..).map(|n| (first + way * f64::from(n)) * step);
            nth.take(STEPS).collect()
        } else {
            let pairs = jiggers.iter().flat_map(|a| jiggers.iter().map(move |b| a + b));
            let poured = jiggers.iter().copied().chain(pairs);
            poured.filter_map(|ml| self.as_marked(ml)).collect()
        };
        let beyond = |count: &f64| {
            if more { *count > self.count + 1e-6 } else { *count < self.count - 1e-6 }
        };
        let near = self.count / MOST - 1e-6..=MOST * self.count;
        counts.retain(|count| *count > 1e-6 && near.contains(count) && beyond(count));
        counts.sort_by(|a, b| (a - self.count).abs().total_cmp(&(b - self.count).abs()));
        counts.dedup();
        counts
    }

    /// What a jigger of `ml` is in the line's unit, where a card can write it.
    fn as_marked(&self, ml: f64) -> Option<f64> {
        if matches!(self.unit, Unit::Ml | Unit::Cl) {
            return Some(ml / self.one);
        }
        ounces(ml, self.one).map(|(n, d)| n as f64 / d as f64)
    }

    /// The amount and, where the line has one, its bracket; `None` where the bracket's unit
    /// cannot say it.
    fn texts(&self, context: &Context<'_>, count: f64) -> Option<(String, Option<String>)> {
        let decimal = context.record.text(self.placed.number).contains('.');
        let first = match self.unit {
            Unit::Oz | Unit::ImpOz if decimal => thousandths(count),
            Unit::Oz | Unit::ImpOz => ounces(count, 1.0).map(|(n, d)| fraction(n, d))?,
            _ => trimmed(count),
        };
        let first = format!("{first} {}", self.unit.name());
        let Some(second) = self.ingredient.second else { return Some((first, None)) };
        let unit = second.measure.unit?;
        let size = unit.ml(context.settings.ounce)?.to_f64();
        let ml = count * self.one;
        let number = match unit {
            Unit::Oz | Unit::ImpOz => {
                let (n, d) = ounces(ml, size).or_else(|| ounces(ml, 30.0))?;
                fraction(n, d)
            }
            Unit::Ml => trimmed(crate::convert::round_ml(ml)),
            _ if unit.kind() == UnitKind::Metric => trimmed(ml / size),
            _ => return None,
        };
        Some((first, Some(format!("{number} {}", unit.name()))))
    }

    fn write(
        &self,
        context: &Context<'_>,
        (first, second): &(String, Option<String>),
        after: &Figures,
    ) -> Mend {
        let mut edits = vec![context.edit(self.placed.span, first.clone())];
        if let (Some(text), Some(second)) = (second, self.ingredient.second) {
            edits.push(context.edit(second.inner, text.clone()));
        }
        edits.sort_by_key(|(_, edit)| edit.span.start);
        let was = context.record.text(self.placed.span);
        let name = &self.read.name;
        let change = |figure: Figure, label: &str, unit: &str| {
            let before = context.record.figures.value(figure)?;
            Some(format!("{label} {} → {}{unit}", number(before), number(after.value(figure)?)))
        };
        let told: Vec<String> = [
            change(Figure::Ratio, "ratio", ""),
            change(Figure::Sugar, "sugar", " g/100 ml"),
            change(Figure::Acid, "acid", " g/100 ml"),
            change(Figure::Abv, "strength", " % vol"),
        ]
        .into_iter()
        .flatten()
        .collect();
        Mend { title: format!("pour {first} {name}, not {was}: {}", told.join(", ")), edits }
    }
}

/// The step of a unit that is poured: 2.5 ml, an eighth of an ounce, one spoon.
const fn step(unit: Unit) -> Option<f64> {
    match unit {
        Unit::Ml => Some(2.5),
        Unit::Cl => Some(0.25),
        Unit::Oz | Unit::ImpOz => Some(0.125),
        Unit::Bsp | Unit::Tsp => Some(1.0),
        _ => None,
    }
}

/// The eighth or third of an ounce of `one` ml that is within 5 % of `ml`.
fn ounces(ml: f64, one: f64) -> Option<(i64, i64)> {
    let near = |d: i64| {
        let n = (ml / one * d as f64).round();
        let off = (n * one / d as f64 - ml).abs() / ml;
        (n >= 1.0 && off <= 0.05).then_some((off, (n as i64, d)))
    };
    let best = [8, 3].into_iter().filter_map(near).min_by(|a, b| a.0.total_cmp(&b.0));
    best.map(|(_, (n, d))| lowest(n, d))
}

fn lowest(n: i64, d: i64) -> (i64, i64) {
    if d % 2 == 0 && n % 2 == 0 {
        lowest(n / 2, d / 2)
    } else if n % d == 0 {
        (n / d, 1)
    } else {
        (n, d)
    }
}

fn thousandths(value: f64) -> String {
    format!("{value:.3}").trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Whether `after` pushes a figure other than `mended` beyond a band that holds it now.
fn pushes(context: &Context<'_>, mended: Figure, after: &Figures) -> bool {
    let all = [Figure::Abv, Figure::Sugar, Figure::Acid, Figure::Ratio];
    all.into_iter().filter(|figure| *figure != mended).any(|figure| {
        let Some((band, now, _)) = context.record.standing(figure, context.settings) else {
            return false;
        };
        band.holds(now.value) && after.value(figure).is_some_and(|value| !band.holds(value))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ounces_are_eighths_or_thirds() {
        assert_eq!(ounces(22.5, 29.57), Some((3, 4)));
        assert_eq!(ounces(25.0, 29.57), Some((7, 8)));
        assert_eq!(ounces(20.0, 30.0), Some((2, 3)));
        assert_eq!(ounces(30.0, 30.0), Some((1, 1)));
        assert_eq!(ounces(17.0, 30.0), None);
    }
}
