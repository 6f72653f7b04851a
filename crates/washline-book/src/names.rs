//! What a name means: an entry of the same file, of its book, of the workspace,
//! or an ingredient of the reference; the nearest level that knows it answers.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use washline_measure::Unit;
use washline_reference as reference;
use washline_text::{FileId, Kind, fold};

use crate::EntryId;

/// What a name leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Referent {
    /// A prep or stock entry.
    Entry(EntryId),
    /// A reference ingredient, by its id.
    Reference(u16),
}

/// How near a name was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// In the same file.
    File,
    /// In the same named book.
    Book,
    /// Elsewhere in the workspace.
    Workspace,
    /// In the built-in reference.
    Reference,
}

/// What a name came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Resolution {
    /// What it means; several where one level knows several; empty where nothing knows it.
    pub hits: Vec<Referent>,
    /// Where it was found.
    pub level: Option<Level>,
    /// The count noun that was taken off the name.
    pub unit: Option<Unit>,
    /// The qualifier that belongs to the name (`syrup, almond`), by its place in the list.
    pub qualifier: Option<usize>,
}

/// A name that an entry goes by.
#[derive(Clone, Debug)]
struct Owner {
    id: EntryId,
    file: FileId,
    book: Option<Arc<str>>,
}

/// Every name of the workspace's preps and stock, and of its drinks.
#[derive(Clone, Debug, Default)]
pub(crate) struct Names {
    goods: FxHashMap<Box<str>, Vec<Owner>>,
    drinks: FxHashMap<Box<str>, Vec<Owner>>,
}

/// From where a name is looked up.
#[derive(Clone, Copy, Debug)]
pub(crate) struct From<'a> {
    pub file: FileId,
    pub book: Option<&'a str>,
    /// The entry that asks: a stock does not find itself by its kind's words.
    pub asker: Option<EntryId>,
}

impl Names {
    pub(crate) fn add(
        &mut self,
        kind: Kind,
        key: &str,
        id: EntryId,
        file: FileId,
        book: Option<&Arc<str>>,
    ) {
        if key.is_empty() {
            return;
        }
        let names = if kind == Kind::Drink { &mut self.drinks } else { &mut self.goods };
        let owner = Owner { id, file, book: book.cloned() };
        let owners = names.entry(key.into()).or_default();
        if owners.iter().all(|other| other.id != id) {
            owners.push(owner);
        }
    }

    /// All folded names of preps and stock.
    pub(crate) fn goods(&self) -> impl Iterator<Item = &str> {
        self.goods.keys().map(AsRef::as_ref)
    }

    /// All folded names of drinks.
    pub(crate) fn drink_names(&self) -> impl Iterator<Item = &str> {
        self.drinks.keys().map(AsRef::as_ref)
    }

    /// The drinks called `key`, nearest level first.
    pub(crate) fn drinks(&self, key: &str, from: From<'_>) -> Vec<EntryId> {
        nearest(self.drinks.get(key), from).map(|(ids, _)| ids).unwrap_or_default()
    }

    /// The preps and stock called `key`, at the nearest level that has any.
    pub(crate) fn entries(&self, key: &str, from: From<'_>) -> Option<(Vec<EntryId>, Level)> {
        nearest(self.goods.get(key), from)
    }

    /// What the folded `key` means, entries before the reference, no spelling turned.
    fn exactly(&self, key: &str, from: From<'_>) -> Option<(Vec<Referent>, Level)> {
        if key.is_empty() {
            return None;
        }
        if let Some((ids, level)) = self.entries(key, from) {
            return Some((ids.into_iter().map(Referent::Entry).collect(), level));
        }
        let known = reference::exactly(key)?;
        Some((vec![Referent::Reference(known.id)], Level::Reference))
    }

    /// What `key` means, its plural turned where it must be.
    pub(crate) fn look(&self, key: &str, from: From<'_>) -> Option<(Vec<Referent>, Level)> {
        self.exactly(key, from).or_else(|| {
            reference::plural::turned(key).find_map(|turned| self.exactly(&turned, from))
        })
    }

    /// Whether `text` as it stands, commas and all, is a known name.
    pub(crate) fn knows(&self, text: &str, from: From<'_>) -> bool {
        self.look(&fold(text), from).is_some()
    }

