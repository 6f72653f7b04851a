//! What the house's cards say most often behind a key.

use std::cmp::Reverse;
use std::collections::HashMap;

use washline_syntax::Key;
use washline_text::fold;

use super::site::Place;

/// How often each value stands on the house's other cards.
pub(super) struct Usual<'a> {
    /// By the value folded: as it was written first, and how often.
    said: HashMap<String, (&'a str, u32)>,
}

impl<'a> Usual<'a> {
    /// What the entries of the workspace say behind `key`, that at the cursor left out.
    pub(super) fn of(place: &Place<'a>, key: Key) -> Self {
        let own = place.record().map(|record| record.id);
        let mut said: HashMap<String, (&'a str, u32)> = HashMap::new();
        for record in place.workspace.records().iter().filter(|record| Some(record.id) != own) {
            for field in record.fields(key) {
                let value = record.text(field.value_span);
                let ends: &[char] = match key {
                    Key::Store => &[],
                    Key::Garnish => &[';'],
                    _ => &[',', ';', '('],
                };
                for term in value.split(ends).map(|term| bare(key, term)) {
                    if !term.is_empty() {
                        said.entry(fold(term)).or_insert((term, 0)).1 += 1;
                    }
                }
            }
        }
        Self { said }
    }

    /// How often `word` is said.
    pub(super) fn times(&self, word: &str) -> u32 {
        self.said.get(&fold(word)).map_or(0, |(_, times)| *times)
    }

    /// `words`, those that are said most often first, the others as they come.
    pub(super) fn first<T>(
        &self,
        words: impl Iterator<Item = T>,
        name: impl Fn(&T) -> &str,
    ) -> Vec<T> {
        let mut words: Vec<T> = words.collect();
        words.sort_by_cached_key(|word| Reverse(self.times(name(word))));
        words
    }

    /// All that is said, the most often said first.
    pub(super) fn all(&self) -> impl Iterator<Item = (&'a str, u32)> {
        let mut all: Vec<(&str, u32)> = self.said.values().copied().collect();
        all.sort_by_key(|(word, times)| (Reverse(*times), *word));
        all.into_iter()
    }
}

/// A term without the size behind a glass.
fn bare(key: Key, term: &str) -> &str {
    let end = match key {
        Key::Glass | Key::Vessel => term.find(|c: char| c.is_ascii_digit()),
        _ => None,
    };
    term.get(..end.unwrap_or(term.len())).unwrap_or_default().trim()
}
