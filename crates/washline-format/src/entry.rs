//! One entry laid out.

use washline_syntax::{Entry, EntryKind};

use crate::blocks::{runs, spaced};
use crate::columns::lay_out;
use crate::row::{Row, RowKind, rows};
use crate::{Options, meaning};

/// How an entry ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    /// The file ends with it: no blank line, but a line end.
    File,
    /// A blank line, then the next entry.
    Apart,
    /// The next entry follows as it is written: a section under its book.
    AsWritten,
}

/// The text of `entry` laid out; `None` where it must stay as it is. An added line ends as the
/// entry's first line that says something does, or as `new_line`.
pub(crate) fn format(
    entry: &Entry,
    options: &Options,
    ending: Ending,
    new_line: &str,
) -> Option<String> {
    if entry.unformattable() {
        return None;
    }
    let bom = entry.text.starts_with('\u{feff}');
    let rows = rows(entry, options);
    let own = rows.iter().find(|row| row.kind != RowKind::Blank && !row.end.is_empty());
    let new_line = own.map_or(new_line, |row| row.end);
    let (body, tail) = parted(rows, ending);
    let mut text = String::with_capacity(entry.text.len() * 5 / 4);
    if bom {
        text.push('\u{feff}');
    }
    let indent = if entry.kind == EntryKind::Lead { 0 } else { options.indent };
    write(&mut text, &spaced(body), indent, options, new_line);
    let empty = text.trim_start_matches('\u{feff}').is_empty();
    let gap = match ending {
        Ending::File => !tail.is_empty(),
        Ending::Apart => true,
        Ending::AsWritten => false,
    };
    if gap && !empty {
        text.push_str(new_line);
    }
    write(&mut text, &spaced_tail(tail), 0, options, new_line);
    same(entry, &text).then_some(text)
}

/// The entry's own rows, and the comments at its end that speak of what follows: those that a
/// blank line parts from it, or none from the next heading.
fn parted(mut rows: Vec<Row<'_>>, ending: Ending) -> (Vec<Row<'_>>, Vec<Row<'_>>) {
    // The piece behind the last line end is no line.
    if rows.last().is_some_and(|row| row.kind == RowKind::Blank && row.end.is_empty()) {
        rows.pop();
    }
    let own = rows
        .iter()
        .rposition(|row| !matches!(row.kind, RowKind::Blank | RowKind::Comment))
        .map_or(0, |at| at + 1);
    let gap = rows.iter().skip(own).position(|row| row.kind == RowKind::Blank);
    let split = match (gap, ending) {
        (Some(gap), _) => own + gap,
        // Right above the next heading, they speak of that.
        (None, Ending::Apart) => own,
        (None, _) => rows.len(),
    };
    let mut tail = rows.split_off(split);
    if ending == Ending::AsWritten {
        // What stands between a book and its first section stays.
        rows.append(&mut tail);
        return (rows, tail);
    }
    let first = tail.iter().position(|row| row.kind != RowKind::Blank).unwrap_or(tail.len());
    tail.drain(..first);
    if ending == Ending::File {
        let last = tail.iter().rposition(|row| row.kind != RowKind::Blank).map_or(0, |at| at + 1);
        tail.truncate(last);
    }
    (rows, tail)
}

/// Blank lines between the comments stay, one at a time.
fn spaced_tail(mut rows: Vec<Row<'_>>) -> Vec<Row<'_>> {
    rows.dedup_by(|next, row| row.kind == RowKind::Blank && next.kind == RowKind::Blank);
    rows
}

fn write(text: &mut String, rows: &[Row<'_>], indent: usize, options: &Options, new_line: &str) {
    for run in runs(rows) {
        lay_out(text, run, indent, options, new_line);
    }
}

/// Whether the laid out text means what the entry means.
fn same(entry: &Entry, text: &str) -> bool {
    if *entry.text == *text {
        return true;
    }
    let read = washline_syntax::Document::parse(text);
    let mut entries = read.entries().iter().filter(|at| !at.entry.text.trim().is_empty());
    let (first, more) = (entries.next(), entries.next());
    more.is_none() && meaning::is_same(entry, first.map(|at| &*at.entry))
}
