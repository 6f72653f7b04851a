//! `[limits]`: the most that a serve may be.

use std::ops::RangeInclusive;

use super::Limits;
use super::amount;
use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, error};

/// The table's keys.
pub(super) const KEYS: [&str; 5] = ["ethanol", "ethanol-g", "cost", "touches", "tin"];

const HELP: &str = "write `ethanol = \"30 g\"`, `cost = 4.50`, `touches = 6`, `tin = \"350 ml\"`";

/// `[limits]`
pub(super) fn limits(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields = reader.fields(entry.value, "[limits]", &KEYS, HELP)?;
    if let (Some(_), Some(second)) = (fields.entry("ethanol"), fields.entry("ethanol-g")) {
        let message = "`ethanol` and `ethanol-g` are one limit";
        return Err(error(second.key, message, "keep one of the two"));
    }
    let ounce = reader.settings.ounce;
    if let Some(item) = fields.get("ethanol").or_else(|| fields.get("ethanol-g")) {
        let read = amount::grams(item, HELP).and_then(within(item, 1.0..=200.0, "g"));
        keep(reader, "ethanol", item, read, |limits, grams| limits.ethanol_g = grams);
    }
    if let Some(item) = fields.get("cost") {
        let read = value::number(item, HELP).and_then(within(item, 0.01..=1e6, ""));
        keep(reader, "cost", item, read, |limits, cost| limits.cost = Some(cost));
    }
    if let Some(item) = fields.get("touches") {
        let read = value::whole(item, 1..=100, HELP);
        keep(reader, "touches", item, read, |limits, lines| limits.touches = Some(lines));
    }
    if let Some(item) = fields.get("tin") {
        let read = amount::volume(item, ounce, HELP).and_then(within(item, 50.0..=5000.0, "ml"));
        keep(reader, "tin", item, read, |limits, ml| limits.tin_ml = ml);
    }
    Ok(())
}

fn keep<T>(
    reader: &mut Reader,
    key: &str,
    item: &Item,
    read: Read<T>,
    set: impl FnOnce(&mut Limits, T),
) {
    if let Some(limit) = reader.take(read) {
        set(&mut reader.settings.limits, limit);
        reader.say(format!("limits.{key}"), item);
    }
}

fn within(item: &Item, range: RangeInclusive<f64>, unit: &str) -> impl FnOnce(f64) -> Read<f64> {
    move |limit| value::within(item, limit, range, unit, HELP).map(|()| limit)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn limits_are_numbers_or_amounts() {
        let text = "[limits]\nethanol = '28 g'\ncost = 4.5\ntouches = 6\ntin = '40 cl'";
        let expected = Limits { ethanol_g: 28.0, cost: Some(4.5), touches: Some(6), tin_ml: 400.0 };
        assert_eq!(right(text).limits, expected);
        assert_eq!(right("[limits]\nethanol-g = 28").limits.ethanol_g, 28.0);
    }

    #[test]
    fn wrong_limits_point_at_themselves() {
        let write = "write `ethanol = \"30 g\"`";
        wrong(
            "[limits]\nethanol = '30 ml'\ncost = '4.50 EUR'\ntouches = 0\ntin = 350000\n\
             toches = 4",
            &[
                ("'30 ml'", "`ml` is no unit of mass", write),
                ("'4.50 EUR'", "words in quotes stand where a number should", "`cost = 4.50`"),
                ("0", "0 is not between 1 and 100", write),
                ("350000", "350000 ml is not between 50 and 5000 ml", write),
                ("toches", "`toches` is no key of [limits]", "did you mean `touches`?"),
            ],
        );
        wrong(
            "[limits]\nethanol-g = 30\nethanol = 30",
            &[("ethanol-g", "`ethanol` and `ethanol-g` are one limit", "keep one of the two")],
        );
    }
}
