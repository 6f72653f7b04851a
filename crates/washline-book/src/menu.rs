//! What the words of a menu name, held against what is poured.

use std::collections::BTreeSet;

use washline_reference as reference;
use washline_reference::Sort;
use washline_syntax::Key;
use washline_text::{Span, fold};

use crate::{EntryId, Read, Record, Referent, Workspace};

/// The `menu:` of a drink as read: the ingredients that its words name. Words that name none are
/// the menu's own.
#[derive(Clone, Debug, Default)]
pub struct Menu {
    /// What it names, in order.
    pub names: Vec<MenuName>,
    /// All its words, folded.
    words: BTreeSet<String>,
}

/// An ingredient that a menu names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MenuName {
    /// The words, in the drink's entry.
    pub span: Span,
    /// What they mean.
    pub referent: Referent,
    /// Whether a line, a garnish, or a prep of them holds it, or something that goes by one of
    /// its words.
    pub poured: bool,
}

/// Words between the names of a menu.
const BETWEEN: &[&str] = &[
    "a", "an", "and", "at", "by", "for", "from", "in", "into", "is", "it", "its", "of", "on", "or",
    "our", "over", "the", "to", "under", "with", "two", "three", "house", "cube", "dash", "splash",
    "touch", "breath", "hint", "float",
];

/// Words that say what sort of thing something is, and so tell nothing apart.
const TELL_NOTHING: &[&str] = &[
    "juice", "syrup", "liqueur", "water", "wine", "fresh", "white", "red", "black", "green",
    "dark", "light", "gold", "golden", "aged", "old", "dry", "sweet", "rich", "clear", "hot",
    "cold", "raw", "whole", "house", "half", "of", "de", "and", "the", "leaf", "leaves", "extra",
    "strength",
];

impl Workspace {
    /// What the menu words of a drink name; `None` where it has none.
    #[must_use]
    pub fn menu(&self, record: &Record) -> Option<Menu> {
        let field = record.field(Key::Menu)?;
        let text = record.text(field.value_span);
        let mut menu = Menu { words: telling(text).collect(), ..Menu::default() };
        let mut deep: Option<BTreeSet<String>> = None;
        let mut start = 0;
        for clause in text.split_inclusive([',', ';', '(', ')', ':', '.', '|', '/']) {
            let from = field.value_span.start + u32::try_from(start).unwrap_or(u32::MAX);
            start += clause.len();
            for (span, referent) in self.names_in(clause, from, record) {
                let words: Vec<String> =
                    telling(record.text(span)).chain(telling(self.name_of(referent))).collect();
                let poured = self.is_poured(referent, record) || on_the_card(record, &words) || {
                    let deep = deep.get_or_insert_with(|| self.words_of(record));
                    words.iter().any(|word| deep.contains(word))
                };
                menu.names.push(MenuName { span, referent, poured });
            }
        }
        Some(menu)
    }

    /// The ingredients that a clause names: the whole of it, else the runs between small words.
    fn names_in(&self, clause: &str, from: u32, record: &Record) -> Vec<(Span, Referent)> {
        let trimmed = clause.trim_matches(|c: char| !c.is_alphanumeric());
        if let Some(referent) = self.ingredient(trimmed, record) {
            return vec![(Span::of(trimmed, clause).shift(from), referent)];
        }
        let words: Vec<Span> =
            trimmed.split_whitespace().map(|word| Span::of(word, clause)).collect();
        let runs = words.split(|word| BETWEEN.contains(&fold(word.text(clause)).as_str()));
        runs.filter_map(|run| {
            let span = run.first()?.cover(*run.last()?);
            let referent = self.ingredient(span.text(clause), record)?;
            Some((span.shift(from), referent))
        })
        .collect()
    }

    /// What a name means, as far as it is an ingredient: ice and water are how it is served.
    fn ingredient(&self, name: &str, record: &Record) -> Option<Referent> {
        if name.is_empty() {
            return None;
        }
        let referent = self.meaning(name, record).hits.first().copied()?;
        let Referent::Reference(id) = referent else { return Some(referent) };
        let known = reference::ingredient(id)?;
        (!matches!(known.sort, Sort::Ice | Sort::Water)).then_some(referent)
    }

    fn is_poured(&self, referent: Referent, record: &Record) -> bool {
        match referent {
            Referent::Reference(id) => record.reaches.iter().any(|(reached, _)| *reached == id),
            Referent::Entry(id) => self.uses_deep(record, id, 8),
        }
    }

    fn uses_deep(&self, record: &Record, id: EntryId, deepest: u32) -> bool {
        record.uses.iter().any(|used| {
            let below = || self.record(*used).is_some_and(|r| self.uses_deep(r, id, deepest - 1));
            *used == id || deepest > 0 && below()
        })
    }

