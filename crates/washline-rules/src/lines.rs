//! Lines of an entry: edits of whole ones, places within them.

use washline_book::Record;
use washline_syntax::Line;
use washline_text::{Edit, FileId, Span, line_end};

/// The line of the entry in which `span` starts, and where the span stands counted from its start.
pub(crate) fn in_line(record: &Record, span: Span) -> (usize, Span) {
    let lines = &record.entry.lines;
    let after = lines.partition_point(|line| line.span.start <= span.start);
    let at = after.saturating_sub(1);
    let start = lines.get(at).map_or(0, |line| line.span.start.min(span.start));
    (at, Span::new(span.start - start, span.end.saturating_sub(start)))
}

/// Takes the entry's line `at` out, its end of line with it.
pub(crate) fn gone(record: &Record, at: usize) -> Option<(FileId, Edit)> {
    let span = Line::with_end(&record.entry.lines, at)?;
    Some((record.file, Edit::new(span.shift(record.start), "")))
}

/// Takes the lines `from` out, each with its end of line, and puts them in behind line `behind`.
pub(crate) fn moved(record: &Record, from: &[usize], behind: usize) -> Option<Vec<(FileId, Edit)>> {
    let text = &record.entry.text;
    let target = record.entry.lines.get(behind)?;
    let mut added = String::new();
    let mut edits = Vec::new();
    for at in from {
        let line = record.entry.lines.get(*at)?;
        added.push_str(line_end(text));
        added.push_str(line.span.text(text));
        edits.push(gone(record, *at)?);
    }
    let end = Span::at(target.span.end).shift(record.start);
    edits.push((record.file, Edit::new(end, added)));
    Some(edits)
}
