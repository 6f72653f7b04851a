//! Fields that say two things that exclude each other.

use washline_book::Read;
use washline_measure::{Unit, UnitKind};
use washline_syntax::{Field, Key, Value};
use washline_text::{Span, fold};

use crate::convert::millilitres;
use crate::words::{ml, number};
use crate::{Context, Report};

/// `none` beside something.
pub(super) fn none_and_more(context: &Context<'_>, field: &Field) -> Option<Report> {
    let (none, other) = match &field.value {
        Value::Terms(terms) => pair(context, terms.iter().copied())?,
        Value::Garnishes(list) => pair(context, list.iter().map(|garnish| garnish.name))?,
        _ => return None,
    };
    let record = context.record;
    let key = field.key?.word();
    let word = record.text(other);
    Some(
        Report::at(context, none, format!("`{key}` says none, and {word} beside it"))
            .help("keep `none` where there is nothing, else take it out")
            .related(record.place(other), format!("{word} is something")),
    )
}

/// `none` and something else among `spans`.
fn pair(context: &Context<'_>, mut spans: impl Iterator<Item = Span>) -> Option<(Span, Span)> {
    let says_none = |span: Span| context.record.text(span).eq_ignore_ascii_case("none");
    let first = spans.next()?;
    let is_none = says_none(first);
    let other = spans.find(|span| says_none(*span) != is_none)?;
    Some(if is_none { (first, other) } else { (other, first) })
}

/// Ways to serve that exclude each other.
const SERVES: &[(&str, &str)] = &[
    ("up", "rocks"),
    ("up", "long"),
    ("up", "down"),
    ("down", "rocks"),
    ("neat", "rocks"),
    ("neat", "long"),
    ("hot", "frozen"),
    ("hot", "rocks"),
];

pub(super) fn two_serves(context: &Context<'_>, field: &Field) -> Option<Report> {
    let (Some(Key::Serve), Value::Terms(terms)) = (field.key, &field.value) else { return None };
    let record = context.record;
    let word = |span: &Span| fold(record.text(*span));
    let excludes = |a: &Span, b: &Span| {
        let (a, b) = (word(a), word(b));
        SERVES.iter().any(|(x, y)| (a == *x && b == *y) || (a == *y && b == *x))
    };
    let (at, second) = terms
        .iter()
        .enumerate()
        .find(|(at, later)| terms.iter().take(*at).any(|earlier| excludes(earlier, later)))?;
    let first = terms.iter().take(at).find(|earlier| excludes(earlier, second))?;
    let message = format!("a drink is not served {} and {} at once", word(first), word(second));
    Some(
        Report::at(context, *second, message)
            .help("keep the way it leaves the bar")
            .related(record.place(*first), format!("here it is {}", word(first))),
    )
}

/// Volumes are the same where they are as near as a jigger and a scale agree.
const SAME: f64 = 0.05;

fn apart(a: f64, b: f64) -> bool {
    (a - b).abs() > SAME * a.max(b)
}

pub(super) fn two_yields(context: &Context<'_>, field: &Field) -> Option<Report> {
    let Value::Amount(first, Some(second)) = &field.value else { return None };
    let ounce = context.settings.ounce;
    let (a, b) = millilitres(first, ounce).zip(millilitres(second, ounce))?;
    if !apart(a, b) {
        return None;
    }
    let key = field.key?.word();
    let message = format!("`{key}` is {}, and {} in its bracket", ml(a), ml(b));
    Some(
        Report::at(context, field.value_span, message).help("measure it, and write one of the two"),
    )
}

/// A Brix and a sugar content that no one liquid has.
pub(super) fn brix_and_sugar(context: &Context<'_>) -> Option<Report> {
    /// What a hand refractometer and a label are apart. Common practice, no source.
    const SPREAD: f64 = 0.1;
    let record = context.record;
    if context.is_drink() {
        return None;
    }
    let brix = record.number(Key::Brix)?;
    let sugar = record.number(Key::Sugar)?;
    let makeup = record.makeup.as_ref().filter(|makeup| makeup.liquid)?;
    let held = 100.0 * makeup.one.sugar;
    if (held - sugar).abs() <= SPREAD * held.max(sugar) {
        return None;
    }
    let (at, other) = (record.field(Key::Sugar)?, record.field(Key::Brix)?);
    let message = format!(
        "{} Brix is {} g of sugar in 100 ml, `sugar` says {}",
        number(brix),
        number(held),
        number(sugar)
    );
    Some(
        Report::at(context, at.value_span, message)
            .help("Brix is sugar by mass, `sugar` by volume: keep the one that was measured")
            .related(record.place(other.value_span), "the Brix stands here"),
    )
}

/// Parts of a stated size that do not come to the stated total.
pub(super) fn part_and_total(context: &Context<'_>) -> Option<Report> {
    let record = context.record;
    if !context.is_drink() {
        return None;
    }
    let size = |key: Key| millilitres(&record.amount(key)?, context.settings.ounce);
    let part = size(Key::Part)?;
    let total = size(Key::Total)?;
    let in_parts = |read: &&Read| read.unit.map(Unit::kind) == Some(UnitKind::Part);
    let poured: f64 = record.reads.iter().filter(in_parts).map(Read::volume).sum();
    if poured <= 0.0 || !apart(poured, total) {
        return None;
    }
    let (at, other) = (record.field(Key::Total)?, record.field(Key::Part)?);
    let message =
        format!("parts of {} come to {}, `total` says {}", ml(part), ml(poured), ml(total));
    Some(
        Report::at(context, at.value_span, message)
            .help("keep `part` or `total`: either says the other")
            .related(record.place(other.value_span), "the part stands here"),
    )
}
