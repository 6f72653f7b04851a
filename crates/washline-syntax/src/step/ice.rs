//! Ice, as steps and `ice:` name it.

use crate::Ice;
use crate::amount::{number, quantity};
use crate::slice::{gap, is_dash, one_of, phrase};

/// Words for the kinds of ice, longest first; they stand alone or before `ice` or `cubes`.
const KINDS: &[(&str, Ice)] = &[
    ("dry", Ice::Dry),
    ("large block of clear", Ice::Block),
    ("large block of", Ice::Block),
    ("block of clear", Ice::Block),
    ("block of", Ice::Block),
    ("chunk of", Ice::Block),
    ("sphere of", Ice::Sphere),
    ("spear of", Ice::Spear),
    ("cube of", Ice::LargeCube),
    ("one large cube", Ice::LargeCube),
    ("single large cube", Ice::LargeCube),
    ("large format", Ice::LargeCube),
    ("large cubed", Ice::LargeCube),
    ("large cubes", Ice::LargeCube),
    ("large cube", Ice::LargeCube),
    ("large", Ice::LargeCube),
    ("big cube", Ice::LargeCube),
    ("big", Ice::LargeCube),
    ("clear cube", Ice::LargeCube),
    ("king cube", Ice::LargeCube),
    ("cubed", Ice::Cubed),
    ("cubes", Ice::Cubed),
    ("cube", Ice::Cubed),
    ("sphere", Ice::Sphere),
    ("ball", Ice::Sphere),
    ("spear", Ice::Spear),
    ("stick", Ice::Spear),
    ("block", Ice::Block),
    ("chunk", Ice::Block),
    ("cracked", Ice::Cracked),
    ("crushed", Ice::Crushed),
    ("pebble", Ice::Pebble),
    ("pebbled", Ice::Pebble),
    ("nugget", Ice::Pebble),
    ("shaved", Ice::Shaved),
];

/// Kinds that are ice without the word, behind `with`, `over` or `on`.
const ALONE: &[(&str, Ice)] = &[
    ("large cube", Ice::LargeCube),
    ("big cube", Ice::LargeCube),
    ("clear cube", Ice::LargeCube),
    ("cubes", Ice::Cubed),
    ("sphere", Ice::Sphere),
    ("spear", Ice::Spear),
    ("rocks", Ice::Plain),
];

/// Shapes behind the word: `ice cubes`, `ice ball`.
const SHAPES: &[(&str, Ice)] = &[
    ("cubes", Ice::Cubed),
    ("cube", Ice::Cubed),
    ("sphere", Ice::Sphere),
    ("ball", Ice::Sphere),
    ("spear", Ice::Spear),
    ("block", Ice::Block),
];

/// What may stand before the kind.
const BEFORE: &[(&str, ())] = &[
    ("a", ()),
    ("an", ()),
    ("one", ()),
    ("plenty of", ()),
    ("lots of", ()),
    ("a handful of", ()),
    ("a scoop of", ()),
    ("a pellet of", ()),
    ("a piece of", ()),
    ("more", ()),
    ("fresh", ()),
    ("new", ()),
    ("clear", ()),
    ("hard", ()),
    ("good", ()),
    ("cold", ()),
    ("single", ()),
    ("the", ()),
];

/// What is no ice though it starts so.
const NO_ICE: &[&str] =
    &["cream", "creams", "cider", "wine", "water", "tea", "lolly", "bath", "bucket"];

/// The ice that all of `text` names, with a size behind it or without: `large cube 5 cm`.
#[must_use]
pub fn of(text: &str) -> Option<Ice> {
    let text = text.trim();
    let (ice, rest) = phrase_at(text).or_else(|| kind(before(text)))?;
    let rest = gap(rest);
    (rest.is_empty() || is_size(rest)).then_some(ice)
}

/// The ice at the start of `text`, and what follows it.
pub(super) fn phrase_at(text: &str) -> Option<(Ice, &str)> {
    let start = before(text);
    if let Some((ice, rest)) = kind(start) {
        if let Some(after) = word(gap(rest)) {
            let shaped = one_of(gap(after), SHAPES).map(|(_, rest)| rest);
            return Some((ice, shaped.unwrap_or(after)));
        }
        let cubes = phrase(gap(rest), "cubes").or_else(|| phrase(gap(rest), "cube"));
        if let Some(after) = cubes.filter(|_| ice != Ice::Dry) {
            return Some((ice, after));
        }
        return one_of(start, ALONE).filter(|_| ice != Ice::Dry);
    }
    if let Some(after) = word(start) {
        let shaped = one_of(gap(after), SHAPES);
        return Some(shaped.unwrap_or((Ice::Plain, after)));
    }
    one_of(start, ALONE)
}

/// Whether `text` is a size: `5 cm`, `(60 mm)`, `2 inch`.
pub(crate) fn is_size(text: &str) -> bool {
    let text = text.trim_start_matches([',', '(', ' ']).trim_end_matches([')', ' ']);
    let Ok((rest, _)) = number(text) else { return false };
    let unit = gap(rest.strip_prefix(is_dash).unwrap_or(rest));
    let length = ["cm", "mm", "in", "inch", "inches"].iter().any(|w| phrase(unit, w) == Some(""));
    length || crate::amount::unit::whole(unit).is_some()
}

fn kind(start: &str) -> Option<(Ice, &str)> {
    one_of(start, KINDS)
}

/// `ice` itself, where it is the thing and not ice cream.
fn word(text: &str) -> Option<&str> {
    let after = phrase(text, "ice")?;
    let other = NO_ICE.iter().any(|word| phrase(gap(after), word).is_some());
    (!other).then_some(after)
}

fn before(text: &str) -> &str {
    let mut start = text;
    loop {
        let counted =
            quantity(start).ok().map(|(rest, _)| rest).filter(|_| phrase(start, "half").is_none());
        let next = one_of(start, BEFORE).map(|((), rest)| rest).or(counted);
        match next {
            Some(rest) if gap(rest).len() < rest.len() => start = gap(rest),
            _ => return start,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_of_ice() {
        let all = [
            ("ice", Ice::Plain),
            ("fresh ice", Ice::Plain),
            ("cubed ice", Ice::Cubed),
            ("plenty of ice cubes", Ice::Cubed),
            ("cubed", Ice::Cubed),
            ("a large cube", Ice::LargeCube),
            ("one large ice cube", Ice::LargeCube),
            ("large cube 5 cm", Ice::LargeCube),
            ("large cube (5 cm)", Ice::LargeCube),
            ("sphere", Ice::Sphere),
            ("spear", Ice::Spear),
            ("block", Ice::Block),
            ("cracked ice", Ice::Cracked),
            ("Crushed Ice", Ice::Crushed),
            ("pebble", Ice::Pebble),
            ("shaved", Ice::Shaved),
            ("dry ice", Ice::Dry),
        ];
        for (text, ice) in all {
            assert_eq!(of(text), Some(ice), "{text}");
        }
        for other in ["ice cream", "gravel", "large spoon", "", "iced tea"] {
            assert_eq!(of(other), None, "{other}");
        }
    }
}
