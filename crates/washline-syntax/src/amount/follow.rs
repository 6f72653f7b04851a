//! What may stand behind an amount, and what makes it doubtful.

use super::{Refused, Why, counted, measure, number};
use crate::slice::{self, first, gap, is_dash, phrase, taken, word};

/// Refuses an amount because of what follows it at `rest`.
pub(crate) fn check(rest: &str, has_unit: bool) -> Result<(), nom::Err<Refused<'_>>> {
    let body = gap(rest);
    let touching = body.len() == rest.len();
    let Some(c) = first(body) else { return Ok(()) };
    if has_unit { behind_unit(body, c) } else { behind_number(body, c, touching) }
}

/// Whether `rest` starts with an `x` that multiplies: `x`, `x 30`, `x30`.
pub(crate) fn is_times(rest: &str) -> bool {
    let Some(behind) = rest.strip_prefix(['x', 'X', '\u{d7}']) else { return false };
    first(gap(behind)).is_none_or(|c| c.is_ascii_digit()) || gap(behind).len() < behind.len()
}

fn behind_number(body: &str, c: char, touching: bool) -> Result<(), nom::Err<Refused<'_>>> {
    let here = || slice::taken(body, slice::skip(body, c.len_utf8()));
    if c.is_ascii_digit() || (!c.is_ascii() && c.is_numeric()) || is_point(body) {
        return Err(Refused::fail(number_at(body), Why::TwoNumbers));
    }
    if is_times(body) {
        return Err(Refused::fail(here(), Why::AfterNumber));
    }
    if let Some(dash) = range_of_measures(body) {
        return Err(Refused::fail(dash, Why::AfterUnit));
    }
    let joined = ["and", "or", "to", "plus"].iter().find_map(|w| phrase(body, w));
    if let Some(after) = joined {
        return Err(Refused::fail(taken(body, after), Why::AfterNumber));
    }
    let quotes = matches!(c, '\'' | '"' | '\u{2019}') && touching;
    let comma = c == ',' && body.as_bytes().get(1).is_some_and(u8::is_ascii_digit);
    let refused = match c {
        '(' | ',' | '#' | '\\' | '\'' | '"' | '\u{2019}' => false,
        '\u{d7}' | '\u{f7}' | '\u{20ac}' | '\u{a3}' | '\u{a5}' | '\u{b0}' | '\u{2032}'
        | '\u{2033}' | '\u{2212}' => true,
        c => c.is_ascii_punctuation() || is_dash(c),
    };
    if refused || quotes || comma {
        return Err(Refused::fail(here(), Why::AfterNumber));
    }
    Ok(())
}

fn behind_unit(body: &str, c: char) -> Result<(), nom::Err<Refused<'_>>> {
    if phrase(body, "or").is_some() {
        return Err(Refused::fail(word(body), Why::AfterUnit));
    }
    for joint in ["and", "to", "plus"] {
        let Some(after) = phrase(body, joint) else { continue };
        let another = number(gap(after)).is_ok() || counted(gap(after)).is_ok();
        if another {
            return Err(Refused::fail(word(body), Why::AfterUnit));
        }
    }
    if c.is_ascii_digit() || is_point(body) {
        // Digits of a name (`151 rum`) are the name's; a second amount is not.
        return match measure(body) {
            Ok((_, second)) if second.measure.unit.is_some() => {
                Err(Refused::fail(second.text, Why::TwoAmounts))
            }
            _ => Ok(()),
        };
    }
    let refused = match c {
        '(' | ',' | '#' | '\\' | '\'' | '"' | '\u{2019}' => false,
        c => c.is_ascii_punctuation() || is_dash(c) || matches!(c, '\u{d7}' | '\u{2212}'),
    };
    if refused {
        let sign = taken(body, slice::skip(body, c.len_utf8()));
        return Err(Refused::fail(sign, Why::AfterUnit));
    }
    Ok(())
}

/// The dash of `ml-15 ml`, which is no name.
fn range_of_measures(body: &str) -> Option<&str> {
    let letters = body.find(|c: char| !c.is_ascii_alphabetic())?;
    let (unit, rest) = body.split_at_checked(letters)?;
    let behind = rest.strip_prefix(is_dash)?;
    let measured = super::unit::whole(unit).is_some() && first(behind)?.is_ascii_digit();
    measured.then(|| taken(rest, behind))
}

fn is_point(body: &str) -> bool {
    let mut bytes = body.bytes();
    bytes.next() == Some(b'.') && bytes.next().is_some_and(|byte| byte.is_ascii_digit())
}

fn number_at(body: &str) -> &str {
    match number(body) {
        Ok((rest, _)) => taken(body, rest),
        Err(nom::Err::Failure(refused)) => refused.at,
        Err(_) => word(body),
    }
}
