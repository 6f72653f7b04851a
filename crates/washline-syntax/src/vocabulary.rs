//! The words of the notation, list by list: grammars that other tools read are made
//! from them.

use washline_measure::{Unit, UnitKind};

use crate::amount::quantity;
use crate::heading::HEADINGS;
use crate::ingredient::{part, role, word};
use crate::step::{split, time, vocabulary};
use crate::{Document, Key, LineKind, Technique, Value, property};

/// Words of one use, in lower case, a blank for a hyphen or white space, longest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct List {
    /// What they are used for.
    pub name: &'static str,
    /// The words.
    pub words: Vec<&'static str>,
}

/// Every list.
#[must_use]
pub fn lists() -> Vec<List> {
    let techniques = || Technique::ALL.iter().flat_map(|t| own(t.word(), t.others()));
    let units = |counts: bool| {
        let of_kind = move |unit: &&Unit| (unit.kind() == UnitKind::Count) == counts;
        let spellings = |unit: &Unit| own(unit.name(), unit.others()).chain([unit.plural()]);
        Unit::ALL.iter().filter(of_kind).flat_map(spellings)
    };
    let keys = |text: bool| Key::ALL.iter().filter(move |key| is_text(**key) == text);
    vec![
        list("heading", firsts(HEADINGS)),
        list("text key", keys(true).map(|key| key.word())),
        list("value key", keys(false).map(|key| key.word())),
        list("verb key", techniques().filter(|words| is_field(words))),
        list("measured unit", units(false)),
        list("counted unit", units(true)),
        list("number word", firsts(quantity::WORDS)),
        list("approximation", firsts(quantity::ABOUT)),
        list("amount word", firsts(word::WORDS)),
        list("vague amount", firsts(word::VAGUE)),
        list("bare unit", firsts(word::BARE)),
        list("part", firsts(part::PARTS)),
        list("role", firsts(role::ROLES)),
        list("before a role", firsts(role::BEFORE)),
        list("state", firsts(property::STATES)),
        list("concentration", firsts(property::OF)),
        list("technique", techniques()),
        list("adverb", firsts(vocabulary::ADVERBS)),
        list("time unit", firsts(time::UNITS)),
        list("behind a verb", word::STEP_WORDS.iter().copied()),
        list("small word", split::SMALL.iter().copied()),
        list("quality", split::QUALITIES.iter().copied()),
        list("thing", split::THINGS.iter().copied()),
    ]
}

/// The words that the value of `key` is made of; of `free-from`, those that are no allergen.
/// None where any words will do.
#[must_use]
pub const fn values(key: Key) -> &'static [&'static str] {
    crate::value::word::of(key)
}

fn list(name: &'static str, words: impl Iterator<Item = &'static str>) -> List {
    let mut words: Vec<&str> = words.collect();
    words.sort_unstable_by_key(|word| (std::cmp::Reverse(word.len()), *word));
    words.dedup();
    List { name, words }
}

fn firsts<T>(table: &'static [(&'static str, T)]) -> impl Iterator<Item = &'static str> + use<T> {
    table.iter().map(|(word, _)| *word)
}

fn own(word: &'static str, others: &'static [&'static str]) -> impl Iterator<Item = &'static str> {
    others.iter().copied().chain([word])
}

/// Whether the key's value is words, in which no number means anything.
fn is_text(key: Key) -> bool {
    let value = |kind: &LineKind| match kind {
        LineKind::Field(field) => matches!(field.value, Value::Text | Value::Terms(_)),
        _ => false,
    };
    key != Key::Units && read(key.word()).is_some_and(|kind| value(&kind))
}

/// Whether `words: x` is a field, though they are a technique: a slip from a key.
fn is_field(words: &str) -> bool {
    Key::from_word(words).is_none() && matches!(read(words), Some(LineKind::Field(_)))
}

/// How the line `key: x` is read.
fn read(key: &str) -> Option<LineKind> {
    let document = Document::parse(format!("drink: A\n{key}: x"));
    let entry = document.entries().first()?;
    entry.entry.lines.get(1).map(|line| line.what.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(name: &str) -> Vec<&'static str> {
        lists().into_iter().find(|list| list.name == name).unwrap().words
    }

    #[test]
    fn keys_are_parted_by_their_values() {
        assert!(words("text key").contains(&"note"));
        assert!(words("value key").contains(&"yields"));
        assert_eq!(words("text key").len() + words("value key").len(), Key::ALL.len());
    }

    #[test]
    fn longer_words_stand_before_their_beginnings() {
        for List { name, words } in lists() {
            assert!(!words.is_empty(), "{name}");
            assert!(words.windows(2).all(|pair| pair[0].len() >= pair[1].len()), "{name}");
        }
    }
}
