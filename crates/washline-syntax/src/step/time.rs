//! How long something is done or kept.

use washline_measure::{Exact, Form, Quantity};

use crate::amount::quantity;
use crate::slice::{gap, one_of, phrase};

const MINUTE: i64 = 60;
const HOUR: i64 = 60 * MINUTE;
const DAY: i64 = 24 * HOUR;

/// Units of time in seconds. A month is 30 days, a year 365.
const UNITS: &[(&str, i64)] = &[
    ("seconds", 1),
    ("second", 1),
    ("secs", 1),
    ("sec", 1),
    ("s", 1),
    ("minutes", MINUTE),
    ("minute", MINUTE),
    ("mins", MINUTE),
    ("min", MINUTE),
    ("hours", HOUR),
    ("hour", HOUR),
    ("hrs", HOUR),
    ("hr", HOUR),
    ("h", HOUR),
    ("days", DAY),
    ("day", DAY),
    ("weeks", 7 * DAY),
    ("week", 7 * DAY),
    ("months", 30 * DAY),
    ("month", 30 * DAY),
    ("years", 365 * DAY),
    ("year", 365 * DAY),
];

/// A night's length.
const OVERNIGHT: i64 = 12 * HOUR;

/// A duration at the start of `text` in seconds, low and high, and what follows it.
pub(crate) fn duration(text: &str) -> Option<((Exact, Exact), &str)> {
    if let Some(rest) = phrase(text, "overnight") {
        let night = Exact::whole(OVERNIGHT);
        return Some(((night, night), rest));
    }
    let (rest, read) = quantity(text).ok()?;
    let (unit, after) = one_of(gap(rest), UNITS)?;
    let after = after.strip_prefix('.').filter(|r| r.starts_with(' ')).unwrap_or(after);
    let (low, high) = ends(read.quantity);
    let unit = Exact::whole(unit);
    Some(((low.times(unit)?, high.times(unit)?), after))
}

const fn ends(quantity: Quantity) -> (Exact, Exact) {
    match quantity.form {
        Form::One(only) => (only, only),
        Form::Range(low, high) => (low, high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_are_seconds() {
        let check = |text: &str, low: i64, high: i64, rest: &str| {
            let read = duration(text);
            assert_eq!(read, Some(((Exact::whole(low), Exact::whole(high)), rest)), "{text}");
        };
        check("12 s", 12, 12, "");
        check("12s, strain", 12, 12, ", strain");
        check("10-15 seconds", 10, 15, "");
        check("2 min. more", 120, 120, " more");
        check("half an hour", 1800, 1800, "");
        check("an hour", 3600, 3600, "");
        check("1 1/2 h", 5400, 5400, "");
        check("2 weeks", 1_209_600, 1_209_600, "");
        check("a month", 2_592_000, 2_592_000, "");
        check("overnight", 43_200, 43_200, "");
        assert_eq!(duration("12 m"), None);
        assert_eq!(duration("12 sprigs"), None);
    }
}
