//! The house's standards before and after.

use std::collections::BTreeMap;

use crate::meaning::spaced;
use crate::{Standard, StandardChange, State};

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
    changes.collect()
}

/// What each key of each file says, as written with single blanks.
fn said(state: &State<'_>) -> BTreeMap<(String, String), String> {
    let files = state.rooms.iter().flat_map(|room| room.standards);
    files.flat_map(of_file).collect()
}

fn of_file(file: &Standard) -> impl Iterator<Item = ((String, String), String)> + '_ {
    file.said.iter().map(|(key, span)| {
        let value = spaced(span.text(&file.text));
        ((file.name.clone(), key.clone()), value)
    })
}
