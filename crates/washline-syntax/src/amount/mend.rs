//! Other ways to write an amount that is refused.

use washline_measure::{Form, Measure};

use super::{Why, about, measure, number};
use crate::reader::Reader;
use crate::slice::{gap, is_dash, phrase, skip, taken};

/// What goes, and what comes in its place.
pub(super) struct Other<'t> {
    pub gone: &'t str,
    pub text: String,
}

/// Ways to write the amount that is refused at `at`, best first.
pub(super) fn others<'t>(reader: &Reader<'t>, at: &'t str, why: Why) -> Vec<Other<'t>> {
    let texts = match why {
        Why::Improper(n, d) => vec![whole_first(n, d)],
        Why::Thousands => thousands(at),
        Why::Falls => turned(at).into_iter().collect(),
        Why::ForeignDigits => plain_digits(at).into_iter().collect(),
        Why::Touching => apart(at).into_iter().collect(),
        Why::SumTerm => fraction_of_sum(at).into_iter().collect(),
        Why::Sign => vec![String::new()],
        Why::TwoAmounts => vec![format!("({at})")],
        Why::AfterNumber | Why::AfterUnit => return around(reader, at).into_iter().collect(),
        _ => Vec::new(),
    };
    texts.into_iter().map(|text| Other { gone: at, text }).collect()
}

/// The ends of a range, as written.
pub(super) fn ends(at: &str) -> Option<(&str, &str)> {
    let at = about(at).unwrap_or(at);
    let (rest, _) = number(at).ok()?;
    let behind = gap(rest);
    let joined = behind
        .strip_prefix(is_dash)
        .or_else(|| phrase(behind, "to"))
        .or_else(|| phrase(behind, "or"))?;
    Some((taken(at, rest), gap(joined)))
}

/// Mends that look at what stands before and behind the sign or word at fault.
fn around<'t>(reader: &Reader<'t>, at: &'t str) -> Option<Other<'t>> {
    let content = crate::comment::split(crate::blank::trim(reader.whole_line())).0;
    let from = washline_text::Span::of(at, content);
    let before = content.get(..from.start as usize)?;
    let first = before.trim_end();
    let rest = gap(skip(content, from.end as usize));
    // A bullet may stand before the amount.
    let first = skip(first, first.find(|c: char| c.is_alphanumeric() || c == '.')?);
    let (_, one) = measure(first).ok().filter(|(left, _)| gap(left).is_empty())?;
    let sign = at.to_lowercase();
    let dash = sign.starts_with(is_dash);
    let Ok((after, two)) = measure(rest) else {
        // `30 ml - gin` has a sign too many, `2 x egg white` too.
        let rest = gap(rest.trim_start_matches(&*sign));
        let many = match one.measure.unit {
            Some(_) => dash || matches!(&*sign, ":" | "|" | "*" | "."),
            None => matches!(&*sign, "x" | "\u{d7}" | "*" | "."),
        };
        // The blank behind it goes too.
        let gone = taken(skip(content, from.start as usize), rest);
        let parted = before.ends_with(char::is_whitespace);
        let text = if parted { String::new() } else { " ".to_owned() };
        let named = rest.starts_with(char::is_alphabetic);
        return (many && named).then_some(Other { gone, text });
    };
    let text = match sign.as_str() {
        "and" | "plus" | "&" => joined(&one.measure, first, &two.measure, two.text)?,
        "x" | "\u{d7}" | "*" => times(&one.measure, &two.measure)?,
        "or" | "/" | "=" | "[" if one.measure.unit.is_some() => bracketed(first, two.text)?,
        _ if dash || sign == "to" => range(&one.measure, one.number, &two.measure, two.text)?,
        _ => return None,
    };
    let after = if sign == "[" { gap(after).strip_prefix(']')? } else { after };
    let gone = taken(skip(content, washline_text::Span::of(first, content).start as usize), after);
    Some(Other { gone, text })
}

