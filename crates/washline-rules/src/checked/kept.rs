//! What was found, and under which answers of the workspace it stands.

use std::collections::BTreeMap;

use washline_book::{Answers, EntryId, Record, Watched, Workspace};

use super::alike;
use super::anchor::Anchored;
use crate::rule::Together;
use crate::run::{entry, fallback, together, within};
use crate::{Rule, Sink};

/// What was found so far, in this state of the workspace and in earlier ones.
#[derive(Debug, Default)]
pub(super) struct Kept {
    entries: BTreeMap<EntryId, OfEntry>,
    concerns: Vec<Option<Concerns>>,
    together: Vec<TogetherFound>,
}

/// What was found in one entry.
#[derive(Debug)]
struct OfEntry {
    record: Record,
    answers: Answers,
    found: Vec<Anchored>,
}

/// Which rules that look at entries together one entry concerns, by their place in the list.
#[derive(Debug)]
struct Concerns {
    record: Record,
    answers: Answers,
    rules: Vec<u8>,
}

/// What one rule found that looks at entries together.
#[derive(Debug, Default)]
struct TogetherFound {
    looked: bool,
    records: Vec<Record>,
    answers: Answers,
    found: Vec<Anchored>,
}

impl Kept {
    /// Brings what is found in `records` up to date.
    pub(super) fn look_at<'a>(
        &mut self,
        workspace: &Workspace,
        records: impl Iterator<Item = &'a Record>,
    ) {
        let mut watched: Option<Watched> = None;
        for record in records {
            let stands = self.entries.get(&record.id).is_some_and(|kept| {
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
            let of = OfEntry { record: record.clone(), answers, found };
            self.entries.insert(record.id, of);
        }
    }

    /// What is found in an entry that was looked at.
    pub(super) fn of_entry(&self, record: &Record) -> &[Anchored] {
        self.entries.get(&record.id).map_or(&[], |kept| &kept.found)
    }

    /// What is found where entries are looked at together.
    pub(super) fn together(&self) -> impl Iterator<Item = &Anchored> {
        self.together.iter().flat_map(|rule| &rule.found)
    }

    /// Brings up to date what is found where entries are looked at together.
    pub(super) fn look_together(&mut self, workspace: &Workspace) {
        let rules: Vec<_> = together().collect();
        let concerned = self.concerned(workspace, &rules);
        self.together.resize_with(rules.len(), TogetherFound::default);
        let all = rules.iter().zip(&concerned).zip(&mut self.together);
        for (((rule, together), records), kept) in all {
            let same = kept.records.len() == records.len()
                && kept.records.iter().zip(records).all(|(old, new)| alike(old, new));
            if kept.looked && same && kept.answers.still_hold(workspace) {
                continue;
            }
            let watched = workspace.watched();
            let mut sink = Sink::new(watched.workspace(), rule);
            (together.find)(watched.workspace(), records, &mut sink);
            let drafts = sink.drafts;
            kept.answers = watched.take();
            let anchor = |draft| Anchored::new(draft, None, workspace);
            kept.found = drafts.into_iter().map(anchor).collect();
            kept.looked = kept.found.iter().all(Anchored::is_whole);
            kept.records = records.iter().map(|record| (*record).clone()).collect();
        }
    }

    /// The entries that concern each of `rules`, in the order of the workspace.
    fn concerned<'a>(
        &mut self,
        workspace: &'a Workspace,
        rules: &[(&'static Rule, Together)],
    ) -> Vec<Vec<&'a Record>> {
        let mut out = vec![Vec::new(); rules.len()];
        let mut watched: Option<Watched> = None;
        for record in workspace.records() {
            let at = record.id.0 as usize;
            if self.concerns.len() <= at {
                self.concerns.resize_with(at + 1, || None);
            }
            let Some(slot) = self.concerns.get_mut(at) else { continue };
            let stands = slot.as_ref().is_some_and(|kept| {
                alike(&kept.record, record) && kept.answers.still_hold(workspace)
            });
            if !stands {
                let watched = watched.get_or_insert_with(|| workspace.watched());
                let context = within(watched.workspace(), record);
                let concerned = (0_u8..).zip(rules);
                let rules = concerned.filter(|(_, (_, rule))| (rule.concerns)(&context));
                let rules = rules.map(|(at, _)| at).collect();
                let answers = watched.take();
                *slot = Some(Concerns { record: record.clone(), answers, rules });
            }
            for rule in slot.iter().flat_map(|kept| &kept.rules) {
                if let Some(records) = out.get_mut(usize::from(*rule)) {
                    records.push(record);
                }
            }
        }
        out
    }
}
