//! What stands behind the number of a field or a step: a time, a temperature, a share, a currency;
//! and where an entry is kept.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use washline_syntax::Key;

use super::offers::{Offers, Word};
use super::site::Place;
use super::usual::Usual;

/// The units behind the number of a field's value, the commonest first, and what they are; none
/// where no such number stands.
pub(super) const fn units(key: Key) -> Option<(&'static [&'static str], &'static str)> {
    match key {
        Key::Abv | Key::Strength => Some((&["%"], "alcohol by volume")),
        Key::Loss | Key::Waste => Some((&["%"], "a share of it")),
        Key::Salt | Key::Fat => Some((&["%"], "of its mass")),
        Key::Sugar | Key::Acid => Some((&["g/100 ml", "g/l", "%"], "in how much")),
        Key::Brix => Some((&["brix"], "sugar by mass")),
        Key::Density => Some((&["g/ml", "kg/l"], "a density")),
        Key::Price | Key::Cost => Some((&["EUR", "GBP", "USD"], "a currency")),
        _ => None,
    }
}

/// Offers what the number of a field is of; of money first the currency that the house counts in.
pub(super) fn unit(place: &Place<'_>, key: Key, offers: &mut Offers) {
    let Some((units, detail)) = units(key) else { return };
    let mut used: Vec<(&str, u32)> = Vec::new();
    if matches!(key, Key::Price | Key::Cost) {
        used = currencies(place);
        for (currency, _) in &used {
            offers.word(Word::plain(currency, "the house's currency"));
        }
    }
    for unit in units.iter().filter(|unit| used.iter().all(|(known, _)| known != *unit)) {
        offers.word(Word::plain(unit, detail));
    }
}

/// The codes of currencies that the house's entries have, the commonest first.
fn currencies<'a>(place: &Place<'a>) -> Vec<(&'a str, u32)> {
    let mut times: BTreeMap<&str, u32> = BTreeMap::new();
    for record in place.workspace.records() {
        for field in record.fields(Key::Cost).chain(record.fields(Key::Price)) {
            let said = record.text(field.value_span).trim();
            let code = said.rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
            if code.len() == 3 {
                *times.entry(code).or_default() += 1;
            }
        }
    }
    let mut all: Vec<(&str, u32)> = times.into_iter().collect();
    all.sort_by_key(|(code, times)| (Reverse(*times), *code));
    all
}

/// Offers units of time: short ones to a step, long ones to what keeps.
pub(super) fn times(place: &Place<'_>, offers: &mut Offers) {
    const STEP: &[(&str, &str)] = &[("s", "s"), ("min", "min"), ("h", "h")];
    const LONG: &[(&str, &str)] = &[("day", "days"), ("week", "weeks"), ("month", "months")];
    const KEPT: &[(&str, &str)] = &[("hour", "hours"), ("year", "years")];
    let step = place.before.starts_with('-');
    let (first, last) = if step { (STEP, LONG) } else { (LONG, KEPT) };
    for (one, several) in first.iter().chain(last) {
        let word = if offers.plural() { several } else { one };
        offers.word(Word::plain(word, "a time"));
    }
}

/// Offers the units of temperature.
pub(super) fn degrees(offers: &mut Offers) {
    offers.word(Word::plain("C", "degrees Celsius"));
    offers.word(Word::plain("F", "degrees Fahrenheit"));
}

/// Offers where something is kept: as the house says it, then the words that are read.
pub(super) fn places(place: &Place<'_>, key: Key, offers: &mut Offers) {
    const WORDS: &[(&str, &str)] = &[
        ("chilled", "in the fridge"),
        ("frozen", "in the freezer"),
        ("ambient", "at room temperature"),
        ("dark", "at room temperature, away from light"),
    ];
    let usual = Usual::of(place, key);
    if key == Key::Store {
        for (words, _) in usual.all() {
            offers.word(Word::plain(words, "where other entries are stored"));
        }
    }
    for (word, detail) in
        WORDS.iter().filter(|(word, _)| key == Key::Keeps || usual.times(word) == 0)
    {
        offers.word(Word::plain(word, detail));
    }
}

#[cfg(test)]
mod tests {
    use crate::completion::tests::{labels, taken};

    #[test]
    fn how_long_it_keeps_and_where() {
        assert_eq!(taken("prep: A\n  keeps: 4 w|\n", "weeks"), "prep: A\n  keeps: 4 weeks\n");
        assert_eq!(labels("prep: A\n  keeps: 1 d|\n")[0], "day");
        assert_eq!(labels("prep: A\n  keeps: 4 weeks |\n")[0], "chilled");
        assert!(labels("prep: A\n  keeps: |\n").is_empty());
        let text = "prep: A\n  store: in glass, away from light\n\nprep: B\n  store: |\n";
        assert_eq!(labels(text)[..2], ["in glass, away from light", "chilled"]);
    }

    #[test]
    fn what_is_offered_behind_a_number_is_read() {
        for key in [
            "abv", "strength", "loss", "waste", "salt", "fat", "sugar", "acid", "brix", "density",
            "price", "cost", "keeps",
        ] {
            for kind in ["drink", "prep", "stock"] {
                let head = format!("{kind}: A\n  {key}: 1 ");
                for unit in labels(&format!("{head}|\n")) {
                    let (house, _) = crate::harness::House::at(&format!("{head}{unit}\n"));
                    let found = washline_rules::check(&house.workspace);
                    let unread = ["syntax", "unknown-value", "unreadable-amount", "missing-unit"];
                    let bad = |rule: &str| unread.contains(&rule);
                    let bad = found.iter().find(|one| bad(one.rule) && key_fits(kind, key));
                    assert!(bad.is_none(), "{head}{unit}: {bad:?}");
                }
            }
        }
    }

    fn key_fits(kind: &str, key: &str) -> bool {
        labels(&format!("{kind}: A\n  {key}|\n")).iter().any(|label| label == key)
    }

    #[test]
    fn money_is_told_in_the_houses_currency() {
        let text = "stock: A\n  cost: 20 CHF\n\ndrink: B\n  price: 12 |\n";
        assert_eq!(labels(text), ["CHF", "EUR", "GBP", "USD"]);
        assert_eq!(labels("stock: A\n  abv: 43 |\n"), ["%"]);
    }

    #[test]
    fn a_glass_goes_by_the_name_that_is_typed() {
        assert_eq!(labels("drink: A\n  glass: rocks|\n")[0], "rocks");
        assert_eq!(labels("drink: A\n  glass: nic|\n")[0], "nick and nora");
        assert_eq!(labels("drink: A\n  glass: coupe, ch|\n"), ["chilled"]);
    }
}
