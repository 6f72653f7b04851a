//! Numbers as a card writes them.

use nom::Parser;
use nom::branch::alt;
use nom::character::complete::{char, satisfy};
use nom::combinator::opt;
use nom::sequence::preceded;
use washline_measure::Exact;
use washline_text::Span;

use super::{Read, Refused, Why};
use crate::slice::{first, gap, is_dash, skip, taken};

/// A number, and how it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Number {
    pub value: Exact,
    pub shape: Shape,
}

/// How a number was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shape {
    /// `60`
    Whole,
    /// `22.5`, `22,5`
    Decimal,
    /// `5/6`, as written.
    Fraction(i64, i64),
    /// `1 1/2`, `½`, `half`
    Other,
}

/// An amount's number has at most so many digits before the point.
const DIGITS: usize = 9;
/// And so many behind it.
const DECIMALS: usize = 6;
/// The largest denominator.
const FINEST: i64 = 64;

/// The longest number at the start of `input`: mixed, fraction, vulgar sign,
/// decimal, integer. It may be nought.
pub(crate) fn number(input: &str) -> Read<'_, Number> {
    match first(input) {
        Some('0'..='9') => in_digits(input),
        Some('.') => point(input),
        Some(c) if c.is_ascii() => Err(Refused::none(input)),
        Some(_) => vulgar(input).or_else(|_| foreign(input)),
        None => Err(Refused::none(input)),
    }
}

/// A number whose first digits are known: what follows them says which form it has.
fn in_digits(input: &str) -> Read<'_, Number> {
    let (rest, digits) = digit1(input)?;
    match rest.as_bytes() {
        [b'.' | b',', b'0'..=b'9', ..] => decimal(input, digits, rest),
        // A blank before a word is the usual case, and ends an integer.
        [] | [b'a'..=b'z' | b'A'..=b'Z', ..] => integer(rest, digits),
        [b' ', b'a'..=b'z' | b'A'..=b'Z', ..] => integer(rest, digits),
        _ => alt((|_| mixed(input, digits, rest), |_| proper(input), |_| integer(rest, digits)))
            .parse(rest),
    }
}

fn integer<'t>(rest: &'t str, digits: &'t str) -> Read<'t, Number> {
    let value = Exact::whole(whole(digits)?);
    Ok((rest, Number { value, shape: Shape::Whole }))
}

fn digit1(input: &str) -> Read<'_, &str> {
    let count = input.bytes().take_while(u8::is_ascii_digit).count();
    match input.split_at_checked(count) {
        Some((digits, rest)) if count > 0 => Ok((rest, digits)),
        _ => Err(Refused::none(input)),
    }
}

fn whole(digits: &str) -> Result<i64, nom::Err<Refused<'_>>> {
    if digits.len() > DIGITS {
        return Err(Refused::fail(digits, Why::TooLong));
    }
    digits.parse().map_err(|_| Refused::fail(digits, Why::TooLong))
}

/// Digits, a point or a comma, digits.
fn decimal<'t>(input: &'t str, integer: &'t str, rest: &'t str) -> Read<'t, Number> {
    let comma = rest.starts_with(',');
    let (rest, part) = digit1(skip(rest, 1))?;
    let all = taken(input, rest);
    let groups = part.len() == 3 && (comma || part == "000") && !integer.starts_with('0');
    if groups {
        return Err(Refused::fail(taken(input, more_groups(rest)), Why::Thousands));
    }
    if integer.len() > DIGITS || part.len() > DECIMALS {
        return Err(Refused::fail(all, Why::TooLong));
    }
    let value = if comma { Exact::decimal(&all.replace(',', ".")) } else { Exact::decimal(all) };
    let value = value.ok_or_else(|| Refused::fail(all, Why::TooLong))?;
    Ok((rest, Number { value, shape: Shape::Decimal }))
}

