//! `garnish: orange twist, expressed; 2 cherries`.

use super::is_none;
use crate::amount::measure;
use crate::ingredient::parts;
use crate::reader::Reader;
use crate::slice::{self, gap, phrase};
use crate::{Garnish, Value};

/// One garnish or several by `;`, or none.
pub(super) fn read<'t>(reader: &mut Reader<'t>, text: &'t str) -> Value {
    if is_none(text) {
        return Value::None;
    }
    let each = text.split(';').map(str::trim).filter(|one| !one.is_empty());
    Value::Garnishes(each.map(|one| garnish(reader, one)).collect())
}

/// An amount that is none is part of the name.
fn garnish<'t>(reader: &mut Reader<'t>, text: &'t str) -> Garnish {
    let (rest, amount) = match measure(text) {
        Ok((rest, read)) if !gap(rest).is_empty() => {
            crate::ingredient::comma(reader, read.number);
            (gap(rest), Some(read.measure))
        }
        Ok((_, read)) if read.measure.unit.is_some() => {
            let unitless = washline_measure::Measure { unit: None, ..read.measure };
            (slice::skip(text, text.len() - read.unit.len()), Some(unitless))
        }
        _ => (text, None),
    };
    let rest = phrase(rest, "of").map_or(rest, gap);
    let mut parts = parts(rest);
    let name = parts.next().unwrap_or(rest);
    Garnish {
        span: reader.span(text),
        amount,
        name: reader.span(name),
        qualifiers: parts.filter(|part| !part.is_empty()).map(|part| reader.span(part)).collect(),
    }
}
