//! `[techniques.NAME]`: the water that a technique gains, as the house measured it.

use washline_text::fold;

use super::amount::share;
use super::keys::{Dimension, Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{Item, Read, error, refuse};
use super::words::did_you_mean;

/// The keys of one technique.
pub(super) static KEYS: [Key; 3] = [
    Key {
        name: "dilution",
        what: "the water that the technique gains, as a share of what was poured",
        why: "the house's own ice and hands, measured on a scale, beat the published model",
        holds: Holds::Amount(Dimension::Share, 0.0, MOST * 100.0),
        unset: "the published model of the technique",
        examples: &["\"45 %\"", "45"],
    },
    Key {
        name: "low",
        what: "the low end of what was measured, with `high`",
        why: "the spread is carried into every figure",
        holds: Holds::Amount(Dimension::Share, 0.0, MOST * 100.0),
        unset: "5 points below `dilution`",
        examples: &["40"],
    },
    Key {
        name: "high",
        what: "the high end of what was measured, with `low`",
        why: "the spread is carried into every figure",
        holds: Holds::Amount(Dimension::Share, 0.0, MOST * 100.0),
        unset: "5 points above `dilution`",
        examples: &["52"],
    },
];

/// The spread of a dilution that comes without one, as a share of the pour: that of the
/// published model of the shake (D. Arnold, *Liquid Intelligence*, W. W. Norton, 2014,
/// pp. 123–126), measured on one kind of ice as a house measures on its own.
const SPREAD: f64 = 0.05;

/// The most water a technique could gain, as a share of the pour.
const MOST: f64 = 2.0;

const HELP: &str = "write `dilution = \"45 %\"`, and `low` and `high` where they were measured";

/// `[techniques.NAME]`
pub(super) fn techniques(reader: &mut Reader, entry: Entry) -> Read<()> {
    for technique in reader.entries(entry.value, "[techniques]", "write `[techniques.shake]`")? {
        let read = one(reader, technique);
        if let Some((name, model)) = reader.take(read) {
            reader.say(format!("techniques.{name}"), technique.value);
            reader.settings.techniques.insert(name, model);
        }
    }
    Ok(())
}

fn one(reader: &mut Reader, entry: Entry) -> Read<(String, (f64, f64, f64))> {
    let place = format!("[techniques.{}]", entry.name);
    let fields = reader.fields(entry.value, &place, &names(&KEYS), HELP)?;
    let name = name(reader, entry)?;
    let Some(dilution) = fields.get("dilution") else {
        return Err(error(entry.key, format!("`dilution` is missing under {place}"), HELP));
    };
    let value = gain(dilution)?;
    let ends = (fields.get("low"), fields.get("high"));
    let (low, high) = match ends {
        (None, None) => return Ok((name, (value, (value - SPREAD).max(0.0), value + SPREAD))),
        (Some(low), Some(high)) => (gain(low)?, gain(high)?),
        (Some(end), None) | (None, Some(end)) => {
            return refuse(end, "a range has both `low` and `high`", HELP);
        }
    };
    if low >= high || !(low..=high).contains(&value) {
        let [value, low, high] = [value, low, high].map(percent);
        let message = format!("{value} % does not lie in a range from {low} to {high} %");
        return refuse(dilution, message, "write `low` below `high`, and `dilution` between them");
    }
    Ok((name, (value, low, high)))
}

fn name(reader: &Reader, entry: Entry) -> Read<String> {
    let folded = fold(entry.name);
    let known = reader.known.techniques;
    match known.iter().find(|technique| fold(technique) == folded) {
        Some(technique) => Ok((*technique).to_owned()),
        None => {
            let help = did_you_mean(&folded, known.iter().copied(), "write one that gains water");
            Err(error(entry.key, format!("no technique is called `{}`", entry.name), help))
        }
    }
}

fn gain(item: &Item) -> Read<f64> {
    let gain = share(item, HELP)?;
    if !(0.0..=MOST).contains(&gain) {
        let message = format!("no technique gains {} % of water", percent(gain));
        return refuse(item, message, HELP);
    }
    Ok(gain)
}

/// A share as per cent, to the tenth.
fn percent(share: f64) -> f64 {
    (share * 1000.0).round() / 10.0
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};

    #[test]
    fn dilutions_are_shares_of_the_pour() {
        let text = "[techniques.shake]\ndilution = '45 %'\nlow = 40\nhigh = '52 percent'\n\
                    [techniques.hard-shake]\ndilution = 60";
        let techniques = right(text).techniques;
        assert_eq!(techniques.get("shake"), Some(&(0.45, 0.40, 0.52)));
        let (value, low, high) = techniques.get("hard shake").copied().unwrap();
        assert!((value - 0.6).abs() < 1e-12);
        assert!((low - 0.55).abs() < 1e-12 && (high - 0.65).abs() < 1e-12);
    }

    #[test]
    fn wrong_dilutions_point_at_themselves() {
        let write = "write `dilution = \"45 %\"`";
        let per_cent = "a number here is per cent, and 0.45 % is next to nothing";
        wrong("[techniques.shake]\ndilution = 0.45", &[("0.45", per_cent, "write 45 or \"45 %\"")]);
        wrong(
            "[techniques.shak]\ndilution = 45\n[techniques.stir]\nlow = 3\n\
             [techniques.blend]\ndilution = '450 %'\n",
            &[
                ("shak", "no technique is called `shak`", "did you mean `shake`?"),
                ("stir", "`dilution` is missing under [techniques.stir]", write),
                ("'450 %'", "no technique gains 450 % of water", write),
            ],
        );
        wrong(
            "[techniques.shake]\ndilution = 45\nlow = 50\nhigh = 40\n[techniques.stir]\n\
             dilution = '30 ml'\n[techniques.blend]\ndilution = 90\nlow = 80\nhi = 120",
            &[
                ("45", "45 % does not lie in a range from 50 to 40 %", "`low` below `high`"),
                ("'30 ml'", "`ml` is no share", write),
                ("80", "a range has both `low` and `high`", write),
                ("hi", "`hi` is no key of [techniques.blend]", "dilution, low and high"),
            ],
        );
    }
}
