//! Edits of whole lines of an entry.

use washline_book::Record;
use washline_syntax::Line;
use washline_text::{Edit, FileId, Span, line_end};

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
