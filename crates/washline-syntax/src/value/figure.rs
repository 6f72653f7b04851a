//! Properties of an entry: `abv: 43 %`, `sugar: 300 g/l`, `density: 1.23`.

use washline_measure::Exact;

use super::{unitless, unreadable};
use crate::amount::number;
use crate::reader::Reader;
use crate::slice::{gap, phrase};
use crate::{Key, Problem, Value, amount};

/// How one figure is written.
struct Form {
    /// What may stand behind the number, longest first, and what the number is divided by.
    units: &'static [(&'static str, i64)],
    /// Whether the number may stand alone.
    bare: bool,
    /// The largest that it can be.
    most: i64,
    example: &'static str,
}

const PERCENT: &[(&str, i64)] =
    &[("% abv", 1), ("%abv", 1), ("% vol", 1), ("%vol", 1), ("%", 1), ("proof", 2)];
const PER_VOLUME: &[(&str, i64)] =
    &[("g/100 ml", 1), ("g/100ml", 1), ("g / 100 ml", 1), ("g/l", 10), ("g / l", 10), ("%", 1)];
const PER_MASS: &[(&str, i64)] = &[("g/100 g", 1), ("g/100g", 1), ("%", 1)];
const BRIX: &[(&str, i64)] = &[
    ("° brix", 1),
    ("°brix", 1),
    ("°bx", 1),
    ("° bx", 1),
    ("brix", 1),
    ("bx", 1),
    ("°", 1),
    ("%", 1),
];
const DENSITY: &[(&str, i64)] =
    &[("g/ml", 1), ("g/cm3", 1), ("kg/l", 1), ("g/l", 1000), ("kg/m3", 1000)];

/// Reads a number with its unit. It may be nought.
pub(super) fn read<'t>(reader: &mut Reader<'t>, key: Key, text: &'t str) -> Value {
    let form = form(key);
    let start = match key {
        Key::Ph => phrase(text, "ph").map_or(text, gap),
        _ => text,
    };
    let (rest, read) = match number(start) {
        Ok(read) => read,
        Err(nom::Err::Failure(refused)) => {
            amount::tell(reader, refused);
            return Value::Bad;
        }
        Err(_) => return unreadable(reader, key, text, form.example),
    };
    crate::ingredient::comma(reader, crate::slice::taken(start, rest));
    let rest = gap(rest);
    if rest.is_empty() && !form.bare {
        return unitless(reader, key, text, form.example);
    }
    let unit = form.units.iter().find(|(word, _)| is(rest, word)).map(|(_, by)| *by);
    let by = if rest.is_empty() { Some(1) } else { unit };
    let Some(value) = by.and_then(|by| read.value.over(Exact::whole(by))) else {
        return unreadable(reader, key, text, form.example);
    };
    if value > Exact::whole(form.most) {
        return too_much(reader, key, text, form.most);
    }
    Value::Number(value)
}

fn too_much(reader: &mut Reader<'_>, key: Key, text: &str, most: i64) -> Value {
    let span = reader.span(text);
    let word = key.word();
    reader.tell(Problem::new(
        "unknown-value",
        span,
        format!("`{word}: {text}` is more than there can be: {most} at most"),
        "look at the number and its unit again",
    ));
    Value::Bad
}

const fn form(key: Key) -> Form {
    match key {
        Key::Strength => Form { units: PERCENT, bare: true, most: 100, example: "18 %" },
        Key::Abv => Form { units: PERCENT, bare: true, most: 100, example: "43 %" },
        Key::Brix => Form { units: BRIX, bare: true, most: 100, example: "66" },
        Key::Sugar => Form { units: PER_VOLUME, bare: false, most: 200, example: "30 g/100 ml" },
        Key::Acid => Form { units: PER_VOLUME, bare: false, most: 200, example: "6 %" },
        Key::Salt => Form { units: PER_MASS, bare: true, most: 100, example: "20 %" },
        Key::Fat => Form { units: PER_MASS, bare: true, most: 100, example: "36 %" },
        Key::Density => Form { units: DENSITY, bare: true, most: 25, example: "1.23 g/ml" },
        Key::Ph => Form { units: &[], bare: true, most: 14, example: "2.4" },
        _ => Form { units: &[("%", 1)], bare: true, most: 100, example: "15 %" },
    }
}

/// Whether `text` is `word`, in any case, its last full stop left out.
fn is(text: &str, word: &str) -> bool {
    text.trim_end_matches('.').to_lowercase() == word
}
