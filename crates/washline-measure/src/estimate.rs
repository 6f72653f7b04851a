//! A computed value with its uncertainty.

/// A value and its standard uncertainty, in the value's own unit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// One standard uncertainty.
    pub u: f64,
}

/// What a figure is said to be: its value, and the 95 % range around it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Interval {
    /// The value.
    pub value: f64,
    /// The low end.
    pub low: f64,
    /// The high end.
    pub high: f64,
}

impl Estimate {
    /// `value`, known exactly.
    #[must_use]
    pub const fn exact(value: f64) -> Self {
        Self { value, u: 0.0 }
    }

    /// `value` with its 95 % range `low..high`: the uncertainty is a quarter of the width.
    #[must_use]
    pub fn of_range(value: f64, low: f64, high: f64) -> Self {
        Self { value, u: (high - low).abs() / 4.0 }
    }

    /// The value minus and plus twice the uncertainty, kept within `least..most`.
    #[must_use]
    pub fn interval(self, least: f64, most: f64) -> Interval {
        let clip = |x: f64| x.max(least).min(most);
        Interval {
            value: clip(self.value),
            low: clip(self.value - 2.0 * self.u),
            high: clip(self.value + 2.0 * self.u),
        }
    }

    /// Both, as independent values, added.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { value: self.value + other.value, u: self.u.hypot(other.u) }
    }

    /// The same `factor` times.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self { value: self.value * factor, u: self.u * factor.abs() }
    }
}

impl Interval {
    /// A value without a spread.
    #[must_use]
    pub const fn point(value: f64) -> Self {
        Self { value, low: value, high: value }
    }
}

/// `value` rounded to six significant digits, as outputs show figures.
#[must_use]
pub fn six_digits(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return 0.0;
    }
    format!("{value:.5e}").parse().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_gives_back_its_ends() {
        let shown = Estimate::of_range(40.0, 32.0, 48.0).interval(0.0, f64::MAX);
        assert_eq!((shown.low, shown.high), (32.0, 48.0));
    }

    #[test]
    fn six_digits_are_kept() {
        assert!((six_digits(1234.5678) - 1234.57).abs() < 1e-9);
        assert!((six_digits(0.000_123_456_7) - 0.000_123_457).abs() < 1e-12);
        assert_eq!(six_digits(f64::NAN), 0.0);
    }
}