/// What follows further groups of three digits: `,345,678`.
fn more_groups(mut rest: &str) -> &str {
    while let Some(behind) = rest.strip_prefix([',', '.']) {
        let digits = behind.bytes().take_while(u8::is_ascii_digit).count();
        if digits != 3 {
            break;
        }
        rest = skip(behind, digits);
    }
    rest
}

/// `.75`
fn point(input: &str) -> Read<'_, Number> {
    let (rest, part) = preceded(char('.'), digit1).parse(input)?;
    let all = taken(input, rest);
    let value = Exact::decimal(all).filter(|_| part.len() <= DECIMALS);
    let value = value.ok_or_else(|| Refused::fail(all, Why::TooLong))?;
    Ok((rest, Number { value, shape: Shape::Decimal }))
}

/// An integer, then a fraction behind a blank, behind a dash, or as a sign at once.
fn mixed<'t>(input: &'t str, digits: &'t str, rest: &'t str) -> Read<'t, Number> {
    let behind = gap(rest);
    let (behind, dash) = opt(satisfy(is_dash)).parse(behind)?;
    let behind = gap(behind);
    let parted = dash.is_some() || behind.len() < rest.len();
    let whole = whole(digits)?;
    let (rest, (n, d)) = match first(behind) {
        Some('0'..='9') if parted => parts(behind).map_err(|e| with_whole(e, input, whole))?,
        _ => sign(behind)?,
    };
    let above = whole.checked_mul(d).and_then(|whole| whole.checked_add(n));
    let value = above.and_then(|above| Exact::ratio(above, d));
    let value = value.ok_or_else(|| Refused::fail(taken(input, rest), Why::TooLong))?;
    Ok((rest, Number { value, shape: Shape::Other }))
}

/// Behind an integer, a fraction of a whole or more is refused together with it.
fn with_whole<'t>(
    error: nom::Err<Refused<'t>>,
    input: &'t str,
    whole: i64,
) -> nom::Err<Refused<'t>> {
    let nom::Err::Failure(Refused { at, why: Why::Improper(n, d) }) = error else { return error };
    let all = input.get(..Span::of(at, input).end as usize).unwrap_or(at);
    let above = whole.saturating_mul(d).saturating_add(n);
    Refused::fail(all, Why::Improper(above, d))
}

/// `3/4`, with blanks round its slash or without.
fn proper(input: &str) -> Read<'_, Number> {
    let (rest, (n, d)) = parts(input)?;
    let value = Exact::ratio(n, d).ok_or_else(|| Refused::none(input))?;
    Ok((rest, Number { value, shape: Shape::Fraction(n, d) }))
}

/// The two numbers of a fraction below one.
fn parts(input: &str) -> Read<'_, (i64, i64)> {
    let (rest, above) = digit1(input)?;
    let slash = |c: char| matches!(c, '/' | '\u{2044}' | '\u{2215}');
    let (rest, _) = satisfy(slash).parse(gap(rest))?;
    let (rest, below) = digit1(gap(rest))?;
    let all = taken(input, rest);
    let (n, d) = (whole(above)?, whole(below)?);
    let why = match (n, d) {
        (_, 0) => Why::ZeroDenominator,
        (0, _) => Why::Zero,
        _ if d > FINEST => Why::TooFine,
        _ if n >= d => Why::Improper(n, d),
        _ => return Ok((rest, (n, d))),
    };
    Err(Refused::fail(all, why))
}

/// One sign that is a fraction.
fn vulgar(input: &str) -> Read<'_, Number> {
    let (rest, (n, d)) = sign(input)?;
    let value = Exact::ratio(n, d).ok_or_else(|| Refused::none(input))?;
    Ok((rest, Number { value, shape: Shape::Other }))
}

fn sign(input: &str) -> Read<'_, (i64, i64)> {
    let sign = first(input).ok_or_else(|| Refused::none(input))?;
    let value = of_sign(sign).ok_or_else(|| Refused::none(input))?;
    Ok((skip(input, sign.len_utf8()), value))
}

