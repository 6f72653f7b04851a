//! Temperatures.

use washline_measure::Exact;

use crate::amount::number;
use crate::slice::{gap, is_dash, phrase};

/// A temperature at the start of `text` in °C, and what follows it. Of a range the middle.
pub(super) fn celsius(text: &str) -> Option<(f64, &str)> {
    let (first, rest) = signed(text)?;
    let mut value = first;
    let mut rest = rest;
    if let Some((high, after)) = upper(rest) {
        value = f64::midpoint(first, high);
        rest = after;
    }
    let body = gap(rest);
    let body = body.strip_prefix('°').or_else(|| phrase(body, "degrees")).map_or(body, gap);
    if let Some(rest) = phrase(body, "c").or_else(|| phrase(body, "celsius")) {
        return Some((value, rest));
    }
    let rest = phrase(body, "f").or_else(|| phrase(body, "fahrenheit"))?;
    Some(((value - 32.0) / 1.8, rest))
}

fn signed(text: &str) -> Option<(f64, &str)> {
    let (below, start) = match text.strip_prefix(['-', '\u{2212}', '\u{2013}']) {
        Some(rest) => (true, gap(rest)),
        None => (phrase(text, "minus").is_some(), phrase(text, "minus").map_or(text, gap)),
    };
    let (rest, read) = number(start).ok()?;
    let value = Exact::to_f64(read.value);
    Some((if below { -value } else { value }, rest))
}

fn upper(rest: &str) -> Option<(f64, &str)> {
    let body = gap(rest);
    let joined = body.strip_prefix(is_dash).or_else(|| phrase(body, "to"))?;
    signed(gap(joined))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperatures_are_celsius() {
        let check = |text: &str, expected: f64| {
            let read = celsius(text).map(|(value, _)| (value * 10.0).round() / 10.0);
            assert_eq!(read, Some(expected), "{text}");
        };
        check("50 C", 50.0);
        check("50C", 50.0);
        check("82.5 °C", 82.5);
        check("-18 °C", -18.0);
        check("\u{2212}18°C", -18.0);
        check("0 C", 0.0);
        check("180 F", 82.2);
        check("80-85 °C", 82.5);
        check("60 degrees C", 60.0);
        assert_eq!(celsius("50 cl"), None);
        assert_eq!(celsius("50"), None);
    }
}
