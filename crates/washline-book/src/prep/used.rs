//! What of each line goes into the pot: of a juiced fruit its juice, of a peeled one its peel.

use washline_measure::Estimate;
use washline_mixture::Composition;
use washline_reference::Trait;
use washline_syntax::Technique;

use crate::method::is_adding;
use crate::{Input, Method, Read, Record};

use super::Loss;

/// A counted line with what it puts in.
pub(super) struct Line<'a> {
    /// Its place among the lines.
    pub at: usize,
    /// The line.
    pub read: &'a Read,
    /// Whether its juice alone goes in, and its solids have left already.
    pub juiced: bool,
    /// The grams that go in.
    pub composition: Composition,
    /// How they change when an input grows by one standard uncertainty.
    pub shifts: Vec<(Input, Composition)>,
}

/// The counted lines of a prep.
pub(super) fn lines<'a>(record: &Record, reads: &'a [Read], method: &Method) -> Vec<Line<'a>> {
    let counted = reads.iter().enumerate().filter(|(_, read)| read.counted);
    counted
        .map(|(at, read)| {
            let Some((part, juiced)) = part_used(at, read, method) else {
                let shifts = read.shifts.clone();
                return Line { at, read, juiced: false, composition: read.composition, shifts };
            };
            let of = |shift: &Composition| shift.times(part.value);
            let mut shifts: Vec<_> = read.shifts.iter().map(|(i, s)| (*i, of(s))).collect();
            shifts.push((Input::Loss(record.id.0, Loss::Held), read.composition.times(part.u)));
            Line { at, read, juiced, composition: of(&read.composition), shifts }
        })
        .collect()
}

/// Grams of a millilitre of citrus juice. Common practice, no source.
const JUICE: f64 = 1.03;
/// The peel's share of a citrus fruit. Common practice, no source.
const PEEL: (f64, f64, f64) = (0.08, 0.03, 0.15);

/// The share of a whole fruit that is used, and whether that is its juice; `None` for all of it.
fn part_used(at: usize, read: &Read, method: &Method) -> Option<(Estimate, bool)> {
    let fruit = read.ingredient().filter(|known| !known.liquid)?;
    let juice = fruit.juice?;
    if read.unit.is_some_and(|unit| fruit.size(Some(unit)).is_some()) {
        return None;
    }
    let named = |technique: Technique| {
        let mut acts = method.acts.iter().filter(|act| act.act.technique == Some(technique));
        acts.any(|act| act.mentions.is_empty() || act.mentions.contains(&at))
    };
    if named(Technique::Juice) || named(Technique::Squeeze) {
        let whole = fruit.size(None)?.amount;
        let share = (juice.estimate().value * JUICE / whole.value).min(1.0);
        // A heavy fruit gives more juice: the two spreads are one. What is left is the hand's.
        return Some((Estimate { value: share, u: 0.1 * share }, true));
    }
    let peeled = named(Technique::Peel) || named(Technique::ZestIt);
    let added = || {
        let mut acts = method.acts.iter();
        acts.any(|act| act.act.technique.is_some_and(is_adding) && act.mentions.contains(&at))
    };
    let (value, low, high) = PEEL;
    let alone = peeled && fruit.is(Trait::Citrus) && !added();
    alone.then(|| (Estimate::of_range(value, low, high), false))
}
