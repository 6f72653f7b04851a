//! The techniques as they are written, and how one is met at the start of words.

use std::sync::LazyLock;

use crate::Technique;
use crate::slice::{gap, one_of, taken};

/// Spellings by first letter, longest first.
static SPELLINGS: LazyLock<[Vec<(&str, Technique)>; 26]> = LazyLock::new(|| {
    let mut table: [Vec<(&str, Technique)>; 26] = std::array::from_fn(|_| Vec::new());
    for technique in Technique::ALL {
        let others = technique.others().iter().copied();
        for word in others.chain([technique.word()]) {
            let place = word.bytes().next().and_then(letter).and_then(|at| table.get_mut(at));
            if let Some(place) = place {
                place.push((word, *technique));
            }
        }
    }
    for place in &mut table {
        place.sort_by_key(|(word, _)| std::cmp::Reverse(word.len()));
    }
    table
});

/// Words that may stand before a verb.
const ADVERBS: &[(&str, ())] = &[
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
    let first = text.bytes().next()?;
    let spellings = SPELLINGS.get(letter(first)?)?;
    let (technique, rest) = one_of(text, spellings)?;
    Some((technique, taken(text, rest)))
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

fn letter(byte: u8) -> Option<usize> {
    let lower = byte.to_ascii_lowercase();
    lower.is_ascii_lowercase().then(|| usize::from(lower - b'a'))
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
