//! Which entries of other files have the name of one of a file's.

use rustc_hash::FxHashMap;
use washline_book::{EntryId, Workspace};
use washline_text::FileId;

use super::states::{Stamp, States};

/// The namesakes of each file's entries, and the number of the state in which they were.
#[derive(Debug, Default)]
pub(super) struct Namesakes(FxHashMap<FileId, (Stamp, Vec<EntryId>)>);

impl Namesakes {
    /// The files of other entries that have the name of an entry of `file`.
    pub(super) fn files<'a>(
        &'a mut self,
        workspace: &'a Workspace,
        states: &States,
        file: FileId,
    ) -> impl Iterator<Item = FileId> + 'a {
        let (stamp, entries) = self.0.entry(file).or_default();
        if !stand(workspace, states, *stamp, file) {
            let records = workspace.records_of(file).iter();
            *entries = records.flat_map(|record| workspace.namesakes(record)).collect();
        }
        *stamp = states.stamp();
        entries.iter().filter_map(|id| Some(workspace.record(*id)?.file))
    }
}

/// Whether the namesakes of a file's entries are those that they were in the state of that number.
fn stand(workspace: &Workspace, states: &States, stamp: Stamp, file: FileId) -> bool {
    let ids = |of: &Workspace| -> Vec<EntryId> {
        of.records_of(file).iter().map(|record| record.id).collect()
    };
    let stands =
        |before: &Workspace| workspace.shares_names_with(before) && ids(before) == ids(workspace);
    stamp == states.stamp() || states.at(stamp).is_some_and(stands)
}
