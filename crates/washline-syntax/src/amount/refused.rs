//! The words for an amount that is refused, and how to mend it.

use washline_text::Edit;

use super::mend::{self, Other};
use super::{Refused, Why};
use crate::Problem;
use crate::reader::Reader;
use crate::slice::{end, is_dash};

/// Tells why an amount is refused.
pub(crate) fn tell<'t>(reader: &mut Reader<'t>, refused: Refused<'t>) {
    let problem = problem(reader, refused);
    reader.tell(problem);
}

fn problem<'t>(reader: &Reader<'t>, refused: Refused<'t>) -> Problem {
    let Refused { at, why } = refused;
    let (message, help) = words(at, why);
    let mut problem = Problem::new("unreadable-amount", reader.span(at), message, help);
    for Other { gone, text } in mend::others(reader, at, why) {
        let title = match text.trim() {
            "" => format!("take `{}` out", gone.trim()),
            text => format!("write `{text}`"),
        };
        problem = problem.perhaps(title, vec![reader.replace(gone, text)]);
    }
    if let (Why::FromZero, Some((_, most))) = (why, mend::ends(at)) {
        let end = reader.span(end(crate::comment::split(content(reader)).0));
        let edits = vec![reader.replace(at, most), Edit::insert(end.start, ", optional")];
        problem = problem.perhaps(format!("write `{most}` and `, optional`"), edits);
    }
    problem
}

/// The content of the line at hand.
fn content<'t>(reader: &Reader<'t>) -> &'t str {
    crate::blank::trim(reader.whole_line())
}

/// What is wrong, and what to do.
fn words(at: &str, why: Why) -> (String, String) {
    let quoted = format!("`{at}`");
    let (message, help) = match why {
        Why::NotThis => (format!("{quoted} is no amount"), "write a number, then its unit"),
        Why::Zero => (
            format!("{quoted}: an amount of nothing"),
            "write how much goes in, or leave the line out",
        ),
        Why::FromZero => (
            format!("{quoted} is a range that starts at nothing"),
            "write the most that goes in, and `, optional` at the end of the line",
        ),
        Why::Falls => {
            (format!("{quoted} is a range that does not rise"), "write the smaller number first")
        }
        Why::ZeroDenominator => {
            (format!("{quoted} divides by nothing"), "write a fraction such as `3/4`")
        }
        Why::TooFine => (
            format!("{quoted} is finer than anyone pours"),
            "write a fraction of 64ths at most, or a decimal number",
        ),
        Why::Improper(..) => (
            format!("{quoted} is a fraction of a whole or more, and may be a slip"),
            "write the whole number before the fraction: `1 1/2`",
        ),
        Why::TooLong => (
            format!("{quoted} has more digits than an amount can have"),
            "write at most 9 digits, and 6 behind the point",
        ),
        Why::Thousands => (
            match mend::thousands(at).as_slice() {
                [whole, decimal] => {
                    format!("{quoted} is {whole} in one country and {decimal} in another")
                }
                _ => {
                    format!("{quoted} parts its thousands by signs, which others read as decimals")
                }
            },
            "write thousands without a sign, and decimals with a point and without three noughts",
        ),
        Why::ForeignDigits => {
            (format!("{quoted} are not the digits 0 to 9"), "write the amount in digits 0 to 9")
        }
        Why::Sign => (
            format!("an amount has no sign, `{at}` has one"),
            "write the number alone; a step starts with `- `",
        ),
        Why::TwoNumbers => (
            format!(
                "a second number, {quoted}, stands behind the amount with nothing between them"
            ),
            "write one amount: a range is `2-3`, a half more is `2 1/2`",
        ),
        Why::TwoAmounts => (
            format!("a second amount, {quoted}, stands behind the first"),
            "write the same amount again in brackets: `30 ml (1 oz)`, or add it with `+`",
        ),
        Why::Touching => (
            format!("{quoted} is a number with letters that are no unit"),
            "write the amount first, then a blank, then the name",
        ),
        Why::AfterNumber => {
            (format!("{quoted} stands where a unit or a name should"), behind_number(at))
        }
        Why::AfterUnit => (format!("{quoted} stands where the name should"), behind_unit(at)),
        Why::SumTerm => (
            format!("`{}` is a sum with a term that is no measure", at.trim()),
            "write a number and a unit on both sides of `+`: `3/4 oz + 1 bsp`",
        ),
    };
    (message, help.to_owned())
}

fn behind_number(at: &str) -> &'static str {
    match at.to_ascii_lowercase().as_str() {
        "%" => "write the amount first and the strength behind the name: `30 ml rum, 43 %`",
        ":" => "write the amount first and the ratio behind the name: `30 ml sugar syrup, 2:1`",
        "$" | "\u{20ac}" | "\u{a3}" | "\u{a5}" => {
            "write the amount here and the money in `cost:` or `price:`"
        }
        "'" | "\"" | "\u{2032}" | "\u{2033}" | "\u{2019}" => {
            "write how many here, and how long behind the name"
        }
        "x" | "\u{d7}" | "*" => {
            "write the number without it, and a size in brackets: `2 egg whites`, `2 cans (330 ml) soda water`"
        }
        "and" | "plus" | "&" => "write the number in one: `1 1/2`; two amounts are added with `+`",
        "or" | "to" => "write a range as `1-2`",
        "[" => "write the second amount in round brackets",
        "." => "write the number without the full stop",
        _ => "write the amount, its unit, then the name",
    }
}

fn behind_unit(at: &str) -> &'static str {
    match at.to_ascii_lowercase().as_str() {
        "/" | "=" | "[" | "or" => "write the same amount again in round brackets: `30 ml (1 oz)`",
        "and" | "plus" | "&" => "add a second amount with `+`: `3/4 oz + 1 bsp`",
        "to" => "write a range before its unit: `10-15 ml`",
        sign if sign.starts_with(is_dash) => {
            "write a range before its unit (`10-15 ml`), and the name with nothing before it"
        }
        _ => "write the name with nothing between it and the amount",
    }
}
