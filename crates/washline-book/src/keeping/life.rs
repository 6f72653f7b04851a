//! How long a prep keeps, by the trade's rules of thumb.
//!
//! Common practice, no source: what bars write on their labels. Sugar and alcohol count together
//! (Delle units), acid makes the same sugar keep longer, and a thing that spoils by itself, milk
//! or fresh juice, sets its own term. It is a rule of thumb and no proof of safety.

use washline_reference::{Sort, Trait};
use washline_syntax::Technique;

use crate::{Guard, Read, Record, Shelf};

/// How long a prep keeps on a shelf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Life {
    /// What bars usually give it, hours.
    pub usual: f64,
    /// The most that anyone gives it, hours.
    pub most: f64,
    /// The line that sets the term, by its place among the lines read; none where the whole does.
    pub weakest: Option<usize>,
    /// What holds back what would spoil it.
    pub guard: Guard,
}

const DAY: f64 = 24.0;
const WEEK: f64 = 7.0 * DAY;
const MONTH: f64 = 30.4 * DAY;
const YEAR: f64 = 365.0 * DAY;

/// Delle units, and the usual and the longest term in the fridge, hours.
type Terms = &'static [(f64, f64, f64)];

/// With no acid to speak of: tea, a thin syrup, 1:1 (61 units), 2:1 (88).
const PLAIN: Terms = &[
    (0.0, 4.0 * DAY, WEEK),
    (25.0, 10.0 * DAY, 3.0 * WEEK),
    (50.0, 3.0 * WEEK, 5.0 * WEEK),
    (61.0, 4.0 * WEEK, 6.0 * WEEK),
    (78.0, 3.0 * MONTH, 6.0 * MONTH),
];
/// As sour as a cordial or a shrub.
const SHARP: Terms = &[
    (0.0, WEEK, 4.0 * WEEK),
    (25.0, 3.0 * WEEK, 6.0 * WEEK),
    (50.0, 6.0 * WEEK, 9.0 * WEEK),
    (78.0, 3.0 * MONTH, 6.0 * MONTH),
];
/// The same at room temperature.
const PLAIN_WARM: Terms =
    &[(0.0, 4.0, DAY), (25.0, DAY, 2.0 * DAY), (50.0, 2.0 * DAY, WEEK), (78.0, MONTH, 3.0 * MONTH)];
const SHARP_WARM: Terms = &[
    (0.0, DAY, 3.0 * DAY),
    (25.0, 3.0 * DAY, WEEK),
    (50.0, WEEK, 3.0 * WEEK),
    (78.0, MONTH, 3.0 * MONTH),
];
/// Acid from which a thing is sharp, g/100 ml, and a measured pH below which it is.
const SOUR: f64 = 0.8;
const SOUR_PH: f64 = 3.8;

impl Life {
    /// Of a prep with that guard on that shelf.
    pub(super) fn of(record: &Record, guard: Guard, shelf: Shelf) -> Option<Self> {
        if !guard.liquid || guard.is_oil() {
            return None;
        }
        let whole = |(usual, most)| Self { usual, most, weakest: None, guard };
        if shelf == Shelf::Freezer {
            return Some(whole((3.0 * MONTH, YEAR)));
        }
        if guard.is_strong() {
            return Some(whole((YEAR, 3.0 * YEAR)));
        }
        let life = whole(by_guard(&guard, shelf));
        let lines = record.reads.iter().enumerate().filter(|(_, read)| read.counted);
        let capped = lines.filter_map(|(at, read)| {
            let (usual, most) = own_term(record, at, read, &guard, shelf)?;
            Some(Self { usual, most, weakest: Some(at), guard })
        });
        Some(capped.fold(life, |least, life| if life.most < least.most { life } else { least }))
    }

    /// What a thing with that guard is usually given, whatever is in it, hours.
    #[must_use]
    pub fn usual_of(guard: &Guard, shelf: Shelf) -> f64 {
        if guard.is_strong() {
            return YEAR;
        }
        by_guard(guard, shelf).0
    }
}

fn by_guard(guard: &Guard, shelf: Shelf) -> (f64, f64) {
    if guard.is_stable() && guard.delle < 78.0 {
        return (6.0 * MONTH, 2.0 * YEAR);
    }
    let sharp = if guard.ph_measured { guard.ph <= SOUR_PH } else { guard.acid >= SOUR };
    let terms = match (shelf, sharp) {
        (Shelf::Room, false) => PLAIN_WARM,
        (Shelf::Room, true) => SHARP_WARM,
        (_, false) => PLAIN,
        (_, true) => SHARP,
    };
    between(terms, guard.delle)
}

/// Between two rows of a table in proportion of the logarithm.
fn between(terms: Terms, delle: f64) -> (f64, f64) {
    let below = terms.iter().rev().find(|(units, ..)| *units <= delle).or(terms.first());
    let above = terms.iter().find(|(units, ..)| *units > delle).or(terms.last());
    let (Some(below), Some(above)) = (below, above) else { return (0.0, 0.0) };
    let width = above.0 - below.0;
    let at = if width > 0.0 { ((delle - below.0) / width).clamp(0.0, 1.0) } else { 0.0 };
    let of = |low: f64, high: f64| low * (high / low).powf(at);
    (of(below.1, above.1), of(below.2, above.2))
}

/// Less of a line than this share of the whole sets no term.
const A_PART: f64 = 0.15;

/// The term of a line that spoils whatever is around it.
fn own_term(
    record: &Record,
    at: usize,
    read: &Read,
    guard: &Guard,
    shelf: Shelf,
) -> Option<(f64, f64)> {
    let known = read.ingredient()?;
    let whole: f64 = record.reads.iter().filter(|r| r.counted).map(|r| r.composition.mass()).sum();
    if !known.liquid || whole <= 0.0 || read.composition.mass() < A_PART * whole {
        return None;
    }
    let washed = record.method.has(&[Technique::MilkWash, Technique::FatWash]);
    let milky = read.is(Trait::Curdles) || matches!(known.sort, Sort::Dairy | Sort::PlantMilk);
    if milky && !washed {
        let term = match (shelf, guard.abv >= 14.0, guard.delle >= 50.0) {
            (Shelf::Room, true, _) => (2.0 * DAY, WEEK),
            (Shelf::Room, ..) => (2.0, 4.0),
            (_, true, _) => (2.0 * WEEK, 6.0 * WEEK),
            (_, _, true) => (WEEK, 3.0 * WEEK),
            _ => (4.0 * DAY, WEEK),
        };
        return Some(term);
    }
    // Sugar and acid beside it keep juice; by itself it turns.
    let thin = guard.delle < 25.0 && !adjusted(record);
    if read.is(Trait::RawPerishable) && known.sort == Sort::Juice && thin && !record.cooks(at) {
        let most = known.keeps.map_or(5.0 * DAY, |keeps| keeps.hours.high).max(2.0 * DAY);
        return Some(if shelf == Shelf::Room { (4.0, DAY) } else { (most / 2.0, most) });
    }
    None
}

/// Whether dry acid goes in.
fn adjusted(record: &Record) -> bool {
    record.reads.iter().any(|read| {
        read.counted
            && read.sort_is(&[Sort::Acid])
            && read.ingredient().is_some_and(|known| !known.liquid)
    })
}
