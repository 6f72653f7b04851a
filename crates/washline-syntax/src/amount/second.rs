//! Brackets: the same amount in another unit, a property, or plain words.

use washline_measure::{Exact, Measure, Quantity};

use super::{Refused, about, measure, number};
use crate::property;
use crate::slice::{gap, is_dash, phrase};

/// What stands in a bracket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Bracket<'t> {
    /// An amount.
    Amount(Measure),
    /// `half`, the size of a rim.
    Half(Measure),
    /// An amount that is refused.
    Refused(Refused<'t>),
    /// It opens with a number, and says nothing that is known.
    Number,
    /// A qualifier.
    Words,
}

/// Reads the inside of a bracket.
pub(crate) fn bracket(inner: &str) -> Bracket<'_> {
    let inner = inner.trim();
    let read = measure(inner);
    if let Ok(("", read)) = read {
        if read.measure.unit.is_some() {
            return Bracket::Amount(read.measure);
        }
        if phrase(inner, "half") == Some("") {
            let half = Exact::ratio(1, 2).unwrap_or(Exact::ONE);
            return Bracket::Half(Measure { quantity: Quantity::exactly(half), unit: None });
        }
    }
    let start = about(inner).unwrap_or(inner);
    let opens_with_number = !matches!(number(start), Err(nom::Err::Error(_)));
    if !opens_with_number || is_property(inner) || is_age(start) {
        return Bracket::Words;
    }
    match read {
        Err(nom::Err::Failure(refused)) => Bracket::Refused(refused),
        _ => Bracket::Number,
    }
}

/// Whether all of `inner` is one property: `(2:1)`, `(43 % abv)`, `(151 proof)`.
fn is_property(inner: &str) -> bool {
    let found = property::scan(inner);
    found.first().is_some_and(|(span, _)| span.start == 0) && covers(&found, inner)
}

fn covers(found: &[(washline_text::Span, crate::Property)], inner: &str) -> bool {
    let mut at = 0;
    for (span, _) in found {
        let between = inner.get(at..span.start as usize).unwrap_or("");
        if between.contains(char::is_alphanumeric) {
            return false;
        }
        at = span.end as usize;
    }
    !inner.get(at..).unwrap_or("").contains(char::is_alphanumeric)
}

/// Words behind the years of a spirit.
const AGES: &[&str] = &["year old", "years old", "year", "years", "yr", "yrs", "yo"];

/// `10 year old`, `12 yo`: how old a spirit is, no amount.
fn is_age(inner: &str) -> bool {
    let Ok((rest, _)) = number(inner) else { return false };
    let rest = rest.strip_prefix(is_dash).unwrap_or(rest);
    AGES.iter().any(|words| phrase(gap(rest), words).is_some())
}
