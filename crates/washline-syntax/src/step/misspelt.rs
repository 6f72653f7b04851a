//! A technique with a slip of the pen in it: near to one, and no other word of the bar.

use super::vocabulary::at_start;
use crate::Technique;
use crate::near::distance;
use crate::slice::{gap, is_dash, skip, taken, word};

/// A spelling that slips are looked for in, and what it means.
type Spelling = (&'static str, Technique);

/// Verbs of one word. Shorter ones (`top`, `mix`) are near to too much.
const VERBS: &[Spelling] = &[
    ("shake", Technique::Shake),
    ("stir", Technique::Stir),
    ("strain", Technique::Strain),
    ("muddle", Technique::Muddle),
    ("build", Technique::Build),
    ("throw", Technique::Throw),
    ("swizzle", Technique::Swizzle),
    ("churn", Technique::Churn),
    ("blend", Technique::Blend),
    ("pour", Technique::Pour),
    ("float", Technique::Float),
    ("layer", Technique::Layer),
    ("rinse", Technique::Rinse),
    ("discard", Technique::Discard),
    ("garnish", Technique::Garnish),
    ("express", Technique::Express),
    ("serve", Technique::Serve),
    ("squeeze", Technique::Squeeze),
    ("combine", Technique::Combine),
    ("simmer", Technique::Simmer),
    ("infuse", Technique::Infuse),
    ("dissolve", Technique::Dissolve),
    ("bottle", Technique::Bottle),
    ("label", Technique::Label),
    ("filter", Technique::Filter),
    ("refrigerate", Technique::Refrigerate),
];

/// Verbs of two words.
const PAIRS: &[(&str, Spelling)] = &[
    ("double", ("strain", Technique::DoubleStrain)),
    ("fine", ("strain", Technique::FineStrain)),
    ("dry", ("shake", Technique::DryShake)),
    ("hard", ("shake", Technique::HardShake)),
    ("wet", ("shake", Technique::WetShake)),
    ("whip", ("shake", Technique::WhipShake)),
    ("flash", ("blend", Technique::FlashBlend)),
];

/// Words of their own, one slip from a verb: those of word lists of American and British English,
/// and `espress`, which is short for a coffee.
const ORDINARY: &[&str] = &[
    "bland", "battle", "bend", "bled", "bleed", "blent", "blind", "blond", "built", "churl",
    "discord", "empress", "espress", "falter", "filler", "fitter", "flat", "flout", "garish",
    "lager", "lamer", "lapel", "laser", "later", "lawyer", "laxer", "libel", "meddle", "middle",
    "rise", "sake", "sere", "serge", "servo", "shade", "shaka", "shaky", "shale", "shame", "shape",
    "share", "shave", "shimmer", "simper", "sizzle", "slake", "slimmer", "snake", "spake",
    "sprain", "stain", "stair", "stake", "strait", "summer", "swerve", "swimmer", "threw", "throb",
    "throe",
];

/// The one technique that the words at the start of `text` nearly are, and those words. Of `known`
/// ones, only a single word may be the start of a misspelt pair: `dry shkae`.
pub(super) fn at<'t>(text: &'t str, known: Option<&str>) -> Option<(Technique, &'t str)> {
    let first = word(text);
    if known.is_some_and(|known| known != first) {
        return None;
    }
    let pair = pair(text, first, gap(skip(text, first.len())));
    pair.or_else(|| Some((single(first).filter(|_| known.is_none())?, first)))
}

/// A verb of two words, with slips in either: the two may stand in one, with a hyphen.
fn pair<'t>(text: &'t str, first: &'t str, behind: &'t str) -> Option<(Technique, &'t str)> {
    let (first, second, rest) = match first.split_once(is_dash) {
        Some((one, two)) => (one, two, skip(text, first.len())),
        None => (first, word(behind), skip(behind, word(behind).len())),
    };
    let (technique, _) = one_of(PAIRS.iter().filter_map(|(quality, (verb, technique))| {
        let (quality, verb) = (slips(first, quality, 2)?, slips(second, verb, 1)?);
        Some((*technique, quality + verb))
    }))?;
    Some((technique, taken(text, rest)))
}

/// A verb of one word with a slip in it.
fn single(written: &str) -> Option<Technique> {
    let (technique, _) = one_of(VERBS.iter().filter_map(|(verb, technique)| {
        slips(written, verb, 1).filter(|slips| *slips > 0).map(|slips| (*technique, slips))
    }))?;
    Some(technique)
}

