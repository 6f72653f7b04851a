//! Splits a step into acts: at commas, full stops, `and`, `then`, where a technique
//! follows that can be no part of what is said before it.

use super::misspelt;
use super::vocabulary::{at_start, skip_adverbs};
use crate::Technique;
use crate::slice::{self, first, gap, is_dash, phrase, skip, taken};

/// An act of a step: its text without the joints around it, and its verb.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cut<'t> {
    pub text: &'t str,
    pub verb: Verb<'t>,
}

/// The words that say what is done, where they stand behind adverbs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Verb<'t> {
    pub technique: Option<Technique>,
    /// What a misspelt one nearly is.
    pub meant: Option<Technique>,
    pub words: &'t str,
    /// What follows it, up to the end of the step.
    behind: &'t str,
}

/// The acts of a step's text.
pub(crate) fn acts(text: &str) -> Acts<'_> {
    Acts { rest: Some((text, verb(text))) }
}

/// See [`acts`].
pub(crate) struct Acts<'t> {
    rest: Option<(&'t str, Verb<'t>)>,
}

impl<'t> Iterator for Acts<'t> {
    type Item = Cut<'t>;

    fn next(&mut self) -> Option<Cut<'t>> {
        let (text, verb) = self.rest?;
        let joint = joint(text, verb);
        let act = joint.map_or(text, |joint| joint.before);
        self.rest = joint.map(|joint| (joint.start, joint.verb));
        let signs = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | '&');
        Some(Cut { text: act.trim_end_matches(signs), verb })
    }
}

/// Where one act ends and the next one starts.
#[derive(Clone, Copy)]
struct Joint<'t> {
    before: &'t str,
    start: &'t str,
    verb: Verb<'t>,
}

/// The first joint of `text`, whose own verb no joint can stand inside.
fn joint<'t>(text: &'t str, verb: Verb<'t>) -> Option<Joint<'t>> {
    let object = gap(verb.behind);
    let bytes = text.as_bytes();
    let mut at = text.len() - verb.behind.len();
    let mut until = false;
    while let Some(byte) = bytes.get(at) {
        let next = match byte {
            b',' | b';' | b'&' => Some(skip(text, at + 1)),
            b'.' if bytes.get(at + 1).is_none_or(u8::is_ascii_whitespace) => {
                Some(skip(text, at + 1))
            }
            b' ' | b'\t' => {
                let word = skip(text, at + 1);
                until |= phrase(word, "until").is_some();
                joining_word(word)
            }
            _ => None,
        };
        if let Some(next) = next {
            let said = taken(object, skip(text, at));
            if let Some((start, verb)) = act_start(next, said, until) {
                return Some(Joint { before: taken(text, skip(text, at)), start, verb });
            }
        }
        at += 1;
    }
    None
}

/// The verb that opens `text`: a technique, or its first word where that could be one.
fn verb(text: &str) -> Verb<'_> {
    let start = skip_adverbs(text);
    let behind = |words: &'_ str| skip(start, words.len());
    let known = at_start(start);
    let meant = misspelt::at(start, known.map(|(_, words)| words));
    if let (Some((technique, words)), None) = (known, meant) {
        return Verb { technique: Some(technique), meant: None, words, behind: behind(words) };
    }
    if let Some((meant, words)) = meant {
        return Verb { technique: None, meant: Some(meant), words, behind: behind(words) };
    }
    let word = slice::word(start);
    // An act that opens with an amount has no verb.
    let numeric = word.starts_with(|c: char| c.is_numeric());
    let words = if numeric { slice::start(start) } else { word };
    Verb { technique: None, meant: None, words, behind: behind(word) }
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

/// Where an act starts behind a joint, and its verb, if that is a technique that speaks
/// for itself. `object` is what the act before says behind its verb.
fn act_start<'t>(behind: &'t str, object: &str, until: bool) -> Option<(&'t str, Verb<'t>)> {
    let mut start = gap(behind);
    for _ in 0..JOINING_WORDS {
        let Some(rest) = phrase(start, "and").or_else(|| phrase(start, "then")) else { break };
        start = gap(rest);
    }
    let verb = verb(start);
    verb.technique.or(verb.meant)?;
    speaks(verb.words, gap(verb.behind), object, until).then_some((start, verb))
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
pub(crate) const QUALITIES: &[&str] = &["dry", "light", "cool", "warm", "clean"];

/// Verbs that are as often a part of a fruit.
pub(crate) const THINGS: &[&str] = &["juice", "peel", "zest", "slice", "quarter", "core"];

/// Words that follow a verb, and not a quality.
pub(crate) const SMALL: &[&str] = &[
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
        assert_eq!(acts(text).map(|act| act.text).collect::<Vec<_>>(), expected, "{text}");
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
    fn a_misspelt_technique_is_an_act() {
        check("shake and strian", &["shake", "strian"]);
        check("stir with ice, dubble strain", &["stir with ice", "dubble strain"]);
        check("shake, then strian into a coupe", &["shake", "strian into a coupe"]);
        check("shake, dry shkae", &["shake", "dry shkae"]);
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
            "top with lager and whisky",
            "add sake, chilli and a splash of flat soda",
            "serve with a strain of wild yeast",
        ] {
            check(one, &[one]);
        }
    }
}