/// The value of a vulgar fraction sign.
///
/// Source: the Unicode Character Database, numeric values of category No.
const fn of_sign(sign: char) -> Option<(i64, i64)> {
    Some(match sign {
        '¼' => (1, 4),
        '½' => (1, 2),
        '¾' => (3, 4),
        '⅐' => (1, 7),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '↉' => (0, 3),
        _ => return None,
    })
}

/// Digits that are not 0 to 9 are refused, not guessed.
fn foreign(input: &str) -> Read<'_, Number> {
    let stop = input.find(|c: char| !c.is_numeric()).unwrap_or(input.len());
    match input.get(..stop) {
        Some(digits) if !digits.is_empty() => Err(Refused::fail(digits, Why::ForeignDigits)),
        _ => Err(Refused::none(input)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The value and what is left, or the reason of a refusal.
    fn check(input: &str, expected: &str) {
        let read = match number(input) {
            Ok((rest, number)) => format!("{}|{rest}", number.value),
            Err(nom::Err::Failure(refused)) => format!("{:?} {}", refused.why, refused.at),
            Err(_) => "none".to_owned(),
        };
        assert_eq!(read, expected, "{input}");
    }

    #[test]
    fn numbers_of_every_form() {
        check("60 ml", "60| ml");
        check("22.5", "22.5|");
        check(".75 oz", "0.75| oz");
        check("22,5 ml", "22.5| ml");
        check("0,125 l", "0.125| l");
        check("1.250 l", "1.25| l");
        check("3/4", "0.75|");
        check("3 / 4 oz", "0.75| oz");
        check("3\u{2044}4", "0.75|");
        check("1\u{2215}3", "1/3|");
        check("1 1/2", "1.5|");
        check("1-1/2", "1.5|");
        check("1 - 1/2 oz", "1.5| oz");
        check("1\u{2013}1/2", "1.5|");
        check("2-3/4", "2.75|");
        check("1½ oz", "1.5| oz");
        check("1 ½", "1.5|");
        check("1-½", "1.5|");
        check("10-15", "10|-15");
        check("0", "0|");
        check("007", "7|");
        check("1,", "1|,");
        check("1.", "1|.");
    }

    /// Unicode Character Database, numeric values: every fraction sign of the blocks
    /// Latin-1 Supplement and Number Forms, nought thirds with them.
    #[test]
    fn all_fraction_signs_have_their_value() {
        let signs = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞↉";
        let values = "0.25 0.5 0.75 1/7 1/9 0.1 1/3 2/3 0.2 0.4 0.6 0.8 1/6 5/6 0.125 0.375 0.625 \
                      0.875 0";
        for (sign, value) in signs.chars().zip(values.split_whitespace()) {
            check(&sign.to_string(), &format!("{value}|"));
        }
    }

    #[test]
    fn what_must_not_be_guessed_is_refused() {
        check("1,000", "Thousands 1,000");
        check("1,250 ml", "Thousands 1,250");
        check("1.000", "Thousands 1.000");
        check("3/2", "Improper(3, 2) 3/2");
        check("4/4", "Improper(4, 4) 4/4");
        check("1/1", "Improper(1, 1) 1/1");
        check("3/0", "ZeroDenominator 3/0");
        check("0/4", "Zero 0/4");
        check("1/128", "TooFine 1/128");
        check("1234567890", "TooLong 1234567890");
        check("1.1234567", "TooLong 1.1234567");
        check("1 5/4", "Improper(9, 4) 1 5/4");
        check("12,345,678 ml", "Thousands 12,345,678");
        check("\u{ff16}\u{ff10} ml", "ForeignDigits \u{ff16}\u{ff10}");
        check("\u{663} ml", "ForeignDigits \u{663}");
    }

    #[test]
    fn other_text_is_no_number() {
        for text in ["", "gin", ".", "-1", "/2", "é"] {
            check(text, "none");
        }
    }
}
