//! How much a spec says, as it says it.

use std::fmt;

use crate::{Exact, Unit};

/// The number of an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Form {
    /// One number.
    One(Exact),
    /// From the first to the second, rising.
    Range(Exact, Exact),
}

/// A number with the writer's own doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quantity {
    /// The number or range.
    pub form: Form,
    /// Written with `~` or `about`: 10 % standard uncertainty.
    pub approximate: bool,
}

impl Quantity {
    /// Just `number`.
    #[must_use]
    pub const fn exactly(number: Exact) -> Self {
        Self { form: Form::One(number), approximate: false }
    }

    /// The number, or the middle of the range.
    #[must_use]
    pub fn middle(self) -> Exact {
        match self.form {
            Form::One(number) => number,
            Form::Range(low, high) => {
                low.plus(high).and_then(|sum| sum.over(Exact::whole(2))).unwrap_or(low)
            }
        }
    }

    /// The largest number it may mean.
    #[must_use]
    pub const fn most(self) -> Exact {
        match self.form {
            Form::One(number) | Form::Range(_, number) => number,
        }
    }

    /// The standard uncertainty that the writing itself carries: the width of a
    /// range over the square root of 12, a tenth of an approximation.
    #[must_use]
    pub fn uncertainty(self) -> f64 {
        let spread = match self.form {
            Form::One(_) => 0.0,
            Form::Range(low, high) => (high.to_f64() - low.to_f64()) / 12_f64.sqrt(),
        };
        let doubt = if self.approximate { 0.1 * self.middle().to_f64() } else { 0.0 };
        spread.hypot(doubt)
    }
}

/// As the figures' `lines` show it: `1.5`, `5/6`, `10..15`, `~8`.
impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.approximate {
            f.write_str("~")?;
        }
        match self.form {
            Form::One(number) => write!(f, "{number}"),
            Form::Range(low, high) => write!(f, "{low}..{high}"),
        }
    }
}

/// A quantity with its unit; no unit counts whole things.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Measure {
    /// How many.
    pub quantity: Quantity,
    /// Of what.
    pub unit: Option<Unit>,
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.quantity)?;
        let Some(unit) = self.unit else { return Ok(()) };
        let one = self.quantity.most() <= Exact::ONE;
        write!(f, " {}", if one { unit.name() } else { unit.plural() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_is_its_middle_with_a_flat_spread() {
        let range =
            Quantity { form: Form::Range(Exact::whole(10), Exact::whole(16)), approximate: false };
        assert_eq!(range.middle(), Exact::whole(13));
        assert!((range.uncertainty() - 6.0 / 12_f64.sqrt()).abs() < 1e-12);
        assert_eq!(range.to_string(), "10..16");
    }

    #[test]
    fn about_is_a_tenth() {
        let about = Quantity { approximate: true, ..Quantity::exactly(Exact::whole(8)) };
        assert!((about.uncertainty() - 0.8).abs() < 1e-12);
        assert_eq!(about.to_string(), "~8");
    }
}
