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

/// One measure, and those added to it; nothing behind them makes the amount doubtful.
pub(crate) fn sum(input: &str) -> Read<'_, Sum<'_>> {
    let (mut rest, first) = measure(input)?;
    let mut more = Vec::new();
    while let Some(behind) = gap(rest).strip_prefix('+') {
        let term = gap(behind);
        let next = match measure(term) {
            Err(nom::Err::Error(_)) => return Err(Refused::fail(taken(input, term), Why::SumTerm)),
            other => other?,
        };
        rest = next.0;
        more.push(next.1);
    }
    let sum = Sum { first, more };
    let has_unit = sum.terms().all(|term| term.measure.unit.is_some());
    if !has_unit && !sum.more.is_empty() {
        return Err(Refused::fail(taken(input, rest), Why::SumTerm));
    }
    follow::check(rest, has_unit)?;
    Ok((rest, sum))
}

/// A measure, and those added to it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sum<'t> {
    pub first: Measured<'t>,
    pub more: Vec<Measured<'t>>,
}

impl<'t> Sum<'t> {
    /// All its measures in order.
    pub(crate) fn terms(&self) -> impl Iterator<Item = &Measured<'t>> {
        std::iter::once(&self.first).chain(&self.more)
    }

    /// Its measure where it is the only one.
    pub(crate) const fn only(&self) -> Option<&Measured<'t>> {
        if self.more.is_empty() { Some(&self.first) } else { None }
    }
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
