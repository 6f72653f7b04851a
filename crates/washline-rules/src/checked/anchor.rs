//! A finding relative to the entries that it speaks of.

use washline_book::{EntryId, Record, Workspace};
use washline_text::{FileId, Finding, Span};

use crate::draft::Draft;

/// A finding whose places count from the start of the entry that each stands in.
#[derive(Clone, Debug)]
pub(super) struct Anchored {
    draft: Draft,
    /// The entry of each place, in the order of [`each_place`]; none where it stands in no entry.
    entries: Vec<Option<EntryId>>,
}

impl Anchored {
    /// Takes `draft`, most of whose places stand in `owner`.
    pub(super) fn new(mut draft: Draft, owner: Option<&Record>, workspace: &Workspace) -> Self {
        let mut entries = Vec::new();
        each_place(&mut draft.finding, |file, span| {
            let own = owner.filter(|record| record.file == *file && holds(record, *span));
            let record = own.or_else(|| holder(workspace, *file, *span));
            if let Some(Record { start, .. }) = record {
                *span = Span::new(span.start - start, span.end - start);
            }
            entries.push(record.map(|record| record.id));
        });
        Self { draft, entries }
    }

    /// Whether all its places stand in entries, so that it can be kept while they move.
    pub(super) fn is_whole(&self) -> bool {
        self.entries.iter().all(Option::is_some)
    }

    /// The finding where its entries stand in `workspace`; none where one is not there.
    pub(super) fn at(&self, workspace: &Workspace) -> Option<Draft> {
        let mut draft = self.draft.clone();
        let mut entries = self.entries.iter();
        let mut whole = true;
        each_place(&mut draft.finding, |file, span| {
            let Some(id) = entries.next().copied().flatten() else { return };
            match workspace.record(id) {
                Some(record) => {
                    *file = record.file;
                    *span = span.shift(record.start);
                }
                None => whole = false,
            }
        });
        draft.identity.moved(draft.finding.place.file);
        whole.then_some(draft)
    }

    /// The file that it stands in.
    pub(super) fn file(&self, workspace: &Workspace) -> Option<FileId> {
        match self.entries.first()? {
            Some(id) => workspace.record(*id).map(|record| record.file),
            None => Some(self.draft.finding.place.file),
        }
    }
}

/// Every place that a finding speaks of, its own first.
fn each_place(finding: &mut Finding, mut each: impl FnMut(&mut FileId, &mut Span)) {
    each(&mut finding.place.file, &mut finding.place.span);
    for related in &mut finding.related {
        each(&mut related.place.file, &mut related.place.span);
    }
    for (file, edit) in finding.fixes.iter_mut().flat_map(|fix| &mut fix.edits) {
        each(file, &mut edit.span);
    }
}

fn holds(record: &Record, span: Span) -> bool {
    let len = u32::try_from(record.entry.text.len()).unwrap_or(u32::MAX);
    record.start <= span.start && span.end <= record.start.saturating_add(len)
}

fn holder(workspace: &Workspace, file: FileId, span: Span) -> Option<&Record> {
    let records = workspace.records_of(file);
    let behind = records.partition_point(|record| record.start <= span.start);
    records.get(behind.checked_sub(1)?).filter(|record| holds(record, span))
}
