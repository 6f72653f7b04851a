//! Amounts as a bar pours and writes them.

use washline_measure::{Exact, Measure, Ounce, Unit, UnitKind};

/// Ounces as jiggers are marked, in sixteenths and twelfths that bars use.
const OUNCES: &[(i64, i64)] = &[
    (1, 8),
    (1, 6),
    (1, 4),
    (1, 3),
    (3, 8),
    (1, 2),
    (2, 3),
    (3, 4),
    (1, 1),
    (5, 4),
    (4, 3),
    (3, 2),
    (5, 3),
    (7, 4),
    (2, 1),
    (9, 4),
    (5, 2),
    (11, 4),
    (3, 1),
    (7, 2),
    (4, 1),
    (9, 2),
    (5, 1),
    (6, 1),
    (7, 1),
    (8, 1),
];

/// The amount in `unit` that a bar would write for `ml` millilitres: the nearest that it can
/// pour, within 5 %, or the plain number where none is so near.
#[must_use]
pub fn pourable(ml: f64, unit: Unit, ounce: Ounce) -> Option<String> {
    let one = unit.ml(ounce)?.to_f64();
    match unit {
        Unit::Oz | Unit::ImpOz => {
            let near = |by: f64| {
                let of = |(n, d): &(i64, i64)| *n as f64 / *d as f64 * by;
                OUNCES
                    .iter()
                    .map(|pair| (pair, (of(pair) - ml).abs() / ml.max(of(pair))))
                    .filter(|(_, off)| *off <= 0.05)
                    .min_by(|a, b| a.1.total_cmp(&b.1))
            };
            let best = near(one).or_else(|| near(30.0));
            let text = best.map_or_else(|| trimmed(ml / one), |((n, d), _)| fraction(*n, *d));
            Some(format!("{text} {}", unit.name()))
        }
        Unit::Ml => Some(format!("{} ml", trimmed(round_ml(ml)))),
        _ => Some(format!("{} {}", trimmed(ml / one), unit.name())),
    }
}

/// The nearest 2.5 ml where that is within 5 %, else the nearest 0.5 ml.
pub(crate) fn round_ml(ml: f64) -> f64 {
    let step = (ml / 2.5).round() * 2.5;
    if step > 0.0 && (step - ml).abs() / ml <= 0.05 {
        return step;
    }
    if ml >= 1.0 { (ml * 2.0).round() / 2.0 } else { (ml * 20.0).round() / 20.0 }
}

/// `7/4` as `1 3/4`.
pub(crate) fn fraction(n: i64, d: i64) -> String {
    match (n / d, n % d) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{d}"),
        (whole, rest) => format!("{whole} {rest}/{d}"),
    }
}

/// At most two decimals, three or four of what is small, no trailing noughts.
pub(crate) fn trimmed(value: f64) -> String {
    let places = match value.abs() {
        size if size >= 0.2 => 2,
        size if size >= 0.02 => 3,
        _ => 4,
    };
    let text = format!("{value:.places$}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Millilitres of a measure of volume that is exact once the ounce is said.
pub(crate) fn millilitres(measure: &Measure, ounce: Ounce) -> Option<f64> {
    let unit = measure.unit?;
    if !matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary) {
        return None;
    }
    Some(measure.quantity.middle().to_f64() * unit.ml(ounce).map(Exact::to_f64)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ounces_are_what_a_jigger_has() {
        assert_eq!(pourable(22.5, Unit::Oz, Ounce::Us).as_deref(), Some("3/4 oz"));
        assert_eq!(pourable(52.5, Unit::Oz, Ounce::Us).as_deref(), Some("1 3/4 oz"));
        assert_eq!(pourable(60.0, Unit::Oz, Ounce::Us).as_deref(), Some("2 oz"));
    }

    #[test]
    fn what_is_small_keeps_its_size() {
        assert_eq!(pourable(0.75, Unit::Oz, Ounce::Us).as_deref(), Some("0.025 oz"));
        assert_eq!(pourable(0.2, Unit::Oz, Ounce::Us).as_deref(), Some("0.0068 oz"));
        assert_eq!(trimmed(12.004), "12");
    }

    #[test]
    fn millilitres_go_to_the_nearest_mark() {
        assert_eq!(pourable(22.18, Unit::Ml, Ounce::Us).as_deref(), Some("22.5 ml"));
        assert_eq!(pourable(29.57, Unit::Ml, Ounce::Us).as_deref(), Some("30 ml"));
        assert_eq!(pourable(4.93, Unit::Ml, Ounce::Us).as_deref(), Some("5 ml"));
    }
}
