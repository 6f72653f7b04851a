//! Where a byte of a file stands: its entry, its line, what the workspace knows of both.

use washline_book::{Record, SourceFile, Workspace};
use washline_syntax::{Line, LineKind, Located};
use washline_text::{FileId, Span};

/// A place in a file, with everything around it that an answer may hang on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cursor<'a> {
    /// All files.
    pub workspace: &'a Workspace,
    /// The file.
    pub file: FileId,
    /// The byte of the file, on a character's start and within the text.
    pub offset: u32,
    /// The entry.
    pub located: &'a Located,
    /// Its record; none for books, sections and what stands before the first heading.
    pub record: Option<&'a Record>,
    /// The line with its place in the entry; none on the empty line behind the last line end.
    pub line: Option<(usize, &'a Line)>,
}

impl<'a> Cursor<'a> {
    /// The cursor at `offset` of `file`; past the end is the end, inside a character its start.
    /// None where there is no such file, or nothing in it.
    pub(crate) fn at(workspace: &'a Workspace, file: FileId, offset: u32) -> Option<Self> {
        let source = workspace.file(file)?;
        let offset = clamp(source.document.text(), offset);
        let located = entry_at(source, offset)?;
        let record = record_at(workspace, file, located);
        let line = line_at(located, offset.saturating_sub(located.start));
        Some(Self { workspace, file, offset, located, record, line })
    }

    /// The cursor's byte, counted from the start of its entry.
    pub(crate) const fn inner(&self) -> u32 {
        self.offset.saturating_sub(self.located.start)
    }

    /// The text of a span of the entry.
    pub(crate) fn text(&self, span: Span) -> &'a str {
        span.text(&self.located.entry.text)
    }

    /// A span of the entry as a span of the file.
    pub(crate) const fn span(&self, span: Span) -> Span {
        span.shift(self.located.start)
    }
}

/// The nearest character start at or before `offset`, within `text`.
pub(crate) fn clamp(text: &str, offset: u32) -> u32 {
    let mut at = (offset as usize).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// `span` within `text`, both ends on character starts.
pub(crate) fn clamp_span(text: &str, span: Span) -> Span {
    Span::new(clamp(text, span.start), clamp(text, span.end))
}

/// The entry that holds `offset`; at the very end of the file its last one.
pub(crate) fn entry_at(source: &SourceFile, offset: u32) -> Option<&Located> {
    let entries = source.document.entries();
    let after = entries.partition_point(|located| located.start <= offset);
    entries.get(after.checked_sub(1)?)
}

/// The record of an entry of `file`.
pub(crate) fn record_at<'a>(
    workspace: &'a Workspace,
    file: FileId,
    located: &Located,
) -> Option<&'a Record> {
    let records = workspace.records();
    let place = (file, located.start);
    let at = records.partition_point(|record| (record.file, record.start) < place);
    records.get(at).filter(|record| (record.file, record.start) == place)
}

/// The records of one file.
pub(crate) fn records_of(workspace: &Workspace, file: FileId) -> &[Record] {
    let records = workspace.records();
    let first = records.partition_point(|record| record.file < file);
    let after = records.partition_point(|record| record.file <= file);
    records.get(first..after).unwrap_or_default()
}

/// The whole of an entry in its file.
pub(crate) fn whole(located: &Located) -> Span {
    let len = u32::try_from(located.entry.text.len()).unwrap_or(u32::MAX);
    Span::new(0, len).shift(located.start)
}

/// An entry from its heading to the last line that says something.
pub(crate) fn body(located: &Located) -> Span {
    let lines = &located.entry.lines;
    let says = |line: &&Line| !matches!(line.what, LineKind::Blank | LineKind::Comment);
    let last = lines.iter().rev().find(says).or_else(|| lines.last());
    let end = last.map_or(0, |line| line.content.end.max(line.content.start));
    Span::new(0, end).shift(located.start)
}

/// The line of an entry that holds `inner`; none behind a last line end.
fn line_at(located: &Located, inner: u32) -> Option<(usize, &Line)> {
    let entry = &located.entry;
    let after = entry.lines.partition_point(|line| line.span.start <= inner);
    let at = after.checked_sub(1)?;
    let line = entry.lines.get(at)?;
    let behind = inner > line.span.end
        && inner as usize == entry.text.len()
        && entry.text.ends_with(['\n', '\r']);
    (!behind).then_some((at, line))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn line(text: &str) -> Option<String> {
        let (house, at) = House::at(text);
        let cursor = Cursor::at(&house.workspace, at.file, at.offset)?;
        let (_, line) = cursor.line?;
        Some(cursor.text(line.content).to_owned())
    }

    #[test]
    fn a_cursor_finds_its_line_at_either_end() {
        assert_eq!(line("drink: A\n  |30 ml gin\n").as_deref(), Some("30 ml gin"));
        assert_eq!(line("drink: A\n  30 ml gin|\n").as_deref(), Some("30 ml gin"));
        assert_eq!(line("drink: A\n  30 ml gin\n|"), None);
        assert_eq!(line("drink: A\r\n|drink: B").as_deref(), Some("drink: B"));
    }

    #[test]
    fn a_place_past_the_end_or_inside_a_character_is_the_nearest_one_before() {
        assert_eq!(clamp("é", 1), 0);
        assert_eq!(clamp("é", 9), 2);
        assert_eq!(clamp_span("aé", Span::new(2, 9)), Span::new(1, 3));
    }

    #[test]
    fn no_such_file_is_no_cursor() {
        let (house, _) = House::at("|");
        assert!(Cursor::at(&house.workspace, FileId(7), 0).is_none());
    }
}
