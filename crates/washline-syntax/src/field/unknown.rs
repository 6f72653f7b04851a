//! Keys that nobody knows, or that the entry does not have.

use washline_text::{Edit, Span};

use crate::heading::{HEADINGS, Pair};
use crate::key::Keys;
use crate::near::nearest;
use crate::reader::Reader;
use crate::{EntryKind, Field, Key, Problem, Value, other};

/// What others call a key of ours.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("allergens", "contains"),
    ("allergen", "contains"),
    ("traces", "may-contain"),
    ("glassware", "glass"),
    ("yield", "yields"),
    ("makes", "yields"),
    ("batch size", "yields"),
    ("storage", "store"),
    ("shelf life", "keeps"),
    ("shelf-life", "keeps"),
    ("strength", "abv"),
    ("abv", "strength"),
    ("alcohol", "abv"),
    ("size", "pack"),
    ("style", "family"),
    ("type", "family"),
    ("category", "family"),
    ("creator", "credit"),
    ("by", "credit"),
    ("description", "menu"),
    ("cocktail", "drink"),
    ("name", "drink"),
    ("recipe", "drink"),
    ("ingredient", "stock"),
    ("product", "stock"),
];

/// Keys that stand for lines, and how such lines start.
const LINES: &[(&str, &str)] = &[
    ("method", "a step is a line of its own that starts with `- `"),
    ("methods", "a step is a line of its own that starts with `- `"),
    ("directions", "a step is a line of its own that starts with `- `"),
    ("instructions", "a step is a line of its own that starts with `- `"),
    ("preparation", "a step is a line of its own that starts with `- `"),
    ("steps", "a step is a line of its own that starts with `- `"),
    ("ingredients", LINE),
    ("spec", LINE),
];

const LINE: &str = "an ingredient is a line of its own that starts with its amount";

/// Whether a key or heading is near `word`.
pub(super) fn is_near(word: &str) -> bool {
    meant(word, EntryKind::Drink).is_some()
}

/// Reads a field whose key nobody knows.
pub(super) fn read<'t>(reader: &mut Reader<'t>, pair: Pair<'t>) -> Field {
    let key_span = reader.span(pair.key);
    let field =
        Field { key: None, key_span, value_span: reader.span(pair.value), value: Value::Text };
    let written = pair.key;
    let message = format!("`{written}` is no field");
    let line = LINES.iter().find(|(word, _)| word.eq_ignore_ascii_case(written));
    let Some(word) = meant(written, reader.kind) else {
        let turned = other::turned(pair.key, pair.value);
        let help = match line {
            Some((_, help)) => (*help).to_owned(),
            None if turned.is_some() => LINE.to_owned(),
            None => fields_of(reader.kind),
        };
        let problem = Problem::new("unknown-field", key_span, message, help);
        reader.tell(match turned {
            Some(text) => problem
                .perhaps(format!("write `{text}`"), vec![Edit::new(whole(reader, pair), text)]),
            None if line.is_some() => problem,
            None => noted(reader, problem, pair),
        });
        return field;
    };
    if HEADINGS.iter().any(|(heading, _)| *heading == word) {
        // The lines behind it mean to be of another entry: none of them is there twice.
        reader.seen = Keys::default();
    }
    tell_near(reader, key_span, message, word);
    field
}

/// Tells that the entry has no field `key`, and which entries have it.
pub(super) fn misplaced(reader: &mut Reader<'_>, key: Key, pair: Pair<'_>) {
    let span = reader.span(pair.key);
    let kinds =
        [EntryKind::Book, EntryKind::Section, EntryKind::Drink, EntryKind::Prep, EntryKind::Stock];
    let having: Vec<&str> =
        kinds.into_iter().filter(|kind| Key::of(*kind).contains(&key)).map(noun).collect();
    let word = key.word();
    let here = noun(reader.kind);
    let mut problem = Problem::new(
        "unknown-field",
        span,
        format!("a {here} has no `{word}`: it is a field of a {}", having.join(", a ")),
        fields_of(reader.kind),
    );
    let other = OTHER_WORDS.iter().find(|(other, _)| *other == word).map(|(_, word)| *word);
    let other = other.filter(|other| has(reader.kind, other));
    if let Some(other) = other {
        problem =
            problem.perhaps(format!("write `{other}`"), vec![reader.replace(pair.key, other)]);
    }
    reader.tell(noted(reader, problem, pair));
}

/// With the mend that keeps what `pair` says behind `note:`, where anything may stand.
pub(crate) fn noted(reader: &Reader<'_>, problem: Problem, pair: Pair<'_>) -> Problem {
    if pair.value.is_empty() || !has(reader.kind, Key::Note.word()) {
        return problem;
    }
    let start = reader.span(pair.key).start;
    problem.perhaps("write `note: ` before it", vec![Edit::insert(start, "note: ")])
}

/// The key with its value.
fn whole(reader: &Reader<'_>, pair: Pair<'_>) -> Span {
    reader.span(pair.key).cover(reader.span(pair.value))
}

fn tell_near(reader: &mut Reader<'_>, span: Span, message: String, word: &str) {
    let edit = Edit::new(span, word);
    // A heading opens another entry: that is a person's to say.
    let heading = HEADINGS.iter().any(|(heading, _)| *heading == word);
    let problem = Problem::new("unknown-field", span, message, format!("did you mean `{word}`?"));
    let title = format!("write `{word}`");
    let claims = ["contains", "may-contain", "free-from", "strength"].contains(&word);
    reader.tell(match heading || claims {
        true => problem.perhaps(title, vec![edit]),
        false => problem.safely(title, vec![edit]),
    });
}

/// The key or heading that `written` means: the nearest of the entry's own, then of
/// all headings, then of all keys, then another trade's word for one.
fn meant(written: &str, kind: EntryKind) -> Option<&'static str> {
    let own = Key::of(kind).iter().map(|key| key.word());
    let headings = HEADINGS.iter().map(|(word, _)| *word);
    let all = Key::ALL.iter().map(|key| key.word());
    let other = || {
        let found = OTHER_WORDS.iter().filter(|(other, _)| other.eq_ignore_ascii_case(written));
        let mut found = found.map(|(_, word)| *word);
        found.find(|word| has(kind, word) || HEADINGS.iter().any(|(heading, _)| heading == word))
    };
    nearest(written, own)
        .or_else(other)
        .or_else(|| nearest(written, headings))
        .or_else(|| nearest(written, all))
}

fn has(kind: EntryKind, word: &str) -> bool {
    Key::of(kind).iter().any(|key| key.word() == word)
}

fn fields_of(kind: EntryKind) -> String {
    let words: Vec<&str> = Key::of(kind).iter().map(|key| key.word()).collect();
    if words.is_empty() {
        return "open an entry first: `drink: NAME`".to_owned();
    }
    format!("a {} has: {}; write anything else behind `note:`", noun(kind), words.join(", "))
}

const fn noun(kind: EntryKind) -> &'static str {
    match kind {
        EntryKind::Lead => "file",
        EntryKind::Book => "book",
        EntryKind::Section => "section",
        EntryKind::Drink => "drink",
        EntryKind::Prep => "prep",
        EntryKind::Stock => "stock entry",
    }
}
