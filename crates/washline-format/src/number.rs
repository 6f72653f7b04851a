//! One spelling of numbers and units.

use washline_measure::{Exact, Form, Measure, Unit, UnitKind};

use crate::Fractions;

/// `measure` in its one spelling; `written` is the number as the line has it.
#[must_use]
pub fn measure(measure: &Measure, written: &str, fractions: Fractions) -> String {
    let style = Style::of(measure.unit, written, fractions);
    let number = quantity(measure, style);
    let number = if is_doubtful(measure.unit, &number) && !written.contains('/') {
        written.split_whitespace().collect::<Vec<_>>().join(" ")
    } else {
        number
    };
    let Some(unit) = measure.unit else { return number };
    let many = measure.quantity.most() > Exact::ONE;
    format!("{number} {}", if many { unit.plural() } else { unit.name() })
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Style {
    Decimal,
    Fraction,
}

impl Style {
    /// Metric amounts are decimals; others as the house, or the line, has them.
    fn of(unit: Option<Unit>, written: &str, fractions: Fractions) -> Self {
        let metric = matches!(unit.map(Unit::kind), Some(UnitKind::Metric | UnitKind::Mass));
        match fractions {
            _ if metric && !is_fraction(written) => Self::Decimal,
            Fractions::Decimal => Self::Decimal,
            Fractions::Fraction => Self::Fraction,
            Fractions::AsWritten if is_fraction(written) => Self::Fraction,
            Fractions::AsWritten => Self::Decimal,
        }
    }
}

/// Whether a fraction of what bars count could be taken for a range: `3/4 dash`, where the line
/// has `¾ dash` or `0.75 dash`.
fn is_doubtful(unit: Option<Unit>, number: &str) -> bool {
    let exact =
        |unit: Unit| matches!(unit.kind(), UnitKind::Metric | UnitKind::Mass | UnitKind::Customary);
    let rest = number.rsplit(' ').next().unwrap_or(number);
    !unit.is_some_and(exact) && rest.contains('/') && !rest.starts_with("1/")
}

/// Whether a number is written with a stroke, a fraction sign, or as `half`.
fn is_fraction(written: &str) -> bool {
    written.contains(['/', '\u{2044}', '\u{2215}'])
        || written.to_ascii_lowercase().contains("half")
        || written
            .chars()
            .any(|c| matches!(c, '\u{bc}'..='\u{be}' | '\u{2150}'..='\u{215f}' | '\u{2189}'))
}

fn quantity(measure: &Measure, style: Style) -> String {
    let about = if measure.quantity.approximate { "~" } else { "" };
    match measure.quantity.form {
        Form::One(number) => format!("{about}{}", exact(number, style)),
        Form::Range(low, high) => {
            let (low, high) = (exact(low, style), exact(high, style));
            // A hyphen beside a fraction would make a mixed number.
            let joint = if low.contains('/') || high.contains('/') { " to " } else { "-" };
            format!("{about}{low}{joint}{high}")
        }
    }
}

fn exact(number: Exact, style: Style) -> String {
    let (n, d) = (number.numerator(), number.denominator());
    if d == 1 {
        return n.to_string();
    }
    let decimal = number.to_string();
    let ends = !decimal.contains('/') && decimal.len() <= 7;
    let bar = matches!(d, 2 | 3 | 4 | 6 | 8 | 16 | 32);
    if style == Style::Decimal && ends || style == Style::Fraction && !bar && ends {
        return decimal;
    }
    match (n / d, n % d) {
        (0, rest) => format!("{rest}/{d}"),
        (whole, rest) => format!("{whole} {rest}/{d}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use washline_measure::Quantity;

    fn spelled(n: i64, d: i64, unit: Unit, written: &str, fractions: Fractions) -> String {
        let quantity = Quantity::exactly(Exact::ratio(n, d).unwrap());
        measure(&Measure { quantity, unit: Some(unit) }, written, fractions)
    }

    #[test]
    fn ounces_as_the_house_says() {
        assert_eq!(spelled(3, 4, Unit::Oz, ".75", Fractions::Fraction), "3/4 oz");
        assert_eq!(spelled(7, 4, Unit::Oz, "1¾", Fractions::Decimal), "1.75 oz");
        assert_eq!(spelled(7, 4, Unit::Oz, "1¾", Fractions::AsWritten), "1 3/4 oz");
        assert_eq!(spelled(3, 4, Unit::Oz, ".75", Fractions::AsWritten), "0.75 oz");
    }

    #[test]
    fn millilitres_are_decimals() {
        assert_eq!(spelled(45, 2, Unit::Ml, "22.50", Fractions::Fraction), "22.5 ml");
        assert_eq!(spelled(2, 1, Unit::Dash, "two", Fractions::AsWritten), "2 dashes");
        assert_eq!(spelled(1, 1, Unit::Dash, "a", Fractions::AsWritten), "1 dash");
    }

    #[test]
    fn no_fraction_is_made_that_reads_as_a_range() {
        assert_eq!(spelled(3, 4, Unit::Dash, "¾", Fractions::AsWritten), "¾ dash");
        assert_eq!(spelled(3, 4, Unit::Dash, "0.75", Fractions::Fraction), "0.75 dash");
        assert_eq!(spelled(1, 2, Unit::Dash, "½", Fractions::AsWritten), "1/2 dash");
    }

    #[test]
    fn what_never_ends_stays_a_fraction() {
        assert_eq!(spelled(2, 3, Unit::Oz, "2/3", Fractions::Decimal), "2/3 oz");
    }
}
