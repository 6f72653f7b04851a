//! `[bar]` and `[glasses]`: what the house's own measures and glasses hold.

use std::collections::BTreeMap;

use washline_measure::{Ounce, Unit};
use washline_text::fold;

use super::amount;
use super::keys::{Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{Item, Read, error, refuse, within};
use super::words::{did_you_mean, listed};

/// The keys of `[bar]`, with what each measure could hold at the least and at the most, ml:
/// wide enough for every bar, narrow enough to catch a slipped point. Common practice, no
/// source.
pub(super) static KEYS: [Key; 17] = [
    measure(
        "dash",
        "what one shake of a bitters bottle gives",
        0.05,
        10.0,
        &["{ value = 0.9, low = 0.7, high = 1.1 }"],
    ),
    measure("drop", "a drop", 0.005, 1.0, &["0.05"]),
    measure("dropper", "a pipette's fill", 0.1, 10.0, &["1"]),
    measure("spray", "one press of an atomiser", 0.01, 5.0, &["0.15"]),
    measure("bar-spoon", "a bar spoon", 1.0, 15.0, &["\"5 ml\""]),
    measure("bsp", "the same as `bar-spoon`", 1.0, 15.0, &["5"]),
    measure("splash", "a splash", 1.0, 100.0, &["8"]),
    measure("shot", "a shot", 10.0, 100.0, &["\"25 ml\""]),
    measure("jigger", "a jigger", 10.0, 150.0, &["\"1 1/2 oz\""]),
    measure("pony", "a pony", 10.0, 100.0, &["\"1 oz\""]),
    measure("wineglass", "a wineglass, as an amount", 30.0, 300.0, &["60"]),
    measure("capful", "a bottle cap's fill", 1.0, 50.0, &["5"]),
    measure("tsp", "a teaspoon", 2.0, 10.0, &["5"]),
    measure("tbsp", "a tablespoon", 7.0, 30.0, &["15"]),
    measure("cup", "a cup", 100.0, 500.0, &["240"]),
    measure("pint", "a pint", 300.0, 700.0, &["\"568 ml\""]),
    measure("gill", "a gill", 80.0, 200.0, &["142"]),
];

/// What a glass could hold, ml.
pub(super) const GLASS: (f64, f64) = (10.0, 20_000.0);

const fn measure(
    name: &'static str,
    what: &'static str,
    least: f64,
    most: f64,
    examples: &'static [&'static str],
) -> Key {
    Key {
        name,
        what,
        why: "a bar that has weighed its own pours need not take the range of all bars",
        holds: Holds::Measure(least, most),
        unset: "as the reference has it, with its range",
        examples,
    }
}

const BAR: &str = "write `dash = 0.9`, `shot = \"25 ml\"` or `dash = { value = 0.9, low = 0.7, \
                   high = 1.1 }`; a number is millilitres";
const GLASSES: &str = "write `coupe = \"160 ml\"`; a number is millilitres, to the brim";

/// `[bar]`
pub(super) fn bar(reader: &mut Reader, entry: Entry) -> Read<()> {
    let mut seen = BTreeMap::new();
    for measure in reader.entries(entry.value, "[bar]", BAR)? {
        let read = unit(&measure, &seen).and_then(|(unit, least, most)| {
            seen.insert(unit, measure.name);
            Ok((unit, held(reader, measure.value, least, most)?))
        });
        if let Some((unit, held)) = reader.take(read) {
            reader.settings.bar.insert(unit, held);
            reader.say(format!("bar.{}", unit.name()), measure.value);
        }
    }
    Ok(())
}

/// The measure that the key names, and what it could hold.
fn unit(entry: &Entry, seen: &BTreeMap<Unit, &str>) -> Read<(Unit, f64, f64)> {
    let named = Unit::from_words(&fold(entry.name));
    let Some(size) = named.and_then(size) else {
        let all = format!("the measures are {}", listed(names(&KEYS)));
        let message = format!("`{}` is no measure of the bar", entry.name);
        return Err(error(entry.key, message, did_you_mean(entry.name, names(&KEYS), &all)));
    };
    if let Some(first) = seen.get(&size.0) {
        let message = format!("`{}` and `{first}` are one measure", entry.name);
        return Err(error(entry.key, message, "keep one of the two"));
    }
    Ok(size)
}

/// The measures of the bar, each once.
pub(super) fn measures() -> impl Iterator<Item = Unit> {
    let units = KEYS.iter().enumerate().filter_map(|(n, key)| Some((n, named(key)?)));
    let first = |(n, unit): &(usize, Unit)| KEYS.iter().take(*n).all(|k| named(k) != Some(*unit));
    units.filter(first).map(|(_, unit)| unit)
}

fn named(key: &Key) -> Option<Unit> {
    Unit::from_words(&fold(key.name))
}

/// A measure of the bar, and what it could hold.
fn size(unit: Unit) -> Option<(Unit, f64, f64)> {
    let key = KEYS.iter().find(|key| named(key) == Some(unit))?;
    match key.holds {
        Holds::Measure(least, most) => Some((unit, least, most)),
        _ => None,
    }
}

