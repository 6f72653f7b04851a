//! What was found in each entry by itself, and under which answers of the workspace it stands.

use rustc_hash::FxHashMap;
use washline_book::{Answers, EntryId, Record, Watched, Workspace};

use super::alike;
use super::anchor::Anchored;
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
}

impl Entries {
    /// Brings what is found in `records` up to date.
    pub(super) fn look_at<'a>(
        &mut self,
        workspace: &Workspace,
        records: impl Iterator<Item = &'a Record>,
    ) {
        let mut watched: Option<Watched> = None;
        for record in records {
            let stands = self.0.get(&record.id).is_some_and(|kept| {
                kept.found.iter().all(Anchored::is_whole)
                    && alike(&kept.record, record)
                    && kept.answers.still_hold(workspace)
            });
            if stands {
                continue;
            }
            let watched = watched.get_or_insert_with(|| workspace.watched());
            let mut sink = Sink::new(watched.workspace(), fallback());
            entry(watched.workspace(), record, &mut sink);
            let drafts = sink.drafts;
            let answers = watched.take();
            let anchor = |draft| Anchored::new(draft, Some(record), workspace);
            let found = drafts.into_iter().map(anchor).collect();
            self.0.insert(record.id, OfEntry { record: record.clone(), answers, found });
        }
    }

    /// What is found in an entry that was looked at.
    pub(super) fn of(&self, record: &Record) -> &[Anchored] {
        self.0.get(&record.id).map_or(&[], |kept| &kept.found)
    }
}
