//! Values from a closed vocabulary: `serve: up`, `status: draft`, `ice: crushed`.

use super::{is_none, spans};
use crate::amount::unit;
use crate::ingredient::parts;
use crate::near::nearest;
use crate::reader::Reader;
use crate::{Key, Problem, Value, step};

const SERVE: &[&str] =
    &["up", "down", "rocks", "neat", "long", "frozen", "hot", "bottled", "bowl", "draught"];

const STATUS: &[&str] = &["draft", "retired"];

const ICE: &[&str] = &[
    "cubed",
    "large cube",
    "sphere",
    "spear",
    "block",
    "cracked",
    "crushed",
    "pebble",
    "shaved",
    "dry ice",
    "none",
];

/// What a drink may be free from, allergens aside.
const CLAIMS: &[&str] = &["alcohol", "animal", "meat-and-fish"];

/// What others write for a word of the vocabulary.
const OTHER_WORDS: &[(Key, &str, &str)] = &[
    (Key::Serve, "on the rocks", "rocks"),
    (Key::Serve, "straight up", "up"),
    (Key::Serve, "on tap", "draught"),
    (Key::Serve, "tap", "draught"),
    (Key::Serve, "draft", "draught"),
    (Key::Serve, "tall", "long"),
    (Key::Serve, "highball", "long"),
    (Key::Serve, "blended", "frozen"),
    (Key::Status, "wip", "draft"),
    (Key::Status, "archived", "retired"),
    (Key::Ice, "cubes", "cubed"),
    (Key::Ice, "big cube", "large cube"),
    (Key::Ice, "large", "large cube"),
    (Key::Ice, "nugget", "pebble"),
    (Key::Ice, "no", "none"),
    (Key::Ice, "no ice", "none"),
];

/// A word of `serve:` or `status:`.
pub(super) fn one_of(reader: &mut Reader<'_>, key: Key, text: &str) -> Value {
    let words = of(key);
    for part in parts(text).filter(|part| !part.is_empty()) {
        if !words.iter().any(|word| word.eq_ignore_ascii_case(part)) {
            unknown(reader, key, part);
        }
    }
    Value::Terms(spans(reader, text))
}

/// Kinds of ice, each with a size behind it or without.
pub(super) fn ice(reader: &mut Reader<'_>, text: &str) -> Value {
    if is_none(text) {
        return Value::None;
    }
    for part in parts(text).filter(|part| !part.is_empty()) {
        if step::ice_of(part).is_none() && !step::is_size(part) {
            unknown(reader, Key::Ice, part);
        }
    }
    Value::Terms(spans(reader, text))
}

/// The units that a house writes in.
pub(super) fn units(reader: &mut Reader<'_>, text: &str) -> Value {
    for part in parts(text).filter(|part| !part.is_empty()) {
        if unit::whole(part).is_none() {
            let span = reader.span(part);
            reader.tell(Problem::new(
                "unknown-value",
                span,
                format!("`{part}` is no unit"),
                "write units by commas: `units: ml, dash, g`",
            ));
        }
    }
    Value::Terms(spans(reader, text))
}

/// The words of `key`; none where it takes any.
pub(crate) const fn of(key: Key) -> &'static [&'static str] {
    match key {
        Key::Serve => SERVE,
        Key::Ice => ICE,
        Key::Status => STATUS,
        Key::FreeFrom => CLAIMS,
        _ => &[],
    }
}

fn unknown(reader: &mut Reader<'_>, key: Key, part: &str) {
    let words = of(key);
    let other = OTHER_WORDS.iter().find(|(k, o, _)| *k == key && o.eq_ignore_ascii_case(part));
    let meant = other.map(|(_, _, word)| *word).or_else(|| nearest(part, words.iter().copied()));
    let name = key.word();
    let all = words.join(", ");
    let help = match meant {
        Some(word) => format!("did you mean `{word}`? `{name}` is one of: {all}"),
        None => format!("`{name}` is one of: {all}"),
    };
    let span = reader.span(part);
    let mut problem =
        Problem::new("unknown-value", span, format!("`{part}` is no word of `{name}`"), help);
    if let Some(word) = meant {
        problem = problem.perhaps(format!("write `{word}`"), vec![reader.replace(part, word)]);
    }
    reader.tell(problem);
}