    /// The telling words of everything that is in a drink, its preps' lines too.
    fn words_of(&self, record: &Record) -> BTreeSet<String> {
        let mut words = BTreeSet::new();
        self.add_words(record, 8, &mut words);
        for (id, _) in &record.reaches {
            let Some(known) = reference::ingredient(*id) else { continue };
            words.extend(telling(known.name));
            words.extend(known.aliases.iter().flat_map(|alias| telling(alias)));
        }
        words
    }

    fn add_words(&self, record: &Record, deepest: u32, words: &mut BTreeSet<String>) {
        for read in record.reads.iter().chain(&record.garnishes) {
            words.extend(telling(record.text(read.span)));
            words.extend(read.or.iter().flat_map(|(name, _)| telling(name)));
        }
        for used in record.uses.iter().filter_map(|id| self.record(*id)) {
            words.extend(telling(&used.name));
            words.extend(used.terms(Key::Also).flat_map(|(name, _)| telling(name)));
            if deepest > 0 {
                self.add_words(used, deepest - 1, words);
            }
        }
    }
}

/// Whether a line of the card has one of `words`: most names of a menu are found there.
fn on_the_card(record: &Record, words: &[String]) -> bool {
    let lines = record.reads.iter().chain(&record.garnishes);
    lines.into_iter().any(|read| telling(&read.name).any(|word| words.contains(&word)))
}

impl Menu {
    /// Whether it speaks of the line `read`: by a telling word of its name, or of what it is.
    #[must_use]
    pub fn speaks_of(&self, workspace: &Workspace, read: &Read) -> bool {
        let names = read.referents().map(|referent| workspace.name_of(referent));
        let mut all = names.chain([read.name.as_str()]).flat_map(telling);
        all.any(|word| self.words.contains(&word))
    }

    /// Whether one of the folded `words` stands in it.
    #[must_use]
    pub fn says_any(&self, words: &[&str]) -> bool {
        words.iter().flat_map(|word| telling(word)).any(|word| self.words.contains(&word))
    }
}

/// The words that tell a thing apart, folded, plurals cut.
fn telling(text: &str) -> impl Iterator<Item = String> + use<> {
    let folded = fold(text);
    let words: Vec<String> = folded
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| word.len() > 1 && word.chars().any(char::is_alphabetic))
        .filter(|word| !TELL_NOTHING.contains(word))
        .map(stem)
        .collect();
    words.into_iter()
}

/// A plural without its end: `berries` and `berry` are one, as `whiskey` and `whisky` are.
fn stem(word: &str) -> String {
    let word = match word.strip_suffix('s') {
        Some(one) if one.len() > 2 && !one.ends_with('s') => one,
        _ => word,
    };
    let word = word.strip_suffix("ie").or_else(|| word.strip_suffix("ey")).unwrap_or(word);
    word.trim_end_matches('y').to_owned()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::Settings;

    /// The names that the menu of the first drink has, those that are not poured with a `!`.
    fn names(menu: &str, lines: &str) -> Vec<String> {
        let text = format!("drink: A\n  menu: {menu}\n{lines}");
        let files = vec![(Arc::from("book.pour"), Arc::from(text.as_str()))];
        let workspace = Workspace::new(files, Settings::default());
        let record = workspace.records().first().unwrap();
        let said = |name: &MenuName| {
            format!("{}{}", record.text(name.span), if name.poured { "" } else { "!" })
        };
        workspace.menu(record).unwrap().names.iter().map(said).collect()
    }

    #[test]
    fn clauses_and_runs_are_names() {
        let lines = "  50 ml rye whiskey\n  20 ml lemon juice\n  5 ml absinthe\n";
        assert_eq!(
            names("rye, lemon, a breath of absinthe, dusk", lines),
            ["rye", "lemon", "absinthe"]
        );
        assert_eq!(names("gin and lime over ice", lines), ["gin!", "lime!"]);
    }

    #[test]
    fn a_general_word_and_a_kind_of_it_are_one() {
        let lines = "  50 ml bourbon\n  25 ml sweet vermouth\n  2 raspberries\n";
        assert_eq!(
            names("whisky, vermouth, raspberry", lines),
            ["whisky", "vermouth", "raspberry"]
        );
    }

    #[test]
    fn what_a_prep_holds_is_poured() {
        let lines = "  20 ml Hedge Syrup\nprep: Hedge Syrup\n  100 g honey\n  50 g water\n";
        assert_eq!(names("honey, hedge syrup, almond", lines), ["honey", "hedge syrup", "almond!"]);
    }
}
