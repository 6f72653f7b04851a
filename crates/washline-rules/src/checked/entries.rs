//! What was found in each entry by itself, and under which answers of the workspace it stands.

use rustc_hash::FxHashMap;
use washline_book::{Answers, EntryId, Record, Watched, Workspace};

use super::alike;
use super::anchor::Anchored;
use super::states::{Stamp, States};
use crate::Sink;
use crate::run::{entry, fallback};

/// What was found so far in entries, in this state of the workspace and in earlier ones.
#[derive(Debug, Default)]
pub(super) struct Entries(FxHashMap<EntryId, OfEntry>);

/// What was found in one entry.
#[derive(Debug)]
struct OfEntry {
    record: Record,
    answers: Answers,
    found: Vec<Anchored>,
    /// Whether all that is found can be kept while entries move.
    whole: bool,
    /// The number of the last state in which it stood.
    stood: Stamp,
}

impl Entries {
    /// Brings what is found in `records` up to date.
    pub(super) fn look_at<'a>(
        &mut self,
        workspace: &Workspace,
        states: &States,
        records: impl Iterator<Item = &'a Record>,
    ) {
        let mut watched: Option<Watched> = None;
        for record in records {
            let stood = self.0.get_mut(&record.id).filter(|kept| {
                kept.whole
                    && alike(&kept.record, record)
                    && states.hold(&kept.answers, kept.stood, workspace)
            });
            if let Some(kept) = stood {
                kept.stood = states.stamp();
                continue;
            }
            let watched = watched.get_or_insert_with(|| workspace.watched());
            let mut sink = Sink::new(watched.workspace(), fallback());
            entry(watched.workspace(), record, &mut sink);
            let drafts = sink.drafts;
            let answers = watched.take();
            let anchor = |draft| Anchored::new(draft, Some(record), workspace);
            let found: Vec<Anchored> = drafts.into_iter().map(anchor).collect();
            let whole = found.iter().all(Anchored::is_whole);
            let (record, stood) = (record.clone(), states.stamp());
            self.0.insert(record.id, OfEntry { record, answers, found, whole, stood });
        }
    }

    /// What is found in an entry that was looked at.
    pub(super) fn of(&self, record: &Record) -> &[Anchored] {
        self.0.get(&record.id).map_or(&[], |kept| &kept.found)
    }
}