/// The value, the low and the high end, ml.
fn held(reader: &mut Reader, item: &Item, least: f64, most: f64) -> Read<(f64, f64, f64)> {
    let ounce = reader.settings.ounce;
    let size = |item: &Item| {
        let ml = amount::volume(item, ounce, BAR)?;
        within(item, ml, least..=most, "ml", BAR)?;
        Ok(ml)
    };
    if !item.get_ref().is_table() {
        return size(item).map(|ml| (ml, ml, ml));
    }
    let fields = reader.fields(item, "a measure", &["value", "low", "high"], BAR)?;
    let (Some(value), Some(low), Some(high)) =
        (fields.get("value"), fields.get("low"), fields.get("high"))
    else {
        return refuse(item, "a range needs `value`, `low` and `high`", BAR);
    };
    let (value, low, high) = (size(value)?, size(low)?, size(high)?);
    if low >= high || !(low..=high).contains(&value) {
        let message = format!("{value} ml does not lie in a range from {low} to {high} ml");
        return refuse(item, message, "write `low` below `high`, and `value` between them");
    }
    Ok((value, low, high))
}

/// `[glasses]`
pub(super) fn glasses(reader: &mut Reader, entry: Entry) -> Read<()> {
    let mut seen = BTreeMap::new();
    for glass in reader.entries(entry.value, "[glasses]", GLASSES)? {
        let read = capacity(&glass, &mut seen, reader.settings.ounce);
        if let Some((name, ml)) = reader.take(read) {
            reader.say(format!("glasses.{name}"), glass.value);
            reader.settings.glasses.insert(name, ml);
        }
    }
    Ok(())
}

fn capacity<'t>(
    glass: &Entry<'t>,
    seen: &mut BTreeMap<String, &'t str>,
    ounce: Ounce,
) -> Read<(String, f64)> {
    let name = fold(glass.name);
    if name.is_empty() {
        return Err(error(glass.key, "the glass has no name", GLASSES));
    }
    if let Some(first) = seen.insert(name.clone(), glass.name) {
        let message = format!("`{}` and `{first}` are one glass", glass.name);
        return Err(error(glass.key, message, "keep one of the two"));
    }
    let ml = amount::volume(glass.value, ounce, GLASSES)?;
    within(glass.value, ml, GLASS.0..=GLASS.1, "ml", GLASSES)?;
    Ok((name, ml))
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn every_key_names_a_measure() {
        for key in names(&KEYS) {
            assert!(Unit::from_words(&fold(key)).and_then(size).is_some(), "{key}");
        }
    }

    #[test]
    fn measures_are_points_or_ranges() {
        let text = "ounce = 30\n[bar]\nbar-spoon = 5\nshot = '25 ml'\njigger = '1 1/2 oz'\n\
                    dash = { value = 0.9, low = '0.7 ml', high = 1.1 }";
        let bar = right(text).bar;
        assert_eq!(bar.get(&Unit::Bsp), Some(&(5.0, 5.0, 5.0)));
        assert_eq!(bar.get(&Unit::Shot), Some(&(25.0, 25.0, 25.0)));
        assert_eq!(bar.get(&Unit::Jigger), Some(&(45.0, 45.0, 45.0)));
        assert_eq!(bar.get(&Unit::Dash), Some(&(0.9, 0.7, 1.1)));
        assert_eq!(right("[bar]\n'bar spoon' = 5").bar, right("[bar]\nbsp = 5").bar);
    }

    #[test]
    fn glasses_are_the_houses_own() {
        let glasses = right("[glasses]\nCoupe = '160 ml'\n'nick-and-nora' = 140").glasses;
        let read: Vec<_> = glasses.iter().map(|(name, ml)| (name.as_str(), *ml)).collect();
        assert_eq!(read, [("coupe", 160.0), ("nick and nora", 140.0)]);
    }

    #[test]
    fn wrong_measures_point_at_themselves() {
        let ml = "a number is millilitres";
        wrong(
            "[bar]\ndash = 80\ndsh = 1\nbsp = 5\nbar-spoon = 4\nquart = 900",
            &[
                ("80", "80 ml is not between 0.05 and 10 ml", ml),
                ("dsh", "`dsh` is no measure of the bar", "did you mean `dash`?"),
                ("bar-spoon", "`bar-spoon` and `bsp` are one measure", "keep one"),
                ("quart", "`quart` is no measure of the bar", "the measures are dash, drop"),
            ],
        );
        wrong(
            "[bar]\ndash = { value = 1 }\ndrop = { value = 0.05, low = 0.06, high = 0.04 }\n\
             shot = { value = 50, low = 25, high = 30 }\ncup = 'two'\n\
             tsp = { value = 5, low = 4, high = 6, unit = 'ml' }",
            &[
                ("{ value = 1 }", "a range needs `value`, `low` and `high`", ml),
                (
                    "{ value = 0.05, low = 0.06, high = 0.04 }",
                    "0.05 ml does not lie in a range from 0.06 to 0.04 ml",
                    "`low` below `high`",
                ),
                (
                    "{ value = 50, low = 25, high = 30 }",
                    "50 ml does not lie in a range from 25 to 30 ml",
                    "`value` between them",
                ),
                ("'two'", "`two` does not begin with a number", ml),
                ("unit", "`unit` is no key of a measure", "the keys are value, low and high"),
            ],
        );
    }

    #[test]
    fn wrong_glasses_point_at_themselves() {
        let brim = "to the brim";
        wrong(
            "[glasses]\ncoupe = -160\nflute = '180 mm'\n'' = 3\nCoupe = 150\nmug = []",
            &[
                ("-160", "-160 ml is not between 10 and 20000 ml", brim),
                ("'180 mm'", "`mm` is no unit of volume", brim),
                ("''", "the glass has no name", brim),
                ("Coupe", "`Coupe` and `coupe` are one glass", "keep one"),
                ("[]", "a list stands where a number, or an amount in quotes, should", brim),
            ],
        );
    }
}
