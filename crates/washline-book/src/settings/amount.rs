//! Amounts as the file writes them: `22.5`, `"3/4 oz"`, `"45 %"`, `"-18 C"`.

use washline_measure::{Ounce, Unit, UnitKind};
use washline_text::fold;

use super::value::{self, Item, Read, refuse};
use super::words::did_you_mean;

/// A volume in millilitres: a number of them, or words with a unit of fixed size.
pub(super) fn volume(item: &Item, ounce: Ounce, help: &str) -> Read<f64> {
    match measured(item, help)? {
        (number, None) => Ok(number),
        (number, Some(words)) => Ok(number * millilitres(item, &words, ounce, help)?),
    }
}

/// A number of per cent, as its share: `45` and `"45 %"` are 0.45.
pub(super) fn share(item: &Item, help: &str) -> Read<f64> {
    let (number, unit) = measured(item, help)?;
    match unit.as_deref() {
        None if number > 0.0 && number < 1.0 => {
            let message = format!("a number here is per cent, and {number} % is next to nothing");
            let written = format!("write {} or \"{} %\"", number * 100.0, number * 100.0);
            refuse(item, message, written)
        }
        None | Some("%" | "percent" | "per cent") => Ok(number / 100.0),
        Some(unit) => refuse(item, format!("`{unit}` is no share"), help),
    }
}

/// A number of grams: `30` or `"30 g"`.
pub(super) fn grams(item: &Item, help: &str) -> Read<f64> {
    let (number, unit) = measured(item, help)?;
    let Some(unit) = unit else { return Ok(number) };
    match Unit::from_words(&unit).and_then(Unit::grams) {
        Some(one) => Ok(number * one.to_f64()),
        None => refuse(item, format!("`{unit}` is no unit of mass"), help),
    }
}

/// A temperature in °C: `-18`, `"-18 C"`, `"0 F"`.
pub(super) fn celsius(item: &Item, help: &str) -> Read<f64> {
    let (number, unit) = measured(item, help)?;
    match unit.as_deref().map(|unit| unit.trim_start_matches(['°', 'º']).trim()) {
        None | Some("c") => Ok(number),
        Some("f") => Ok((number - 32.0) / 1.8),
        Some(unit) => refuse(item, format!("`{unit}` is no unit of temperature"), help),
    }
}

/// A number by itself, or words: a number and the folded words behind it, never empty.
pub(super) fn measured(item: &Item, help: &str) -> Read<(f64, Option<String>)> {
    if value::is_number(item) {
        return Ok((value::number(item, help)?, None));
    }
    let Some(written) = item.get_ref().as_str() else {
        return value::mistyped(item, "a number, or an amount in quotes,", help);
    };
    let Some((number, rest)) = leading(written) else {
        return refuse(item, format!("`{written}` does not begin with a number"), help);
    };
    if let Some(after) = rest.strip_prefix(',') {
        return comma(item, written, after);
    }
    let unit = fold(rest);
    if unit.is_empty() {
        return refuse(item, format!("`{written}` has no unit"), help);
    }
    Ok((number, Some(unit)))
}

/// Refuses a comma in a number: a decimal, or thousands, or nobody knows.
fn comma<T>(item: &Item, written: &str, after: &str) -> Read<T> {
    let point = written.replacen(',', ".", 1);
    let digits = after.chars().take_while(char::is_ascii_digit).count();
    let help = match digits {
        3 => format!("write \"{}\" or \"{point}\"", written.replacen(',', "", 1)),
        _ => format!("write \"{point}\""),
    };
    refuse(item, "a decimal has a point, and thousands have no comma", help)
}

/// The number at the start of `text`, and what follows it: decimals, fractions, mixed
/// numbers, the vulgar fraction signs, a minus sign.
pub(super) fn leading(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let positive = text.strip_prefix(['-', '\u{2212}']);
    let (number, rest) = unsigned(positive.unwrap_or(text).trim_start())?;
    let signed = if positive.is_some() { -number } else { number };
    signed.is_finite().then_some((signed, rest.trim()))
}

fn unsigned(text: &str) -> Option<(f64, &str)> {
    if let Some(fraction) = fraction(text) {
        return Some(fraction);
    }
    let (whole, rest) = decimal(text)?;
    match fraction(rest.trim_start_matches([' ', '-'])) {
        Some((part, rest)) if whole.fract() == 0.0 => Some((whole + part, rest)),
        _ => Some((whole, rest)),
    }
}

/// `3/4` or `¾`.
fn fraction(text: &str) -> Option<(f64, &str)> {
    const SIGNS: [(char, f64); 9] = [
        ('½', 1.0 / 2.0),
        ('⅓', 1.0 / 3.0),
        ('⅔', 2.0 / 3.0),
        ('¼', 1.0 / 4.0),
        ('¾', 3.0 / 4.0),
        ('⅛', 1.0 / 8.0),
        ('⅜', 3.0 / 8.0),
        ('⅝', 5.0 / 8.0),
        ('⅞', 7.0 / 8.0),
    ];
    for (sign, value) in SIGNS {
        if let Some(rest) = text.strip_prefix(sign) {
            return Some((value, rest));
        }
    }
    let (numerator, rest) = decimal(text)?;
    let (denominator, rest) = decimal(rest.strip_prefix(['/', '\u{2044}'])?)?;
    (denominator > 0.0).then_some((numerator / denominator, rest))
}

fn decimal(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (digits, rest) = text.split_at_checked(end)?;
    Some((digits.parse().ok()?, rest))
}

/// What one of the unit that `words` spell holds, ml.
fn millilitres(item: &Item, words: &str, ounce: Ounce, help: &str) -> Read<f64> {
    let Some(unit) = Unit::from_words(words) else {
        let help = did_you_mean(words, volumes(), help);
        return refuse(item, format!("`{words}` is no unit of volume"), help);
    };
    match unit.ml(ounce) {
        Some(ml) => Ok(ml.to_f64()),
        None => {
            let message = format!("a {} has no fixed volume", unit.name());
            refuse(item, message, help)
        }
    }
}

/// The names of the units of fixed volume.
pub(super) fn volumes() -> impl Iterator<Item = &'static str> {
    let fixed = |unit: &&Unit| matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary);
    Unit::ALL.iter().filter(fixed).map(|unit| unit.name())
}

#[cfg(test)]
mod tests {
    use super::leading;

    #[test]
    fn numbers_are_read_as_cards_write_them() {
        for (text, number, rest) in [
            ("22.5 ml", 22.5, "ml"),
            ("60ml", 60.0, "ml"),
            ("3/4 oz", 0.75, "oz"),
            ("1 1/2 oz", 1.5, "oz"),
            ("1-1/2 oz", 1.5, "oz"),
            ("1½ oz", 1.5, "oz"),
            ("1 ½oz", 1.5, "oz"),
            (".75 oz", 0.75, "oz"),
            ("-18 C", -18.0, "C"),
            ("\u{2212}18", -18.0, ""),
        ] {
            assert_eq!(leading(text), Some((number, rest)), "{text}");
        }
    }

    #[test]
    fn what_is_no_number_is_none() {
        for text in ["", "oz", "-", ".", "1.2.3 ml", "1/0 oz ", "--3"] {
            let read = leading(text);
            assert!(read.is_none() || text.starts_with("1/0"), "{text}: {read:?}");
        }
        assert_eq!(leading("1/0 oz"), Some((1.0, "/0 oz")), "the rest is then no unit");
        assert_eq!(leading(&"9".repeat(400)), None);
    }
}
