//! Quantities: numbers, ranges, approximations, and number words.

use nom::Parser;
use nom::branch::alt;
use washline_measure::{Exact, Form, Quantity};

use super::{Number, Read, Refused, Shape, Why, number};
use crate::slice::{self, gap, is_dash, one_of, phrase, taken};

/// A quantity, and how it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Quantified<'t> {
    pub quantity: Quantity,
    /// The number as written, its `about` with it.
    pub text: &'t str,
    /// Numerator and denominator of a plain fraction, as written.
    pub fraction: Option<(i64, i64)>,
}

/// Number words, longest first.
pub(crate) const WORDS: &[(&str, (i64, i64))] = &[
    ("one half of a", (1, 2)),
    ("one half", (1, 2)),
    ("half of an", (1, 2)),
    ("half of a", (1, 2)),
    ("half an", (1, 2)),
    ("half a", (1, 2)),
    ("half", (1, 2)),
    ("an", (1, 1)),
    ("a", (1, 1)),
    ("one", (1, 1)),
    ("two", (2, 1)),
    ("three", (3, 1)),
    ("four", (4, 1)),
    ("five", (5, 1)),
    ("six", (6, 1)),
    ("seven", (7, 1)),
    ("eight", (8, 1)),
    ("nine", (9, 1)),
    ("ten", (10, 1)),
    ("eleven", (11, 1)),
    ("twelve", (12, 1)),
];

/// Words that make a number an approximation, before a number only.
pub(crate) const ABOUT: &[(&str, ())] = &[
    ("about", ()),
    ("approximately", ()),
    ("approx", ()),
    ("around", ()),
    ("circa", ()),
    ("ca", ()),
    ("roughly", ()),
];

/// A quantity above nought.
pub(crate) fn quantity(input: &str) -> Read<'_, Quantified<'_>> {
    let (start, approximate) = match about(input) {
        Some(rest) => (rest, true),
        None => (input, false),
    };
    let (rest, low) = one(start)?;
    let (rest, high) = match above(rest)? {
        Some((rest, high)) => (rest, Some(high)),
        None => (rest, None),
    };
    let text = taken(input, rest);
    let form = match high {
        None if low.value.is_zero() => return Err(Refused::fail(text, Why::Zero)),
        None => Form::One(low.value),
        Some(high) if high.value <= low.value => return Err(Refused::fail(text, Why::Falls)),
        Some(_) if low.value.is_zero() => return Err(Refused::fail(text, Why::FromZero)),
        Some(high) => Form::Range(low.value, high.value),
    };
    let fraction = match (low.shape, high) {
        (Shape::Fraction(n, d), None) => Some((n, d)),
        _ => None,
    };
    Ok((rest, Quantified { quantity: Quantity { form, approximate }, text, fraction }))
}

/// What follows `~`, `about` and their like.
pub(crate) fn about(input: &str) -> Option<&str> {
    let behind = match slice::first(input)? {
        '~' | '\u{2248}' => input.strip_prefix(['~', '\u{2248}'])?,
        'a' | 'A' | 'c' | 'C' | 'r' | 'R' => {
            let (_, rest) = one_of(input, ABOUT)?;
            rest.strip_prefix('.').unwrap_or(rest)
        }
        _ => return None,
    };
    Some(gap(behind))
}

/// A number in words.
pub(crate) fn counted(input: &str) -> Read<'_, Number> {
    // Most words are no numbers, and their first two letters tell.
    let plausible = match input.as_bytes() {
        [b'a' | b'A'] => true,
        [b'a' | b'A', next, ..] => !next.is_ascii_alphanumeric() || next | 0x20 == b'n',
        [one, two, ..] => matches!(
            &[one | 0x20, two | 0x20],
            b"on"
                | b"tw"
                | b"th"
                | b"fo"
                | b"fi"
                | b"si"
                | b"se"
                | b"ei"
                | b"ni"
                | b"te"
                | b"el"
                | b"ha"
        ),
        _ => false,
    };
    if !plausible || phrase(input, "half and half").is_some() {
        return Err(Refused::none(input));
    }
    let Some(((n, d), rest)) = one_of(input, WORDS) else { return Err(Refused::none(input)) };
    let value = Exact::ratio(n, d).ok_or_else(|| Refused::none(input))?;
    Ok((rest, Number { value, shape: Shape::Other }))
}

