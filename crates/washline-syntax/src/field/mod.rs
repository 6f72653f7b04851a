//! Fields: a key, a colon, a value.

use crate::heading::Pair;
use crate::reader::Reader;
use crate::{EntryKind, Field, Key, Problem, step, value};

mod unknown;

pub(crate) use unknown::noted;

/// Reads `key: value`. None where the key is nobody's and the line reads like a step.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, pair: Pair<'t>) -> Option<Field> {
    let Some(key) = Key::from_word(pair.key) else {
        if step::at_start(pair.key).is_some() && !unknown::is_near(pair.key) {
            return None;
        }
        return Some(unknown::read(reader, pair));
    };
    let key_span = reader.span(pair.key);
    let value_span = reader.span(pair.value);
    let new = reader.seen.add(key);
    if !Key::of(reader.kind).contains(&key) && reader.kind != EntryKind::Lead {
        unknown::misplaced(reader, key, pair);
        // What its value lacks is nothing to mend here.
        let value = reader.silently(|reader| value::read(reader, key, pair.value));
        return Some(Field { key: Some(key), key_span, value_span, value });
    } else if !new && !key.repeats() {
        twice(reader, key, pair);
    }
    if pair.value.is_empty() {
        let word = key.word();
        reader.tell(Problem::new(
            "empty-value",
            key_span,
            format!("`{word}` says nothing"),
            format!("write behind the colon {}, or take the line out", what(key)),
        ));
        return Some(Field::bad(Some(key), key_span, value_span));
    }
    let value = value::read(reader, key, pair.value);
    Some(Field { key: Some(key), key_span, value_span, value })
}

/// What a key is for, as part of a sentence.
fn what(key: Key) -> String {
    let doc = key.doc().trim_end_matches('.');
    let (first, rest) = doc.split_at_checked(1).unwrap_or((doc, ""));
    // `pH` and `ABV` stay as they are.
    let abbreviated = rest.starts_with(|c: char| !c.is_lowercase() && c != ' ');
    let doc = if abbreviated { doc.to_owned() } else { first.to_lowercase() + rest };
    format!("what `{}` is for ({doc})", key.word())
}

fn twice(reader: &mut Reader<'_>, key: Key, pair: Pair<'_>) {
    let word = key.word();
    let span = reader.span(pair.key);
    let help = match key {
        Key::Contains | Key::MayContain => {
            "write one line, and drop no allergen of either".to_owned()
        }
        _ => format!("keep one `{word}` line: which of them holds, no one can tell"),
    };
    reader.tell(Problem::new(
        "duplicate-field",
        span,
        format!("`{word}` stands here a second time"),
        help,
    ));
}
