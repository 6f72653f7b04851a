//! `[limits]`: the most that a serve may be.

use super::Limits;
use super::amount;
use super::keys::{Dimension, Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, error};

/// The table's keys.
pub(super) static KEYS: [Key; 6] = [
    Key {
        name: "ethanol",
        what: "the most ethanol in one serve",
        why: "one number, agreed on by the whole team, for what is too strong to hand over",
        holds: Holds::Amount(Dimension::Mass, ETHANOL.0, ETHANOL.1),
        unset: "30 g",
        examples: &["\"30 g\"", "28"],
    },
    Key {
        name: "ethanol-g",
        what: "the same as `ethanol`",
        why: "for files that say the unit in the key",
        holds: Holds::Amount(Dimension::Mass, ETHANOL.0, ETHANOL.1),
        unset: "30 g",
        examples: &["30"],
    },
    Key {
        name: "cost",
        what: "the most that the ingredients of one serve may cost, in the house's currency",
        why: "a drink that earns nothing is found before it is printed",
        holds: Holds::Number(COST.0, COST.1),
        unset: "no limit",
        examples: &["4.50"],
    },
    Key {
        name: "pour-cost",
        what: "the most that the ingredients of one serve may cost, as a share of its price",
        why: "a price that no longer pays for the drink is found when the bottle gets dearer",
        holds: Holds::Amount(Dimension::Share, POUR_COST.0, POUR_COST.1),
        unset: "no limit but the price itself",
        examples: &["\"22 %\"", "25"],
    },
    Key {
        name: "touches",
        what: "the most ingredient lines of one drink",
        why: "what takes too many bottles holds up a full bar",
        holds: Holds::Whole(TOUCHES.0, TOUCHES.1),
        unset: "no limit",
        examples: &["6"],
    },
    Key {
        name: "tin",
        what: "the liquid that a shaking tin holds together with its ice",
        why: "a fuller tin leaks, or does not chill",
        holds: Holds::Amount(Dimension::Volume, TIN.0, TIN.1),
        unset: "350 ml",
        examples: &["\"350 ml\"", "400"],
    },
];

/// Grams of ethanol that a limit may lie between.
const ETHANOL: (f64, f64) = (1.0, 200.0);
/// Money of any currency.
const COST: (f64, f64) = (0.01, 1e6);
/// Per cent of the price.
const POUR_COST: (f64, f64) = (1.0, 100.0);
/// Lines.
const TOUCHES: (u32, u32) = (1, 100);
/// Millilitres, from a small tin to a batch shaker.
const TIN: (f64, f64) = (50.0, 5000.0);

const HELP: &str = "write `ethanol = \"30 g\"`, `cost = 4.50`, `pour-cost = \"22 %\"`, `touches = 6`, \
                    `tin = \"350 ml\"`";

/// `[limits]`
pub(super) fn limits(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields = reader.fields(entry.value, "[limits]", &names(&KEYS), HELP)?;
    if let (Some(_), Some(second)) = (fields.entry("ethanol"), fields.entry("ethanol-g")) {
        let message = "`ethanol` and `ethanol-g` are one limit";
        return Err(error(second.key, message, "keep one of the two"));
    }
    let ounce = reader.settings.ounce;
    if let Some(item) = fields.get("ethanol").or_else(|| fields.get("ethanol-g")) {
        let read = amount::grams(item, HELP).and_then(within(item, ETHANOL, "g"));
        keep(reader, "ethanol", item, read, |limits, grams| limits.ethanol_g = grams);
    }
    if let Some(item) = fields.get("cost") {
        let read = value::number(item, HELP).and_then(within(item, COST, ""));
        keep(reader, "cost", item, read, |limits, cost| limits.cost = Some(cost));
    }
    if let Some(item) = fields.get("pour-cost") {
        let percent = amount::share(item, HELP).map(|share| 100.0 * share);
        let read = percent.and_then(within(item, POUR_COST, "%"));
        keep(reader, "pour-cost", item, read, |limits, percent| {
            limits.pour_cost = Some(percent / 100.0);
        });
    }
    if let Some(item) = fields.get("touches") {
        let read = value::whole(item, TOUCHES.0..=TOUCHES.1, HELP);
        keep(reader, "touches", item, read, |limits, lines| limits.touches = Some(lines));
    }
    if let Some(item) = fields.get("tin") {
        let read = amount::volume(item, ounce, HELP).and_then(within(item, TIN, "ml"));
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

fn within(item: &Item, (least, most): (f64, f64), unit: &str) -> impl FnOnce(f64) -> Read<f64> {
    move |limit| value::within(item, limit, least..=most, unit, HELP).map(|()| limit)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn limits_are_numbers_or_amounts() {
        let text = "[limits]\nethanol = '28 g'\ncost = 4.5\npour-cost = '22 %'\ntouches = 6\n\
                    tin = '40 cl'";
        let expected = Limits {
            ethanol_g: 28.0,
            cost: Some(4.5),
            pour_cost: Some(0.22),
            touches: Some(6),
            tin_ml: 400.0,
        };
        assert_eq!(right(text).limits, expected);
        assert_eq!(right("[limits]\nethanol-g = 28").limits.ethanol_g, 28.0);
    }

    #[test]
    fn wrong_limits_point_at_themselves() {
        let write = "write `ethanol = \"30 g\"`";
        wrong(
            "[limits]\nethanol = '30 ml'\ncost = '4.50 EUR'\npour-cost = 0.22\ntouches = 0\n\
             tin = 350000\ntoches = 4",
            &[
                ("'30 ml'", "`ml` is no unit of mass", write),
                ("'4.50 EUR'", "words in quotes stand where a number should", "`cost = 4.50`"),
                ("0.22", "a number here is per cent, and 0.22 % is next to nothing", "write 22"),
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
