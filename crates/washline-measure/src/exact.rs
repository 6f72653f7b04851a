//! Exact rational numbers, as a spec states them.

use std::fmt;

use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub, Zero};

/// An exact rational number. Arithmetic is checked: what does not fit is `None`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Exact(Ratio<i128>);

impl Exact {
    /// Nought.
    pub const ZERO: Self = Self(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Self = Self(Ratio::new_raw(1, 1));

    /// The whole number `n`.
    #[must_use]
    pub const fn whole(n: i64) -> Self {
        Self(Ratio::new_raw(n as i128, 1))
    }

    /// `numerator / denominator` in lowest terms; `None` when the denominator is 0.
    #[must_use]
    pub fn ratio(numerator: i64, denominator: i64) -> Option<Self> {
        if denominator == 0 {
            return None;
        }
        Some(Self(Ratio::new(i128::from(numerator), i128::from(denominator))))
    }

    /// The number that plain decimal digits spell: `60`, `22.5`, `.75`. No sign,
    /// at most 12 digits before and after the point.
    #[must_use]
    pub fn decimal(digits: &str) -> Option<Self> {
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        if whole.len() > 12 || part.len() > 12 || (whole.is_empty() && part.is_empty()) {
            return None;
        }
        let mut numerator: i128 = 0;
        for byte in whole.bytes().chain(part.bytes()) {
            if !byte.is_ascii_digit() {
                return None;
            }
            numerator = numerator * 10 + i128::from(byte - b'0');
        }
        let power = u32::try_from(part.len()).ok()?;
        Some(Self(Ratio::new(numerator, 10_i128.checked_pow(power)?)))
    }

    /// The numerator in lowest terms.
    #[must_use]
    pub const fn numerator(self) -> i128 {
        *self.0.numer()
    }

    /// The denominator in lowest terms, above 0.
    #[must_use]
    pub const fn denominator(self) -> i128 {
        *self.0.denom()
    }

    /// Whether it is nought.
    #[must_use]
    pub fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// Whether it is a whole number.
    #[must_use]
    pub fn is_whole(self) -> bool {
        self.0.is_integer()
    }

    /// The nearest floating-point number.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        self.numerator() as f64 / self.denominator() as f64
    }

    /// The sum.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(&other.0).map(Self)
    }

    /// The difference.
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        self.0.checked_sub(&other.0).map(Self)
    }

    /// The product.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        self.0.checked_mul(&other.0).map(Self)
    }

    /// The quotient; `None` for a division by 0.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        if other.is_zero() {
            return None;
        }
        self.0.checked_div(&other.0).map(Self)
    }
}

/// A number that ends as a decimal is written as one (`1.5`), another as a
/// fraction in lowest terms (`1/3`).
impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (mut n, d) = (self.numerator(), self.denominator());
        let Some(power) = decimal_places(d) else {
            return write!(f, "{n}/{d}");
        };
        if n < 0 {
            f.write_str("-")?;
            n = -n;
        }
        write!(f, "{}", n / d)?;
        if power == 0 {
            return Ok(());
        }
        f.write_str(".")?;
        let mut rest = n % d;
        for _ in 0..power {
            rest *= 10;
            write!(f, "{}", rest / d)?;
            rest %= d;
        }
        Ok(())
    }
}

/// How many decimal places `1 / d` takes; `None` when it never ends.
fn decimal_places(mut d: i128) -> Option<u32> {
    let (mut twos, mut fives) = (0, 0);
    while d % 2 == 0 {
        d /= 2;
        twos += 1;
    }
    while d % 5 == 0 {
        d /= 5;
        fives += 1;
    }
    (d == 1).then_some(twos.max(fives))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(n: i64, d: i64) -> String {
        Exact::ratio(n, d).map(|x| x.to_string()).unwrap_or_default()
    }

    #[test]
    fn decimals_end_and_others_stay_fractions() {
        assert_eq!(shown(3, 4), "0.75");
        assert_eq!(shown(45, 2), "22.5");
        assert_eq!(shown(10, 12), "5/6");
        assert_eq!(shown(-1, 8), "-0.125");
        assert_eq!(shown(60, 1), "60");
    }

    #[test]
    fn decimals_are_read_exactly() {
        assert_eq!(Exact::decimal(".75"), Exact::ratio(3, 4));
        assert_eq!(Exact::decimal("22.5"), Exact::ratio(45, 2));
        assert_eq!(Exact::decimal("1e3"), None);
        assert_eq!(Exact::decimal(""), None);
        assert_eq!(Exact::decimal("1234567890123"), None);
    }

    #[test]
    fn division_by_nothing_is_no_number() {
        assert_eq!(Exact::ratio(1, 0), None);
        assert_eq!(Exact::ONE.over(Exact::ZERO), None);
    }
}
