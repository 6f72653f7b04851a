//! Numbers as people read them.

use crate::Interval;

/// A number to three significant digits or to the unit, whichever is more, without trailing
/// noughts.
#[must_use]
pub fn number(value: f64) -> String {
    to_places(value, places(value))
}

/// The decimals of three significant digits.
fn places(value: f64) -> usize {
    match value.abs() {
        size if size < 1e-9 => 0,
        size if size < 0.01 => 4,
        size if size < 1.0 => 3,
        size if size < 10.0 => 2,
        size if size < 100.0 => 1,
        _ => 0,
    }
}

fn to_places(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => &text,
    };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// `16.1 to 18.3`; nothing where there is no spread.
#[must_use]
pub fn spread(low: f64, high: f64) -> String {
    to(&number(low), &number(high))
}

/// A value and its range (`-6.5`, `-8.5 to -4.5`), neither with more digits than the range lets
/// it have: two of half its width, three in all. The range is empty where there is none.
#[must_use]
pub fn within(interval: Interval) -> (String, String) {
    let half = (interval.high - interval.low).abs() / 2.0;
    let most = match half {
        half if half < 1e-9 => usize::MAX,
        half if half >= 9.5 => 0,
        half if half >= 0.95 => 1,
        half if half >= 0.095 => 2,
        _ => 3,
    };
    let shown = |value: f64| to_places(value, places(value).min(most));
    (shown(interval.value), to(&shown(interval.low), &shown(interval.high)))
}

fn to(low: &str, high: &str) -> String {
    if low == high { String::new() } else { format!("{low} to {high}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_digits_are_enough_behind_a_bar() {
        let shown = [0.0, -0.0, 0.004, 0.1234, 1.0, 4.567, 17.16, 250.4, 1234.5].map(number);
        assert_eq!(shown, ["0", "0", "0.004", "0.123", "1", "4.57", "17.2", "250", "1234"]);
        assert_eq!(spread(16.14, 18.26), "16.1 to 18.3");
        assert_eq!(spread(5.0, 5.0), "");
    }

    #[test]
    fn nobody_claims_more_than_is_known() {
        let shown = |value, low, high| within(Interval { value, low, high });
        let pair = |value: &str, range: &str| (value.to_owned(), range.to_owned());
        assert_eq!(shown(-6.463, -8.463, -4.463), pair("-6.5", "-8.5 to -4.5"));
        assert_eq!(shown(-0.703, -2.7, 1.3), pair("-0.7", "-2.7 to 1.3"));
        assert_eq!(shown(16.14, 15.08, 17.2), pair("16.1", "15.1 to 17.2"));
        assert_eq!(shown(4.567, 4.567, 4.567), pair("4.57", ""));
        assert_eq!(shown(42.3, 30.1, 54.5), pair("42", "30 to 54"));
    }
}
