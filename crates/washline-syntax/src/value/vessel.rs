//! `glass: coupe 160 ml, chilled`.

use washline_measure::{Measure, Unit, UnitKind};
use washline_text::Span;

use super::is_none;
use crate::Value;
use crate::amount::measure;
use crate::ingredient::parts;
use crate::reader::Reader;
use crate::slice::{self, gap, one_of};

/// Words about a glass that are no part of its name.
const WORDS: &[(&str, ())] = &[
    ("pre chilled", ()),
    ("chilled", ()),
    ("frozen", ()),
    ("frosted", ()),
    ("iced", ()),
    ("cold", ()),
    ("small", ()),
    ("salted", ()),
    ("sugared", ()),
    ("rimmed", ()),
    ("smoked", ()),
    ("warmed", ()),
    ("warm", ()),
    ("heated", ()),
    ("preheated", ()),
];

/// A name, its capacity where stated, and words about it before or behind.
pub(super) fn read<'t>(reader: &mut Reader<'t>, text: &'t str) -> Value {
    if is_none(text) {
        return Value::None;
    }
    let mut parts = parts(text);
    let first = parts.next().unwrap_or(text);
    let mut words: Vec<Span> = Vec::new();
    let mut name = first;
    while let Some(((), rest)) = one_of(name, WORDS) {
        if gap(rest).is_empty() {
            break;
        }
        words.push(reader.span(slice::taken(name, rest)));
        name = gap(rest);
    }
    let (left, mut capacity) = ending(name);
    for part in parts.filter(|part| !part.is_empty()) {
        match whole(part).filter(|_| capacity.is_none()) {
            Some(measure) => capacity = Some(measure),
            None => words.push(reader.span(part)),
        }
    }
    Value::Vessel { name: reader.span(left), capacity, words }
}

/// A name without the capacity at its end, in brackets or not.
fn ending(name: &str) -> (&str, Option<Measure>) {
    if let Some((left, inner)) = name.strip_suffix(')').and_then(|name| name.rsplit_once('('))
        && let Some(measure) = whole(inner)
    {
        return (left.trim_end(), Some(measure));
    }
    let blanks = name.char_indices().filter(|(_, c)| c.is_whitespace()).map(|(at, _)| at);
    let last: Vec<usize> = blanks.collect();
    // A capacity has one word or two: `160ml`, `160 ml`, `5 fl oz`.
    for at in last.iter().rev().take(3) {
        let (left, behind) = name.split_at_checked(*at).unwrap_or((name, ""));
        if let Some(measure) = whole(behind).filter(|_| !left.trim().is_empty()) {
            return (left.trim_end(), Some(measure));
        }
    }
    (name, None)
}

/// The volume that `text` is.
fn whole(text: &str) -> Option<Measure> {
    let (rest, read) = measure(text.trim()).ok()?;
    let kind = read.measure.unit.map(Unit::kind)?;
    let volume = matches!(kind, UnitKind::Metric | UnitKind::Customary);
    (rest.is_empty() && volume).then_some(read.measure)
}