/// `1 and 1/2 oz` is one number, `1 oz and 1 bsp` a sum.
fn joined(one: &Measure, first: &str, two: &Measure, second: &str) -> Option<String> {
    match (one.unit, two.unit) {
        (None, Some(_)) => mixed(first, second),
        (Some(_), Some(_)) => Some(format!("{first} + {second}")),
        _ => None,
    }
}

fn mixed(first: &str, second: &str) -> Option<String> {
    let whole = first.bytes().all(|byte| byte.is_ascii_digit());
    let fraction = second.contains('/') || !second.is_ascii();
    (whole && fraction).then(|| format!("{first} {second}"))
}

/// `2 x 30 ml` is 60 ml.
fn times(one: &Measure, two: &Measure) -> Option<String> {
    let (Form::One(count), Form::One(each)) = (one.quantity.form, two.quantity.form) else {
        return None;
    };
    let unit = two.unit.filter(|_| one.unit.is_none())?;
    let all = count.times(each)?;
    let name = if all.to_f64() > 1.0 { unit.plural() } else { unit.name() };
    Some(format!("{all} {name}"))
}

/// `10 ml to 15 ml` is `10-15 ml`, where it rises.
fn range(one: &Measure, low: &str, two: &Measure, second: &str) -> Option<String> {
    let rises = one.quantity.most() < two.quantity.middle();
    (one.unit == two.unit && rises).then(|| format!("{low}-{second}"))
}

fn bracketed(first: &str, second: &str) -> Option<String> {
    let measured = measure(second).ok()?.1.measure.unit.is_some();
    measured.then(|| format!("{first} ({second})"))
}

/// `1 + 1/2 oz` is one number.
fn fraction_of_sum(at: &str) -> Option<String> {
    let (first, second) = at.split_once('+')?;
    mixed(first.trim(), second.trim())
}

fn whole_first(n: i64, d: i64) -> String {
    let whole = n.checked_div(d).unwrap_or(0);
    match n.checked_rem(d) {
        None | Some(0) => whole.to_string(),
        Some(rest) => format!("{whole} {rest}/{d}"),
    }
}

/// `1,250` as a whole number, and as a decimal; with several signs it can only be whole.
pub(super) fn thousands(at: &str) -> Vec<String> {
    let joined: String = at.chars().filter(char::is_ascii_digit).collect();
    let Some((whole, part)) = at.split_once([',', '.']) else { return Vec::new() };
    if part.contains([',', '.']) {
        return vec![joined];
    }
    let part = part.trim_end_matches('0');
    let decimal = if part.is_empty() { whole.to_owned() } else { format!("{whole}.{part}") };
    vec![joined, decimal]
}

/// A falling range the other way round; one that stands still as its one number.
fn turned(at: &str) -> Option<String> {
    let (low, high) = ends(at)?;
    Some(if low == high { low.to_owned() } else { format!("{high}-{low}") })
}

/// Digits of other scripts as 0 to 9, where each has its nought at a known place.
fn plain_digits(at: &str) -> Option<String> {
    at.chars().map(plain_digit).collect()
}

/// Noughts of scripts whose ten digits stand in a row (Unicode Character Database,
/// category Nd): Arabic-Indic, Persian, Devanagari, Bengali, Thai, fullwidth.
const NOUGHTS: &[u32] = &[0x660, 0x6f0, 0x966, 0x9e6, 0xe50, 0xff10];

fn plain_digit(c: char) -> Option<char> {
    let code = u32::from(c);
    let nought = NOUGHTS.iter().find(|nought| (**nought..**nought + 10).contains(&code))?;
    char::from_digit(code - nought, 10)
}

/// `2lemons` with a blank between number and word.
fn apart(at: &str) -> Option<String> {
    let (rest, _) = number(at).ok()?;
    let long = rest.chars().filter(|c| c.is_alphabetic()).count() > 3;
    long.then(|| format!("{} {rest}", taken(at, rest)))
}
