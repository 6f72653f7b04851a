//! A finding relative to the lines that it speaks of.

use washline_book::{EntryId, Record, Workspace};
use washline_text::{FileId, Finding, Span};

use crate::draft::Draft;
use crate::lines::in_line;

/// A finding whose places count from the start of the line that each stands in.
#[derive(Clone, Debug)]
pub(super) struct Anchored {
    draft: Draft,
    /// The line of each place, in the order of [`each_place`]; none where it stands in no entry.
    lines: Vec<Option<(EntryId, usize)>>,
}

impl Anchored {
    /// Takes `draft`, most of whose places stand in `owner`.
    pub(super) fn new(mut draft: Draft, owner: Option<&Record>, workspace: &Workspace) -> Self {
        let mut lines = Vec::new();
        each_place(&mut draft.finding, |file, span| {
            let own = owner.filter(|record| record.file == *file && holds(record, *span));
            let record = own.or_else(|| holder(workspace, *file, *span));
            lines.push(record.map(|record| {
                let within = Span::new(span.start - record.start, span.end - record.start);
                let (line, place) = in_line(record, within);
                *span = place;
                (record.id, line)
            }));
        });
        Self { draft, lines }
    }

    /// Whether all its places stand in entries, so that it can be kept while those move.
    pub(super) fn is_whole(&self) -> bool {
        self.lines.iter().all(Option::is_some)
    }

    /// The finding where its lines stand in `workspace`; none where one is not there.
    pub(super) fn at(&self, workspace: &Workspace) -> Option<Draft> {
        let mut draft = self.draft.clone();
        let mut lines = self.lines.iter();
        let mut whole = true;
        each_place(&mut draft.finding, |file, span| {
            let Some((id, line)) = lines.next().copied().flatten() else { return };
            let Some(record) = workspace.record(id) else {
                whole = false;
                return;
            };
            let start = record.entry.lines.get(line).map_or(0, |line| line.span.start);
            *file = record.file;
            *span = span.shift(record.start + start);
        });
        draft.identity.moved(draft.finding.place.file);
        whole.then_some(draft)
    }

    /// The file that it stands in.
    pub(super) fn file(&self, workspace: &Workspace) -> Option<FileId> {
        match self.lines.first()? {
            Some((id, _)) => workspace.record(*id).map(|record| record.file),
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