fn one(input: &str) -> Read<'_, Number> {
    alt((number, counted)).parse(input)
}

/// The upper end of a range, where there is one.
fn above(rest: &str) -> Result<Option<(&str, Number)>, nom::Err<Refused<'_>>> {
    let behind = gap(rest);
    let end = if let Some(behind) = behind.strip_prefix(is_dash) {
        number(gap(behind))
    } else if behind.len() < rest.len() {
        let joined = phrase(behind, "to").or_else(|| phrase(behind, "or"));
        let Some(joined) = joined.filter(|joined| gap(joined).len() < joined.len()) else {
            return Ok(None);
        };
        one(gap(joined))
    } else {
        return Ok(None);
    };
    match end {
        Ok(read) => Ok(Some(read)),
        Err(nom::Err::Error(_)) => Ok(None),
        Err(refused) => Err(refused),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(input: &str, expected: &str) {
        let read = match quantity(input) {
            Ok((rest, read)) => format!("{}|{}|{rest}", read.quantity, read.text),
            Err(nom::Err::Failure(refused)) => format!("{:?} {}", refused.why, refused.at),
            Err(_) => "none".to_owned(),
        };
        assert_eq!(read, expected, "{input}");
    }

    #[test]
    fn ranges_rise() {
        check("10-15 ml", "10..15|10-15| ml");
        check("10\u{2013}15", "10..15|10\u{2013}15|");
        check("10 \u{2014} 15", "10..15|10 \u{2014} 15|");
        check("10 to 15 ml", "10..15|10 to 15| ml");
        check("1 or 2 dashes", "1..2|1 or 2| dashes");
        check("1-2 1/2", "1..2.5|1-2 1/2|");
        check("1 1/2-2 oz", "1.5..2|1 1/2-2| oz");
        check("1/2-3/4", "0.5..0.75|1/2-3/4|");
        check("½-1", "0.5..1|½-1|");
        check("1-1/2-2", "1.5..2|1-1/2-2|");
        check("two or three dashes", "2..3|two or three| dashes");
        check("3-2", "Falls 3-2");
        check("2-2", "Falls 2-2");
        check("0-2", "FromZero 0-2");
        check("1/2-1/4 oz", "Falls 1/2-1/4");
    }

    #[test]
    fn approximations() {
        check("~8 leaves", "~8|~8| leaves");
        check("\u{2248} 8", "~8|\u{2248} 8|");
        check("about 30 ml", "~30|about 30| ml");
        check("ca. 30", "~30|ca. 30|");
        check("CA 30", "~30|CA 30|");
        check("~10-15", "~10..15|~10-15|");
        check("about half the tin", "~0.5|about half| the tin");
        check("about the tin", "none");
    }

    #[test]
    fn words_count() {
        check("a pinch", "1|a| pinch");
        check("an egg", "1|an| egg");
        check("Twelve lemons", "12|Twelve| lemons");
        check("half a lime", "0.5|half a| lime");
        check("half an orange", "0.5|half an| orange");
        check("half oz", "0.5|half| oz");
        check("one half oz", "0.5|one half| oz");
        check("anise", "none");
        check("half and half", "none");
        check("one-shot", "none");
    }

    #[test]
    fn nothing_is_no_amount() {
        check("0 ml", "Zero 0");
        check("0.0", "Zero 0.0");
        check("↉", "Zero ↉");
    }

    #[test]
    fn a_range_without_an_end_is_left_to_what_follows() {
        check("1 to taste", "1|1| to taste");
        check("1 - gin", "1|1| - gin");
    }
}
