//! `keeps: 4 weeks chilled`: how long, then where.

use super::unreadable;
use crate::ingredient::parts;
use crate::reader::Reader;
use crate::slice::{gap, phrase, skip, word};
use crate::step::duration;
use crate::{Key, Problem, Value, amount};

/// Where something is kept.
const PLACES: &[&str] = &["chilled", "frozen", "dry", "ambient", "dark"];

/// Other words for these places.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("in the fridge", "chilled"),
    ("fridge", "chilled"),
    ("refrigerated", "chilled"),
    ("cold", "chilled"),
    ("in the freezer", "frozen"),
    ("freezer", "frozen"),
    ("at room temperature", "ambient"),
    ("room temperature", "ambient"),
    ("on the shelf", "ambient"),
    ("shelf", "ambient"),
];

/// A duration and the places behind it, with commas, `and` or nothing between them.
pub(super) fn read<'t>(reader: &mut Reader<'t>, text: &'t str) -> Value {
    let Some((kept, rest)) = duration(text) else {
        if let Err(nom::Err::Failure(refused)) = amount::quantity(text) {
            amount::tell(reader, refused);
            return Value::Bad;
        }
        return unreadable(reader, Key::Keeps, text, "4 weeks chilled");
    };
    let Some(hours) = kept.hours() else {
        return unreadable(reader, Key::Keeps, text, "4 weeks chilled");
    };
    let mut places = Vec::new();
    for part in parts(rest) {
        let mut words = gap(part);
        while !words.is_empty() {
            words = place(reader, words, &mut places);
        }
    }
    Value::Keeps { hours, places }
}

/// Reads one place, and gives what follows it.
fn place<'t>(
    reader: &mut Reader<'t>,
    words: &'t str,
    places: &mut Vec<washline_text::Span>,
) -> &'t str {
    if let Some(rest) = phrase(words, "and").or_else(|| phrase(words, "or")) {
        return gap(rest);
    }
    let known = PLACES.iter().find_map(|place| phrase(words, place));
    if let Some(rest) = known {
        places.push(reader.span(crate::slice::taken(words, rest)));
        return gap(rest);
    }
    let other = OTHER_WORDS.iter().find_map(|(o, place)| phrase(words, o).map(|r| (*place, r)));
    let (meant, rest) = match other {
        Some((place, rest)) => (Some(place), rest),
        None => {
            let first = word(words);
            let len = if first.is_empty() {
                words.chars().next().map_or(0, char::len_utf8)
            } else {
                first.len()
            };
            (crate::near::nearest(first, PLACES.iter().copied()), skip(words, len))
        }
    };
    let written = crate::slice::taken(words, rest);
    if written.contains(char::is_alphanumeric) {
        nowhere(reader, written, meant);
    }
    gap(rest)
}

fn nowhere(reader: &mut Reader<'_>, written: &str, meant: Option<&str>) {
    let span = reader.span(written);
    let message = format!("`{written}` is no place that `keeps` knows");
    let places = PLACES.join(", ");
    let help = match meant {
        Some(place) => format!("did you mean `{place}`? The places are: {places}"),
        None => format!("the places are: {places}; anything else goes behind `store:`"),
    };
    let mut problem = Problem::new("unknown-value", span, message, help);
    if let Some(place) = meant {
        problem = problem.perhaps(format!("write `{place}`"), vec![reader.replace(written, place)]);
    }
    reader.tell(problem);
}
