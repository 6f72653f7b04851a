//! The techniques as they are written, and how one is met at the start of words.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use crate::Technique;
use crate::slice::{boundary, gap, is_dash, one_of, phrase, taken};

/// What follows a first word in the spellings that share it, longest first.
type Spellings = Vec<(&'static str, Technique)>;

/// Spellings by their first word, sorted by it.
static SPELLINGS: LazyLock<Vec<(&str, Spellings)>> = LazyLock::new(|| {
    let mut table: BTreeMap<&str, Spellings> = BTreeMap::new();
    for technique in Technique::ALL {
        let others = technique.others().iter().copied();
        for words in others.chain([technique.word()]) {
            let (first, more) = words.split_once(' ').unwrap_or((words, ""));
            table.entry(first).or_default().push((more, *technique));
        }
    }
    for spellings in table.values_mut() {
        spellings.sort_by_key(|(words, _)| std::cmp::Reverse(words.len()));
    }
    table.into_iter().collect()
});

/// Words that may stand before a verb.
pub(crate) const ADVERBS: &[(&str, ())] = &[
    ("then", ()),
    ("now", ()),
    ("gently", ()),
    ("briefly", ()),
    ("quickly", ()),
    ("lightly", ()),
    ("finally", ()),
    ("slowly", ()),
    ("carefully", ()),
    ("first", ()),
    ("next", ()),
    ("and", ()),
];

/// So many adverbs may stand before a verb: `and then very gently`.
const MOST_ADVERBS: usize = 4;

/// The technique at the start of `text`, longest first, with its words. A hyphen
/// stands for a blank, case does not matter.
#[must_use]
pub fn technique_at_start(text: &str) -> Option<(Technique, &str)> {
    at_start(skip_adverbs(text))
}

/// The technique that `text` starts with at once.
pub(crate) fn at_start(text: &str) -> Option<(Technique, &str)> {
    let mut letters = [0; LONGEST_WORD];
    let first = first_word(text, &mut letters)?;
    let found = SPELLINGS.binary_search_by(|(word, _)| word.as_bytes().cmp(first)).ok()?;
    let (_, spellings) = SPELLINGS.get(found)?;
    let rest = text.trim_start_matches(is_letter);
    let (technique, rest) = spellings.iter().find_map(|(more, technique)| {
        let rest = if more.is_empty() { rest } else { phrase(next_word(rest)?, more)? };
        boundary(rest).then_some((*technique, rest))
    })?;
    Some((technique, taken(text, rest)))
}

/// What follows the blank or hyphen at the start of `rest`.
fn next_word(rest: &str) -> Option<&str> {
    rest.strip_prefix(|c: char| c.is_whitespace() || is_dash(c)).map(gap)
}

const fn is_letter(c: char) -> bool {
    c.is_ascii_alphabetic() || matches!(c, 'é' | 'è' | 'ê' | 'É')
}

/// No spelling's first word is longer.
const LONGEST_WORD: usize = 16;

/// The first word of `text` in lower case without accents, put into `letters`.
fn first_word<'a>(text: &str, letters: &'a mut [u8; LONGEST_WORD]) -> Option<&'a [u8]> {
    let mut len = 0;
    for c in text.chars() {
        let letter = match c {
            'a'..='z' => c,
            'A'..='Z' => c.to_ascii_lowercase(),
            'é' | 'è' | 'ê' | 'É' => 'e',
            _ => break,
        };
        *letters.get_mut(len)? = u8::try_from(letter).ok()?;
        len += 1;
    }
    letters.get(..len).filter(|word| !word.is_empty())
}

/// `text` without the adverbs at its start; all of it where nothing else is left.
pub(crate) fn skip_adverbs(text: &str) -> &str {
    let mut start = text;
    for _ in 0..MOST_ADVERBS {
        let Some(((), rest)) = one_of(start, ADVERBS) else { break };
        let next = gap(rest.strip_prefix(',').unwrap_or(rest));
        if next.len() == rest.len() || next.is_empty() {
            break;
        }
        start = next;
    }
    start
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_spelling_is_met() {
        for technique in Technique::ALL {
            for word in technique.others().iter().copied().chain([technique.word()]) {
                let spelt = word.to_uppercase().replace(' ', "-");
                let found = at_start(&spelt).map(|(technique, _)| technique);
                assert_eq!(found, Some(*technique), "{word}");
            }
        }
    }

    #[test]
    fn no_two_techniques_share_a_spelling() {
        let mut all: Vec<&str> = Technique::ALL
            .iter()
            .flat_map(|t| t.others().iter().copied().chain([t.word()]))
            .collect();
        all.sort_unstable();
        let count = all.len();
        all.dedup();
        assert_eq!(all.len(), count);
    }

    #[test]
    fn the_longest_wins_behind_adverbs() {
        let check = |text: &str, technique, words: &str| {
            assert_eq!(technique_at_start(text), Some((technique, words)), "{text}");
        };
        check("shake hard with ice", Technique::HardShake, "shake hard");
        check("then gently dry-shake", Technique::DryShake, "dry-shake");
        check("finally, top with soda", Technique::Top, "top");
        check("reverse dry shake", Technique::ReverseDryShake, "reverse dry shake");
        assert_eq!(technique_at_start("shaker on ice"), None);
        assert_eq!(technique_at_start("then"), None);
    }
}
