//! What stands around a name and is none of it: count nouns, words of how it is prepared,
//! `juice of`.

use washline_measure::Unit;

/// A count noun at either end of a folded name, and the rest: `mint leaves` is leaf and mint.
pub(super) fn count_noun_off(key: &str) -> Vec<(String, Unit)> {
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

pub(super) fn front_words_off(key: &str) -> String {
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
pub(super) fn part_of_phrase(key: &str) -> Option<String> {
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
pub(super) fn is_preparation(word: &str) -> bool {
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
    "flamed",
    "expressed",
    "charred",
    "grilled",
    "torched",
    "scorched",
    "seared",
    "scored",
    "notched",
    "trimmed",
    "slapped",
    "smacked",
    "spanked",
    "bruised",
    "wide",
    "halved",
    "quartered",
    "pitted",
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn count_nouns_come_off_either_end() {
        assert_eq!(count_noun_off("mint leaves"), [("mint".to_owned(), Unit::Leaf)]);
        assert_eq!(count_noun_off("sprig of mint"), [("mint".to_owned(), Unit::Sprig)]);
        assert!(count_noun_off("gin").is_empty());
    }

    #[test]
    fn front_words_come_off() {
        assert_eq!(front_words_off("freshly squeezed lime juice"), "lime juice");
        assert_eq!(front_words_off("flamed orange peel"), "orange peel");
        assert_eq!(front_words_off("cold"), "cold");
    }
}
