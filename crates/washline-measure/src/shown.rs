//! Numbers as people read them.

/// A number to three significant digits or to the unit, whichever is more, without trailing
/// noughts.
#[must_use]
pub fn number(value: f64) -> String {
    let size = value.abs();
    let places = match size {
        _ if size < 1e-9 => 0,
        _ if size < 0.01 => 4,
        _ if size < 1.0 => 3,
        _ if size < 10.0 => 2,
        _ if size < 100.0 => 1,
        _ => 0,
    };
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
    let (low, high) = (number(low), number(high));
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
}
