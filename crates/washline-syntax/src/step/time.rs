//! How long something is done or kept.

use washline_measure::{Exact, Form};

use crate::amount::quantity;
use crate::slice::{gap, one_of, phrase};

const MINUTE: i64 = 60;
const HOUR: i64 = 60 * MINUTE;
const DAY: i64 = 24 * HOUR;

/// Units of time in seconds. A month is 30 days, a year 365.
pub(crate) const UNITS: &[(&str, i64)] = &[
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

/// How long: from the least to the most of a unit of so many seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Duration {
    low: Exact,
    high: Exact,
    unit: i64,
}

impl Duration {
    /// Seconds, from the least to the most.
    pub(crate) fn seconds(self) -> (f64, f64) {
        let unit = self.unit as f64;
        (self.low.to_f64() * unit, self.high.to_f64() * unit)
    }

    /// Hours at most.
    pub(crate) fn hours(self) -> Option<Exact> {
        self.high.times(Exact::ratio(self.unit, HOUR)?)
    }
}

/// A duration at the start of `text`, and what follows it.
pub(crate) fn duration(text: &str) -> Option<(Duration, &str)> {
    if let Some(rest) = phrase(text, "overnight") {
        let night = Exact::ONE;
        return Some((Duration { low: night, high: night, unit: OVERNIGHT }, rest));
    }
    let (rest, read) = quantity(text).ok()?;
    let (unit, after) = one_of(gap(rest), UNITS)?;
    let after = after.strip_prefix('.').filter(|r| r.starts_with(' ')).unwrap_or(after);
    let (low, high) = match read.quantity.form {
        Form::One(only) => (only, only),
        Form::Range(low, high) => (low, high),
    };
    Some((Duration { low, high, unit }, after))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_are_seconds() {
        let check = |text: &str, low: u32, high: u32, rest: &str| {
            let read = duration(text).map(|(read, rest)| (read.seconds(), rest));
            assert_eq!(read, Some(((low.into(), high.into()), rest)), "{text}");
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
