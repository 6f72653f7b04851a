//! Turning plurals, so that `8 mint leaves` finds `mint leaf` and `strawberry` finds `strawberries`.

/// The other spellings that `folded` may stand for: every word that is a plural
/// turned singular, the same of the last and the first word alone, then the last
/// and the first word turned plural. Most likely first; never `folded` itself.
pub fn turned(folded: &str) -> impl Iterator<Item = String> {
    let words: Vec<&str> = folded.split(' ').collect();
    let last = words.len().saturating_sub(1);
    let with = |turn: fn(&str) -> Option<String>, at: &dyn Fn(usize) -> bool| {
        let mut changed = false;
        let spelled = words.iter().enumerate().map(|(n, word)| {
            let other = if at(n) { turn(word) } else { None };
            changed |= other.is_some();
            other.unwrap_or_else(|| (*word).to_owned())
        });
        let spelled = spelled.collect::<Vec<_>>().join(" ");
        changed.then_some(spelled)
    };
    let mut out: Vec<String> = Vec::new();
    for candidate in [
        with(singular, &|_| true),
        with(singular, &|n| n == last),
        with(singular, &|n| n == 0),
        with(plural, &|n| n == last),
        with(plural, &|n| n == 0),
    ] {
        out.extend(candidate.filter(|candidate| !out.contains(candidate)).iter().cloned());
    }
    out.into_iter()
}

/// Words that end like a plural and are none, or whose singular means something else.
const NEVER: &[&str] = &[
    "anis", "bitter", "bitters", "brix", "calvados", "cassis", "dregs", "gas", "grits", "hollands",
    "lees", "molasses", "pastis", "schnapps", "spirits", "swiss",
];

/// Plurals that no rule turns.
const ODD: &[(&str, &str)] = &[
    ("anchovies", "anchovy"),
    ("calves", "calf"),
    ("chillies", "chilli"),
    ("cookies", "cookie"),
    ("halves", "half"),
    ("knives", "knife"),
    ("leaves", "leaf"),
    ("loaves", "loaf"),
    ("smoothies", "smoothie"),
    ("pies", "pie"),
];

/// The singular of `word`, where it is a plural.
#[must_use]
pub fn singular(word: &str) -> Option<String> {
    if word.len() < 4
        || NEVER.contains(&word)
        || ["ss", "us", "is"].iter().any(|end| word.ends_with(end))
    {
        return None;
    }
    if let Some((_, one)) = ODD.iter().find(|(many, _)| *many == word) {
        return Some((*one).to_owned());
    }
    if let Some(stem) = word.strip_suffix("ies") {
        return Some(format!("{stem}y"));
    }
    for end in ["ches", "shes", "xes", "sses", "zzes", "oes"] {
        if word.ends_with(end) {
            return word.strip_suffix("es").map(str::to_owned);
        }
    }
    word.strip_suffix('s').map(str::to_owned)
}

/// The plural of `word`, where it is a singular.
#[must_use]
pub fn plural(word: &str) -> Option<String> {
    let last = word.chars().next_back()?;
    if word.len() < 3 || last == 's' || !last.is_alphabetic() || NEVER.contains(&word) {
        return None;
    }
    if let Some((many, _)) = ODD.iter().find(|(_, one)| *one == word) {
        return Some((*many).to_owned());
    }
    let before = word.chars().rev().nth(1).unwrap_or(' ');
    if last == 'y' && !"aeiou".contains(before) {
        return word.strip_suffix('y').map(|stem| format!("{stem}ies"));
    }
    let hissing = ["ch", "sh", "x", "z"].iter().any(|end| word.ends_with(end));
    let es = hissing || (last == 'o' && !"aeiou".contains(before));
    Some(format!("{word}{}", if es { "es" } else { "s" }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(word: &str, expected: Option<&str>) {
        assert_eq!(singular(word).as_deref(), expected, "{word}");
    }

    #[test]
    fn plurals_turn() {
        check("berries", Some("berry"));
        check("cherries", Some("cherry"));
        check("leaves", Some("leaf"));
        check("peaches", Some("peach"));
        check("tomatoes", Some("tomato"));
        check("radishes", Some("radish"));
        check("cloves", Some("clove"));
        check("olives", Some("olive"));
        check("wedges", Some("wedge"));
    }

    #[test]
    fn what_only_looks_like_a_plural_stays() {
        for word in
            ["bitters", "molasses", "cassis", "schnapps", "anis", "pastis", "citrus", "swiss"]
        {
            check(word, None);
        }
        check("gin", None);
        check("ice", None);
    }

    #[test]
    fn the_plural_of_the_last_word_is_a_candidate() {
        assert!(turned("strawberry").any(|name| name == "strawberries"));
        assert!(turned("mint leaves").any(|name| name == "mint leaf"));
        assert!(turned("lemons juice").any(|name| name == "lemon juice"));
        assert!(turned("orange bitters").all(|name| name != "orange bitter"));
        assert!(turned("bitter").next().is_none());
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert_eq!(turned("").count(), 0);
        assert!(turned("é").all(|name| !name.is_empty()));
    }
}
