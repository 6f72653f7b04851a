//! Splits a step into acts: at commas, full stops, `and`, `then`, where a technique
//! follows that can be no part of what is said before it.

use super::vocabulary::{at_start, skip_adverbs};
use crate::slice::{self, first, gap, is_dash, phrase, skip, taken};

/// The acts of a step's text, each trimmed of the joints around it.
pub(crate) fn acts(text: &str) -> Acts<'_> {
    Acts { rest: Some(text) }
}

/// See [`acts`].
pub(crate) struct Acts<'t> {
    rest: Option<&'t str>,
}

impl<'t> Iterator for Acts<'t> {
    type Item = &'t str;

    fn next(&mut self) -> Option<&'t str> {
        let text = self.rest?;
        let cut = joint(text);
        self.rest = cut.map(|(_, next)| next);
        let act = cut.map_or(text, |(act, _)| act);
        Some(
            act.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | '&')),
        )
    }
}

/// The first joint of `text`: the act before it, and where the next one starts.
fn joint(text: &str) -> Option<(&str, &str)> {
    let behind = behind_verb(text);
    let object = gap(behind);
    let bytes = text.as_bytes();
    let mut at = text.len() - behind.len();
    let mut until = false;
    while let Some(byte) = bytes.get(at) {
        let next = match byte {
            b',' | b';' | b'&' => Some(skip(text, at + 1)),
            b'.' if bytes.get(at + 1).is_none_or(u8::is_ascii_whitespace) => {
                Some(skip(text, at + 1))
            }
            b' ' | b'\t' => joining_word(skip(text, at + 1)),
            _ => None,
        };
        if matches!(byte, b' ') && phrase(skip(text, at + 1), "until").is_some() {
            until = true;
        }
        let before = taken(object, skip(text, at));
        if let Some(start) = next.and_then(|next| act_start(next, before, until)) {
            return Some((taken(text, skip(text, at)), start));
        }
        at += 1;
    }
    None
}

/// What follows the verb that opens `text`; a joint cannot stand inside it.
fn behind_verb(text: &str) -> &str {
    let start = skip_adverbs(text);
    let verb = at_start(start).map_or_else(|| slice::word(start), |(_, verb)| verb);
    skip(start, verb.len())
}

/// So many `and` and `then` may stand between two acts: `, and then`.
const JOINING_WORDS: usize = 2;

/// What follows `and` or `then` at the start of `rest`.
fn joining_word(rest: &str) -> Option<&str> {
    if !matches!(rest.as_bytes().first(), Some(b'a' | b't' | b'A' | b'T')) {
        return None;
    }
    phrase(rest, "and").or_else(|| phrase(rest, "then"))
}

/// Where an act starts behind a joint, if a technique stands there and speaks for itself.
/// `object` is what the act before says behind its verb.
fn act_start<'t>(behind: &'t str, object: &str, until: bool) -> Option<&'t str> {
    let mut start = gap(behind);
    for _ in 0..JOINING_WORDS {
        let Some(rest) = phrase(start, "and").or_else(|| phrase(start, "then")) else { break };
        start = gap(rest);
    }
    let words = skip_adverbs(start);
    let (_, verb) = at_start(words)?;
    let after = gap(skip(words, verb.len()));
    speaks(verb, after, object, until).then_some(start)
}

/// Whether `verb` is done, and not a thing or a quality of one.
fn speaks(verb: &str, after: &str, object: &str, until: bool) -> bool {
    let is = |words: &[&str]| words.iter().any(|word| word.eq_ignore_ascii_case(verb));
    if phrase(after, "of").is_some() {
        return false;
    }
    if verb.ends_with("ed") || verb.ends_with("en") || is(QUALITIES) {
        // `chilled soda`, `dry vermouth`; in `until cold and mixed` nothing is done.
        return !until && (ends(after) || is_small_word(after));
    }
    if is(THINGS) {
        // `add sugar and zest`; `wash, peel, juice` is done.
        return object.is_empty() || !ends(after) && !is_link(after);
    }
    true
}

/// Verbs that are as often a quality of what follows.
const QUALITIES: &[&str] = &["dry", "light", "cool", "warm", "clean"];

/// Verbs that are as often a part of a fruit.
const THINGS: &[&str] = &["juice", "peel", "zest", "slice", "quarter", "core"];

/// Words that follow a verb, and not a quality.
const SMALL: &[&str] = &[
    "the",
    "a",
    "an",
    "it",
    "them",
    "for",
    "in",
    "at",
    "to",
    "over",
    "with",
    "without",
    "until",
    "on",
    "off",
    "out",
    "up",
    "down",
    "from",
    "by",
    "into",
    "onto",
    "through",
    "under",
    "and",
    "then",
    "overnight",
    "again",
    "well",
    "gently",
    "slowly",
    "completely",
    "thoroughly",
    "all",
    "each",
    "both",
    "everything",
    "as",
    "before",
    "after",
];

/// Words that tie a thing to what stands before it.
const LINKS: &[&str] = &["in", "with", "from", "on", "and", "to", "into", "then", "for"];

fn ends(after: &str) -> bool {
    first(after).is_none_or(|c| matches!(c, ',' | ';' | '.' | '&' | '(') || is_dash(c))
}

fn is_small_word(after: &str) -> bool {
    let number = first(after).is_some_and(char::is_numeric);
    number || SMALL.iter().any(|word| phrase(after, word).is_some())
}

fn is_link(after: &str) -> bool {
    LINKS.iter().any(|word| phrase(after, word).is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &[&str]) {
        assert_eq!(acts(text).collect::<Vec<_>>(), expected, "{text}");
    }

    #[test]
    fn acts_are_split_at_joints() {
        check(
            "shake hard with cubed ice for 12 s, double strain into a chilled coupe",
            &["shake hard with cubed ice for 12 s", "double strain into a chilled coupe"],
        );
        check("bottle, label, date", &["bottle", "label", "date"]);
        check("warm to 50 C, stir until even", &["warm to 50 C", "stir until even"]);
        check("shake and strain", &["shake", "strain"]);
        check("Shake with ice. Strain.", &["Shake with ice", "Strain"]);
        check("shake & strain; serve", &["shake", "strain", "serve"]);
        check("stir then strain", &["stir", "strain"]);
        check("stir, then strain and serve", &["stir", "strain", "serve"]);
        check("stir for 2.5 min, and then gently pour", &["stir for 2.5 min", "gently pour"]);
        check("layer the cream, then dust with nutmeg", &["layer the cream", "dust with nutmeg"]);
        check("strain into a coupe, smoke", &["strain into a coupe", "smoke"]);
        check("wash, peel and juice", &["wash", "peel", "juice"]);
        check("chill overnight and skim", &["chill overnight", "skim"]);
        check("simmer, cool and bottle", &["simmer", "cool", "bottle"]);
        check("infuse 24 h, strain, dry the zest", &["infuse 24 h", "strain", "dry the zest"]);
    }

    #[test]
    fn prose_is_not_split() {
        for one in [
            "add the gin and vermouth",
            "add gin and dry vermouth",
            "top with lemonade and chilled soda",
            "stir until cold and frosted",
            "stir until chilled and mixed",
            "dust with cinnamon and grated nutmeg",
            "garnish with mint and slice of lime",
            "add the sugar and zest",
            "muddle lime and light rum",
            "serve in a tall, chilled glass",
            "add the juice and rest of the gin",
            "discard the peel, pith and seeds",
            "garnish with lemon, orange and cherry",
        ] {
            check(one, &[one]);
        }
    }
}
