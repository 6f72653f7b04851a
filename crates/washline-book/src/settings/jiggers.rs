//! The jiggers with their marks, and the pairs that the house holds equal.

use washline_measure::{Ounce, Unit};
use washline_text::fold;

use super::amount::{self, leading};
use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, error, list, refuse, span, within};

const JIGGERS: &str = "write `jiggers = [25, \"3/4 oz\", { size = \"60 ml\", marks = [15, 30] }]`; \
                       a number is millilitres";
const PAIRS: &str = "write `pairs = [[\"25 ml\", \"3/4 oz\"]]`";

/// The smallest and the largest jigger, ml: a number below is ounces without their unit.
pub(super) const SIZES: (f64, f64) = (2.5, 1000.0);

/// `jiggers = [25, 50]`, `["3/4 oz"]`, `[{ size = "60 ml", marks = ["15 ml"] }]`
pub(super) fn jiggers(reader: &mut Reader, entry: Entry) -> Read<()> {
    let mut sizes = Vec::new();
    for item in list(entry.value, JIGGERS)? {
        if item.get_ref().is_table() {
            let marked = marked(reader, item);
            sizes.extend(reader.take(marked).into_iter().flatten());
        } else {
            let size = size(item, reader.settings.ounce);
            sizes.extend(reader.take(size));
        }
    }
    sizes.sort_by(f64::total_cmp);
    sizes.dedup();
    reader.settings.jiggers = sizes;
    reader.say("jiggers".to_owned(), entry.value);
    Ok(())
}

fn size(item: &Item, ounce: Ounce) -> Read<f64> {
    let ml = amount::volume(item, ounce, JIGGERS)?;
    within(item, ml, SIZES.0..=SIZES.1, "ml", JIGGERS)?;
    Ok(ml)
}

/// A jigger and its marks, together.
fn marked(reader: &mut Reader, item: &Item) -> Read<Vec<f64>> {
    let fields = reader.fields(item, "a jigger", &["size", "marks"], JIGGERS)?;
    let Some(whole) = fields.get("size") else {
        return refuse(item, "the jigger's size is missing", JIGGERS);
    };
    let ounce = reader.settings.ounce;
    let whole = size(whole, ounce)?;
    let mut sizes = vec![whole];
    let Some(marks) = fields.get("marks") else { return Ok(sizes) };
    for mark in list(marks, JIGGERS)? {
        let read = size(mark, ounce).and_then(|ml| {
            if ml > whole {
                let message = format!("a mark at {ml} ml is above the brim, {whole} ml");
                return refuse(mark, message, "write marks that the jigger holds");
            }
            Ok(ml)
        });
        sizes.extend(reader.take(read));
    }
    Ok(sizes)
}

/// `pairs = [["25 ml", "3/4 oz"]]`
pub(super) fn pairs(reader: &mut Reader, entry: Entry) -> Read<()> {
    let mut pairs = Vec::new();
    for item in list(entry.value, PAIRS)? {
        let read = pair(item, reader.settings.ounce);
        pairs.extend(reader.take(read));
    }
    reader.settings.pairs = pairs;
    reader.say("pairs".to_owned(), entry.value);
    Ok(())
}

/// Millilitres and ounces, whichever stands first.
fn pair(item: &Item, ounce: Ounce) -> Read<(f64, f64)> {
    let [first, second] = list(item, PAIRS)? else {
        return refuse(item, "a pair is two measures", PAIRS);
    };
    let (ml, oz) = match (ounces(first), ounces(second)) {
        (None, Some(oz)) => (metric(first)?, oz),
        (Some(oz), None) => (metric(second)?, oz),
        _ => return refuse(item, "a pair is a measure in ml and one in oz", PAIRS),
    };
    let exact = oz * Unit::Oz.ml(ounce).map_or(0.0, washline_measure::Exact::to_f64);
    let apart = (ml - exact).abs() / ml.max(exact);
    if !(ml > 0.0 && exact > 0.0 && apart <= 0.25) {
        let message = format!("{oz} oz is {exact:.1} ml, too far from {ml} ml to pour for it");
        return Err(error(span(item), message, "write measures at most 25 % apart"));
    }
    Ok((ml, oz))
}