    /// What `name` with its prose qualifiers means. `counted` says that the amount has no unit, so that a count
    /// noun at either end of the name is it.
    pub(crate) fn resolve(
        &self,
        name: &str,
        qualifiers: &[&str],
        counted: bool,
        from: From<'_>,
    ) -> Resolution {
        let key = fold(name);
        for (at, qualifier) in qualifiers.iter().enumerate() {
            let word = fold(qualifier);
            if word.is_empty() || is_preparation(&word) {
                continue;
            }
            if let Some((hits, level)) = self.look(&format!("{word} {key}"), from) {
                return Resolution { hits, level: Some(level), unit: None, qualifier: Some(at) };
            }
        }
        let found = |(hits, level): (Vec<Referent>, Level), unit: Option<Unit>| Resolution {
            hits,
            level: Some(level),
            unit,
            qualifier: None,
        };
        let nouns = count_noun_off(&key);
        let whole = self.look(&key, from);
        if counted && let Some((rest, unit)) = nouns.first() {
            // `8 mint leaves`, `1 sugar cube`: the noun is the unit, whether or not it is part of the name.
            // Of two meanings the nearer stands: the house's mint before the reference's mint leaf.
            let bare = self.look(rest, from);
            let nearer = |whole: &(Vec<Referent>, Level)| {
                bare.as_ref().is_none_or(|bare| bare.0 != whole.0 && whole.1 <= bare.1)
            };
            if let Some(hit) = whole.filter(nearer) {
                return found(hit, Some(*unit));
            }
            if let Some(hit) = bare {
                return found(hit, Some(*unit));
            }
        }
        if let Some(hit) = self.look(&key, from) {
            return found(hit, None);
        }
        for (rest, unit) in &nouns {
            if let Some(hit) = self.look(rest, from) {
                return found(hit, counted.then_some(*unit));
            }
        }
        let bare = front_words_off(&key);
        if bare != key {
            if let Some(hit) = self.look(&bare, from) {
                return found(hit, None);
            }
            if let Some((hit, unit)) = count_noun_off(&bare)
                .into_iter()
                .find_map(|(rest, unit)| Some((self.look(&rest, from)?, unit)))
            {
                return found(hit, counted.then_some(unit));
            }
        }
        if let Some(hit) = part_of_phrase(&bare).and_then(|phrase| self.look(&phrase, from)) {
            return found(hit, None);
        }
        Resolution::default()
    }
}

fn nearest(owners: Option<&Vec<Owner>>, from: From<'_>) -> Option<(Vec<EntryId>, Level)> {
    let others = || owners.into_iter().flatten().filter(|owner| Some(owner.id) != from.asker);
    let pick = |keep: &dyn Fn(&Owner) -> bool, level: Level| {
        let ids: Vec<EntryId> = others().filter(|o| keep(o)).map(|o| o.id).collect();
        (!ids.is_empty()).then_some((ids, level))
    };
    pick(&|owner| owner.file == from.file, Level::File)
        .or_else(|| {
            let book = from.book?;
            pick(&|owner| owner.book.as_deref() == Some(book), Level::Book)
        })
        .or_else(|| pick(&|_| true, Level::Workspace))
}

/// A count noun at either end of a folded name, and the rest: `mint leaves` is leaf and mint.
fn count_noun_off(key: &str) -> Vec<(String, Unit)> {
    let mut out = Vec::new();
    let unit_of = |word: &str| {
        Unit::from_words(word)
            .filter(|unit| unit.kind() == washline_measure::UnitKind::Count && *unit != Unit::Half)
    };
    if let Some((rest, last)) = key.rsplit_once(' ')
        && let Some(unit) = unit_of(last)
    {
        out.push((rest.to_owned(), unit));
    }
    if let Some((first, rest)) = key.split_once(' ')
        && let Some(unit) = unit_of(first)
    {
        out.push((rest.strip_prefix("of ").unwrap_or(rest).to_owned(), unit));
    }
    out
}

/// Words before a name that say how it is prepared, not what it is.
const FRONT: &[&str] = &[
    "fresh",
    "freshly",
    "squeezed",
    "pressed",
    "chilled",
    "cold",
    "ice",
    "hot",
    "warm",
    "good",
    "quality",
    "best",
    "ripe",
    "large",
    "small",
    "medium",
    "big",
    "whole",
    "chopped",
    "sliced",
    "diced",
    "torn",
    "crushed",
    "ground",
    "freshly ground",
    "peeled",
    "house",
    "homemade",
    "home",
    "made",
    "raw",
    "organic",
    "plain",
    "very",
    "top",
    "thin",
    "thick",
    "long",
    "short",
    "fat",
    "cracked",
    "dried",
    "toasted",
    "grated",
    "unsalted",
    "strained",
    "clarified",
    "pasteurised",
    "pasteurized",
    "frozen",
    "room",
    "temperature",
    "fine",
    "more",
    "extra",
    "cut",
    "just",
    "boiling",
    "lukewarm",
    "filtered",
    "still",
    "finely",
    "roughly",
    "heaped",
    "level",
    "scant",
    "generous",
    "bottled",
    "canned",
    "fresh squeezed",
];

