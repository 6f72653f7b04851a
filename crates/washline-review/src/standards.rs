//! The house's standards before and after, and what the headings of its books say.

use std::collections::{BTreeMap, BTreeSet};

use washline_syntax::EntryKind;
use washline_text::FileId;

use crate::meaning::{fields, spaced};
use crate::{Room, Standard, StandardChange, State};

/// The keys that say something else, by file and key.
pub(crate) fn compare(before: &State<'_>, after: &State<'_>) -> Vec<StandardChange> {
    let (old, new) = (said(before), said(after));
    let mut keys: Vec<&(String, String)> = old.keys().chain(new.keys()).collect();
    keys.sort_unstable();
    keys.dedup();
    let changes = keys.into_iter().filter_map(|place| {
        let (one, other) = (old.get(place), new.get(place));
        let (file, key) = place;
        (one != other).then(|| StandardChange {
            file: file.clone(),
            key: key.clone(),
            before: one.cloned(),
            after: other.cloned(),
        })
    });
    let mut changes: Vec<StandardChange> = changes.collect();
    // A book whose file has another name says what it said.
    let told: BTreeSet<(String, Option<String>, Option<String>)> =
        changes.iter().cloned().map(|one| (one.key, one.before, one.after)).collect();
    changes.retain(|one| {
        let one_sided = one.before.is_none() || one.after.is_none();
        !(one_sided && told.contains(&(one.key.clone(), one.after.clone(), one.before.clone())))
    });
    changes
}

/// What each key of each file says, as written with single blanks.
fn said(state: &State<'_>) -> BTreeMap<(String, String), String> {
    let files = state.rooms.iter().flat_map(|room| room.standards);
    files.flat_map(of_file).chain(state.rooms.iter().flat_map(of_books)).collect()
}

/// What the `book:` headings of the files that are asked for say, and the sections below them.
fn of_books(room: &Room<'_>) -> Vec<((String, String), String)> {
    let mut said = Vec::new();
    for (at, file) in room.workspace.files().iter().enumerate() {
        let id = FileId(u32::try_from(at).unwrap_or(u32::MAX));
        if !room.asks(id) {
            continue;
        }
        let mut keys: BTreeMap<String, String> = BTreeMap::new();
        let mut add = |key: String, value: &str| {
            let all = keys.entry(key).or_default();
            if !all.is_empty() {
                all.push_str("; ");
            }
            all.push_str(&spaced(value));
        };
        for located in file.document.entries() {
            let entry = &located.entry;
            let what = match entry.kind {
                EntryKind::Book => "book",
                EntryKind::Section => "section",
                _ => continue,
            };
            add(what.to_owned(), entry.name_text());
            for (key, value) in fields(entry) {
                add(format!("{what}, {key}"), &value.text);
            }
        }
        let name = room.name(id);
        said.extend(keys.into_iter().map(|(key, value)| ((name.to_owned(), key), value)));
    }
    said
}

fn of_file(file: &Standard) -> impl Iterator<Item = ((String, String), String)> + '_ {
    file.said.iter().map(|(key, span)| {
        let value = spaced(span.text(&file.text));
        ((file.name.clone(), key.clone()), value)
    })
}
