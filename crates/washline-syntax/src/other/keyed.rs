//! A field without its colon: `glass coupe`, `Glass = coupe`, `garnish lemon twist`.

use washline_text::Edit;

use crate::reader::Reader;
use crate::slice::{gap, is_dash, phrase, taken};
use crate::{Key, value};

/// The mend that writes the colon, where what follows a key of the entry can be its value.
pub(super) fn mend<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<(String, Vec<Edit>)> {
    let key = |key: &&Key| phrase(content, key.word()).is_some();
    let key = *Key::of(reader.kind).iter().filter(key).max_by_key(|key| key.word().len())?;
    let rest = phrase(content, key.word())?;
    let said = gap(rest).trim_start_matches(|c: char| is_dash(c) || matches!(c, '=' | ';'));
    let said = gap(said);
    let joined = ["with", "w/", "of", "the"].iter().any(|word| phrase(said, word).is_some());
    if said.is_empty() || joined || !reader.quiet(|reader| value::read(reader, key, said)) {
        return None;
    }
    let written = taken(content, rest);
    let edits = vec![reader.replace(taken(rest, said), ": ")];
    Some((format!("write `{written}: {said}`"), edits))
}