fn front_words_off(key: &str) -> String {
    let mut rest = key;
    while let Some((first, tail)) = rest.split_once(' ') {
        if !FRONT.contains(&first) {
            break;
        }
        rest = tail;
    }
    rest.to_owned()
}

/// `juice of a lime` is lime juice.
fn part_of_phrase(key: &str) -> Option<String> {
    let (part, rest) = key.split_once(" of ")?;
    if !matches!(part, "juice" | "zest" | "peel" | "white" | "yolk") {
        return None;
    }
    let rest = ["a ", "an ", "one ", "1 ", "the ", "half a ", "half "]
        .iter()
        .find_map(|article| rest.strip_prefix(article))
        .unwrap_or(rest);
    Some(format!("{rest} {part}"))
}

/// Qualifiers that say how a thing is prepared, and so are never tried as part of its name.
fn is_preparation(word: &str) -> bool {
    const WORDS: &[&str] = &[
        "fresh",
        "freshly squeezed",
        "fresh squeezed",
        "chilled",
        "cold",
        "hot",
        "warm",
        "strained",
        "fine strained",
        "peeled",
        "sliced",
        "chopped",
        "diced",
        "torn",
        "crushed",
        "ground",
        "grated",
        "cracked",
        "toasted",
        "juiced",
        "squeezed",
        "pressed",
        "optional",
        "clarified",
        "pasteurised",
        "pasteurized",
        "frozen",
        "house",
        "homemade",
        "home made",
        "to taste",
        "to top",
        "for garnish",
        "on the side",
        "bruised",
        "muddled",
        "expressed",
        "dried",
        "separated",
        "beaten",
        "whole",
        "large",
        "small",
        "packed",
        "loose",
        "heaped",
        "level",
        "softened",
        "melted",
        "room temperature",
        "at room temperature",
        "unsalted",
        "ripe",
        "organic",
        "bottled",
        "plus more",
        "more to taste",
        "for the rim",
        "to rinse",
        "to float",
        "by weight",
        "dry",
    ];
    WORDS.contains(&word)
}

/// The sides of a choice (`bourbon or rye whiskey`); a side that is unknown alone
/// takes the last words of another.
pub(crate) fn choice(name: &str) -> Option<Vec<&str>> {
    let lower = name.to_ascii_lowercase();
    let mut parts = Vec::new();
    let mut from = 0;
    let mut depth = 0_i32;
    let mut at = 0;
    while at < lower.len() {
        let rest = lower.get(at..)?;
        if rest.starts_with('(') {
            depth += 1;
        } else if rest.starts_with(')') {
            depth -= 1;
        }
        let joint = [" and/or ", " or "].into_iter().find(|joint| rest.starts_with(joint));
        if let Some(joint) = joint.filter(|_| depth == 0) {
            parts.push(name.get(from..at)?.trim());
            at += joint.len();
            from = at;
            continue;
        }
        at += rest.chars().next().map_or(1, char::len_utf8);
    }
    if parts.is_empty() {
        return None;
    }
    parts.push(name.get(from..)?.trim());
    parts.iter().all(|part| !part.is_empty()).then_some(parts)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_has_sides() {
        assert_eq!(choice("bourbon or rye whiskey"), Some(vec!["bourbon", "rye whiskey"]));
        assert_eq!(choice("light or dark or gold rum"), Some(vec!["light", "dark", "gold rum"]));
        assert_eq!(choice("orange juice"), None);
        assert_eq!(choice("gin (or vodka)"), None);
    }

    #[test]
    fn count_nouns_come_off_either_end() {
        assert_eq!(count_noun_off("mint leaves"), [("mint".to_owned(), Unit::Leaf)]);
        assert_eq!(count_noun_off("sprig of mint"), [("mint".to_owned(), Unit::Sprig)]);
        assert!(count_noun_off("gin").is_empty());
    }

    #[test]
    fn front_words_come_off() {
        assert_eq!(front_words_off("freshly squeezed lime juice"), "lime juice");
        assert_eq!(front_words_off("cold"), "cold");
    }
}