/// The only one of `found`, none where two are near; what has no slip is no slip of the pen.
fn one_of(found: impl Iterator<Item = (Technique, usize)>) -> Option<(Technique, usize)> {
    let mut found = found.filter(|(_, slips)| *slips > 0);
    let first = found.next()?;
    found.next().is_none().then_some(first)
}

/// How many slips `written` is from `verb`, at most `most`: none where it is a word of its own.
fn slips(written: &str, verb: &str, most: usize) -> Option<usize> {
    // No verb is longer, and most words start otherwise.
    const LONGEST: usize = 12;
    if written.len() > LONGEST || !same_start(written.as_bytes(), verb.as_bytes()) {
        return None;
    }
    let written = written.to_ascii_lowercase();
    if written == verb {
        return Some(0);
    }
    if is_own(&written, verb) {
        return None;
    }
    if is_short_for(&written, verb) {
        return Some(1);
    }
    let letters = |word: &str| word.chars().collect::<Vec<_>>();
    // Of four letters, one changed or lost makes another word too often.
    let most = if verb.len() <= 4 { 1 } else { most };
    let long_enough = verb.len() > 4 || written.len() > 4 || is_swapped(&written, verb);
    let slips = distance(&letters(&written), &letters(verb), most)?;
    long_enough.then_some(slips)
}

/// Whether two words start with the same letter, or with the first two swapped.
fn same_start(written: &[u8], verb: &[u8]) -> bool {
    match (written, verb) {
        ([a, ..], [x, ..]) if a.eq_ignore_ascii_case(x) => true,
        ([a, b, ..], [x, y, ..]) => a.eq_ignore_ascii_case(y) && b.eq_ignore_ascii_case(x),
        _ => false,
    }
}

/// Whether a word is one of its own: known to the notation or to the language, or the verb in
/// another form (`shaker`, `strains`).
fn is_own(written: &str, verb: &str) -> bool {
    let form = written.strip_prefix(verb).is_some_and(|more| !verb.ends_with(more));
    form || ORDINARY.contains(&written) || at_start(written).is_some()
}

/// Whether `written` is `verb` without its vowels (`shk`, `strn`).
fn is_short_for(written: &str, verb: &str) -> bool {
    let is_vowel = |c: &char| matches!(c, 'a' | 'e' | 'i' | 'o' | 'u');
    written.len() > 2 && written.chars().eq(verb.chars().filter(|c| !is_vowel(c)))
}

fn is_swapped(written: &str, verb: &str) -> bool {
    let sorted = |word: &str| {
        let mut letters: Vec<u8> = word.bytes().collect();
        letters.sort_unstable();
        letters
    };
    written.len() == verb.len() && sorted(written) == sorted(verb)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: Option<(Technique, &str)>) {
        let known = at_start(text).map(|(_, words)| words);
        assert_eq!(at(text, known), expected, "{text}");
    }

    #[test]
    fn a_slip_is_near_to_one_technique() {
        check("strian into the glass", Some((Technique::Strain, "strian")));
        check("Srtain", Some((Technique::Strain, "Srtain")));
        check("stiir with ice", Some((Technique::Stir, "stiir")));
        check("sitr", Some((Technique::Stir, "sitr")));
        check("shk", Some((Technique::Shake, "shk")));
        check("shaek well", Some((Technique::Shake, "shaek")));
        check("mudle mint", Some((Technique::Muddle, "mudle")));
        check("garnisch with mint", Some((Technique::Garnish, "garnisch")));
        check("shakke", Some((Technique::Shake, "shakke")));
    }

    #[test]
    fn two_words_are_one_technique() {
        check("dubble strain into", Some((Technique::DoubleStrain, "dubble strain")));
        check("double strian", Some((Technique::DoubleStrain, "double strian")));
        check("double-strian", Some((Technique::DoubleStrain, "double-strian")));
        check("fien strain", Some((Technique::FineStrain, "fien strain")));
        check("dry shkae", Some((Technique::DryShake, "dry shkae")));
        check("dry shake", None);
        check("dry sherry", None);
        check("dry shk", Some((Technique::DryShake, "dry shk")));
    }

    #[test]
    fn words_of_their_own_are_no_slips() {
        for written in ["whisky", "sake", "chilli", "shaker", "lager", "summer fruit", "strains"] {
            check(written, None);
        }
        for written in ORDINARY {
            check(written, None);
        }
        for (written, _) in VERBS {
            check(written, None);
        }
        for written in ["star", "sour", "four", "soda", "pears", "rose", "shrub", "flour", "", "é"]
        {
            check(written, None);
        }
    }
}
