//! `yields: 715 ml (1 bottle)`, `serves: 4-6`, `pack: 12 x 330 ml`.

use washline_measure::{Exact, Form, Measure};

use super::{unitless, unreadable};
use crate::amount::{self, Bracket, bracket, measure, number, quantity};
use crate::reader::Reader;
use crate::slice::{gap, word};
use crate::{Key, Value};

/// The largest case of a pack.
const LARGEST_CASE: i64 = 1000;

/// A measure, and the same again in brackets.
pub(super) fn read<'t>(reader: &mut Reader<'t>, key: Key, text: &'t str) -> Value {
    let (rest, read) = match measure(text) {
        Ok(read) => read,
        Err(nom::Err::Failure(refused)) => {
            amount::tell(reader, refused);
            return Value::Bad;
        }
        Err(_) => return unreadable(reader, key, text, example(key)),
    };
    crate::ingredient::comma(reader, read.number);
    let mut rest = gap(rest);
    if read.measure.unit.is_none() && !rest.starts_with('(') {
        // A yield may count anything: `24 rolls`.
        let counts = key == Key::Yields && gap(rest.trim_start_matches(word(rest))).is_empty();
        if !counts {
            return match rest.is_empty() {
                true => unitless(reader, key, text, example(key)),
                false => unreadable(reader, key, text, example(key)),
            };
        }
        return Value::Amount(read.measure, None);
    }
    let mut second = None;
    if let Some((inner, after)) = rest.strip_prefix('(').and_then(|r| r.split_once(')')) {
        match bracket(inner) {
            Bracket::Amount(measure) => second = Some(measure),
            Bracket::Refused(refused) => amount::tell(reader, refused),
            _ => return unreadable(reader, key, text, example(key)),
        }
        rest = gap(after);
    }
    if rest.is_empty() {
        return Value::Amount(read.measure, second);
    }
    unreadable(reader, key, text, example(key))
}

/// How many serves: a whole number, or from how many to how many.
pub(super) fn count<'t>(reader: &mut Reader<'t>, text: &'t str) -> Value {
    match quantity(text) {
        Ok(("", read)) if is_whole(read.quantity.form) => Value::Count(read.quantity),
        Err(nom::Err::Failure(refused)) => {
            amount::tell(reader, refused);
            Value::Bad
        }
        _ => unreadable(reader, Key::Serves, text, "4"),
    }
}

/// `700 ml`, or `12 x 330 ml`.
pub(super) fn pack<'t>(reader: &mut Reader<'t>, text: &'t str) -> Value {
    let (count, each) = case(text).unwrap_or((1, text));
    match measure(each) {
        Ok(("", read)) => match read.measure {
            Measure { unit: Some(_), .. } => {
                crate::ingredient::comma(reader, read.number);
                Value::Pack { count, each: read.measure }
            }
            _ => unitless(reader, Key::Pack, text, "700 ml"),
        },
        Err(nom::Err::Failure(refused)) => {
            amount::tell(reader, refused);
            Value::Bad
        }
        _ => unreadable(reader, Key::Pack, text, "12 x 330 ml"),
    }
}

/// The number of a case, and what follows its `x`.
fn case(text: &str) -> Option<(u32, &str)> {
    let (rest, count) = number(text).ok()?;
    let each = gap(rest).strip_prefix(['x', 'X', '\u{d7}', '*'])?;
    let whole = count.value.is_whole() && !count.value.is_zero();
    let small = count.value <= Exact::whole(LARGEST_CASE);
    let count = u32::try_from(count.value.numerator()).ok().filter(|_| whole && small)?;
    Some((count, gap(each)))
}

fn is_whole(form: Form) -> bool {
    match form {
        Form::One(number) => number.is_whole(),
        Form::Range(low, high) => low.is_whole() && high.is_whole(),
    }
}

const fn example(key: Key) -> &'static str {
    match key {
        Key::Part => "30 ml",
        Key::Total => "90 ml",
        Key::Dash => "0.9 ml",
        Key::Portion => "120 ml",
        _ => "715 ml",
    }
}