/// How many ounces, where `item` says ounces.
fn ounces(item: &Item) -> Option<f64> {
    let (number, unit) = leading(item.get_ref().as_str()?)?;
    (Unit::from_words(&fold(unit)) == Some(Unit::Oz)).then_some(number)
}

fn metric(item: &Item) -> Read<f64> {
    let ml = amount::volume(item, Ounce::Us, PAIRS)?;
    value::within(item, ml, SIZES.0..=SIZES.1, "ml", PAIRS)?;
    Ok(ml)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};

    #[test]
    fn jiggers_and_marks_are_one_rising_list() {
        let text = "jiggers = [50, 25.0, '2.5 cl', { size = '60 ml', marks = ['15 ml', 30] }]";
        assert_eq!(right(text).jiggers, [15.0, 25.0, 30.0, 50.0, 60.0]);
    }

    #[test]
    fn ounces_are_the_houses() {
        let thirty = "jiggers = ['3/4 oz', '1 1/2 oz', '½ oz']\nounce = 30";
        assert_eq!(right(thirty).jiggers, [15.0, 22.5, 45.0]);
        let us = right("jiggers = ['1 oz']").jiggers;
        assert!((us.iter().sum::<f64>() - 29.573_529_562_5).abs() < 1e-9);
    }

    #[test]
    fn pairs_stand_either_way_round() {
        let text = "pairs = [['25 ml', '3/4 oz'], ['1 1/2 oz', 40]]";
        assert_eq!(right(text).pairs, [(25.0, 0.75), (40.0, 1.5)]);
    }

    #[test]
    fn wrong_jiggers_point_at_themselves() {
        const COMMA: &str = "a decimal has a point, and thousands have no comma";
        let ml = "a number is millilitres";
        wrong("jiggers = ['1,000 ml']", &[("'1,000 ml'", COMMA, "\"1000 ml\" or \"1.000 ml\"")]);
        wrong(
            "jiggers = [0.75, -25, '25']",
            &[
                ("0.75", "0.75 ml is not between 2.5 and 1000 ml", ml),
                ("-25", "-25 ml is not between 2.5 and 1000 ml", ml),
                ("'25'", "`25` has no unit", ml),
            ],
        );
        wrong("jiggers = 25", &[("25", "a number stands where a list in [ ] should", ml)]);
        wrong("jiggers = [nan]", &[("nan", "this is no number that can be reckoned with", ml)]);
        wrong("jiggers = ['25 mll']", &[("'25 mll'", "`mll` is no unit of volume", "`ml`")]);
        wrong("jiggers = ['22,5 ml']", &[("'22,5 ml'", COMMA, "\"22.5 ml\"")]);
        wrong("jiggers = ['1 shot']", &[("'1 shot'", "a shot has no fixed volume", ml)]);
        wrong("jiggers = ['a lot']", &[("'a lot'", "`a lot` does not begin with a number", ml)]);
        wrong(
            "jiggers = [{ size = 50, marks = [60] }, { marks = [5] }, { size = 40, mark = [5] }]",
            &[
                ("60", "a mark at 60 ml is above the brim, 50 ml", "marks that the jigger holds"),
                ("{ marks = [5] }", "the jigger's size is missing", ml),
                ("mark", "`mark` is no key of a jigger", "did you mean `marks`?"),
            ],
        );
    }

    #[test]
    fn wrong_pairs_point_at_themselves() {
        let two = "a pair is a measure in ml and one in oz";
        wrong(
            "pairs = [['25 ml'], ['25 ml', '20 ml'], ['75 ml', '3/4 oz'], 3]",
            &[
                ("['25 ml']", "a pair is two measures", "3/4 oz"),
                ("['25 ml', '20 ml']", two, "3/4 oz"),
                (
                    "['75 ml', '3/4 oz']",
                    "0.75 oz is 22.2 ml, too far from 75 ml to pour for it",
                    "at most 25 % apart",
                ),
                ("3", "a number stands where a list in [ ] should", "3/4 oz"),
            ],
        );
    }
}
