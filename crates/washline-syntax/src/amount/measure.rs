//! Measures: a quantity with its unit, and sums of them.

use washline_measure::Measure;

use super::{Read, Refused, Why, follow, quantity, unit};
use crate::reader::Reader;
use crate::slice::{self, gap, taken, word};
use crate::{Placed, amount};

/// A measure and its words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Measured<'t> {
    pub measure: Measure,
    pub text: &'t str,
    pub number: &'t str,
    pub unit: &'t str,
    pub fraction: Option<(i64, i64)>,
}

/// A quantity and the unit behind it, where one stands there.
pub(crate) fn measure(input: &str) -> Read<'_, Measured<'_>> {
    let (rest, read) = quantity(input)?;
    let body = gap(rest);
    let number = read.text;
    let fraction = read.fraction;
    if let Some((unit, after)) = unit::at_start(body) {
        let measure = Measure { quantity: read.quantity, unit: Some(unit) };
        let written = taken(body, after);
        let text = taken(input, after);
        return Ok((after, Measured { measure, text, number, unit: written, fraction }));
    }
    if rest.starts_with(char::is_alphabetic) && !follow::is_times(rest) {
        let all = taken(input, slice::skip(rest, word(rest).len()));
        return Err(Refused::fail(all, Why::Touching));
    }
    let measure = Measure { quantity: read.quantity, unit: None };
    let none = slice::start(rest);
    Ok((rest, Measured { measure, text: number, number, unit: none, fraction }))
}

/// One measure, or several added up, and nothing behind them that would make the
/// amount doubtful.
pub(crate) fn sum(input: &str) -> Read<'_, Vec<Measured<'_>>> {
    let (mut rest, first) = measure(input)?;
    let mut terms = vec![first];
    while let Some(behind) = gap(rest).strip_prefix('+') {
        let term = gap(behind);
        let next = match measure(term) {
            Err(nom::Err::Error(_)) => return Err(Refused::fail(taken(input, term), Why::SumTerm)),
            other => other?,
        };
        rest = next.0;
        terms.push(next.1);
    }
    let unitless = terms.len() > 1 && terms.iter().any(|term| term.measure.unit.is_none());
    if unitless {
        return Err(Refused::fail(taken(input, rest), Why::SumTerm));
    }
    let has_unit = terms.last().is_some_and(|last| last.measure.unit.is_some());
    follow::check(rest, has_unit)?;
    Ok((rest, terms))
}

/// A measure with its places in the entry.
pub(crate) fn placed(reader: &Reader<'_>, read: &amount::Measured<'_>) -> Placed {
    Placed {
        measure: read.measure,
        span: reader.span(read.text),
        number: reader.span(read.number),
        unit: reader.span(read.unit),
    }
}
