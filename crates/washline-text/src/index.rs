//! From bytes to lines and columns, and back.

use crate::{Common, Span};

/// How columns are counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Columns {
    /// UTF-8 bytes.
    Bytes,
    /// UTF-16 code units.
    Utf16,
    /// Unicode scalar values.
    #[default]
    Scalars,
}

/// A line and a column, both from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Position {
    /// The line, from 0.
    pub line: u32,
    /// The column, from 0, in the units asked for.
    pub column: u32,
}

/// Where each line of a text starts. A line ends at LF, CR LF or a lone CR.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineIndex {
    starts: Vec<u32>,
    len: u32,
}

impl LineIndex {
    /// The lines of `text`; there is always one.
    #[must_use]
    pub fn new(text: &str) -> Self {
        let mut starts = vec![0];
        starts.extend(starts_behind(text, 0, text.len()));
        Self { starts, len: narrow(text.len()) }
    }

    /// The lines of `text`, which has `common` with the text that this index is of.
    #[must_use]
    pub fn edited(&self, text: &str, common: Common) -> Self {
        let len = narrow(text.len());
        let (head, end) = (narrow(common.head), len - narrow(common.tail));
        let old_end = self.len - narrow(common.tail);
        // Whether a line starts hangs on the byte before it and the one behind.
        let kept = self.starts.partition_point(|start| *start < head).max(1);
        let moved = self.starts.partition_point(|start| *start <= old_end).max(1);
        let mut starts = Vec::with_capacity(self.starts.len() + 8);
        starts.extend(self.starts.iter().take(kept));
        starts.extend(starts_behind(text, common.head.saturating_sub(1), end as usize));
        starts.extend(self.starts.iter().skip(moved).map(|start| start - old_end + end));
        Self { starts, len }
    }

    /// How many lines there are; a text that ends in a line end has an empty last one.
    #[must_use]
    pub fn lines(&self) -> u32 {
        narrow(self.starts.len())
    }

    /// The line that holds `offset`.
    #[must_use]
    pub fn line_of(&self, offset: u32) -> u32 {
        narrow(self.starts.partition_point(|start| *start <= offset).saturating_sub(1))
    }

    /// The bytes of `line` with its line end; the empty span at the end for a line beyond the last.
    #[must_use]
    pub fn span_with_end(&self, line: u32) -> Span {
        let start = self.starts.get(line as usize).copied().unwrap_or(self.len);
        let end = self.starts.get(line as usize + 1).copied().unwrap_or(self.len);
        Span::new(start, end)
    }

    /// The bytes of `line` without its line end.
    #[must_use]
    pub fn span(&self, text: &str, line: u32) -> Span {
        let whole = self.span_with_end(line);
        let kept = whole.text(text).trim_end_matches(['\n', '\r']).len();
        Span::new(whole.start, whole.start + narrow(kept))
    }

    /// Where `offset` stands, in lines and columns from 0. An offset inside a
    /// character is that character's start; one past the end is the end.
    #[must_use]
    pub fn position(&self, text: &str, offset: u32, columns: Columns) -> Position {
        let mut offset = offset.min(self.len) as usize;
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.line_of(narrow(offset));
        let start = self.span_with_end(line).start as usize;
        let before = text.get(start..offset).unwrap_or("");
        Position { line, column: width(before, columns) }
    }

    /// The byte at `position`; a column past the line's end is its end, a line
    /// past the last is the end of the text, a column inside a character is its start.
    #[must_use]
    pub fn offset(&self, text: &str, position: Position, columns: Columns) -> u32 {
        if position.line >= self.lines() {
            return self.len;
        }
        let span = self.span(text, position.line);
        let mut column = 0;
        for (at, c) in span.text(text).char_indices() {
            let next = column + width_of(c, columns);
            if next > position.column {
                return span.start + narrow(at);
            }
            column = next;
        }
        span.end
    }
}

/// The lines that start behind the line ends among the bytes `from..to`.
fn starts_behind(text: &str, from: usize, to: usize) -> impl Iterator<Item = u32> + '_ {
    let bytes = text.as_bytes();
    let ends = memchr::memchr2_iter(b'\n', b'\r', bytes.get(from..to).unwrap_or_default());
    ends.map(move |at| from + at).filter_map(move |at| {
        let paired = bytes.get(at) == Some(&b'\r') && bytes.get(at + 1) == Some(&b'\n');
        (!paired).then(|| narrow(at + 1))
    })
}

fn width(text: &str, columns: Columns) -> u32 {
    match columns {
        Columns::Bytes => narrow(text.len()),
        _ if text.is_ascii() => narrow(text.len()),
        _ => text.chars().map(|c| width_of(c, columns)).sum(),
    }
}

fn width_of(c: char, columns: Columns) -> u32 {
    match columns {
        Columns::Bytes => narrow(c.len_utf8()),
        Columns::Utf16 => narrow(c.len_utf16()),
        Columns::Scalars => 1,
    }
}

fn narrow(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "a\u{e9}\u{1f34b}b\r\nc\rd\ne";

    fn at(offset: u32, columns: Columns) -> (u32, u32) {
        let position = LineIndex::new(TEXT).position(TEXT, offset, columns);
        (position.line, position.column)
    }

    #[test]
    fn lf_crlf_and_a_lone_cr_end_lines() {
        let index = LineIndex::new(TEXT);
        let lines: Vec<&str> =
            (0..index.lines()).map(|line| index.span(TEXT, line).text(TEXT)).collect();
        assert_eq!(lines, ["a\u{e9}\u{1f34b}b", "c", "d", "e"]);
    }

    #[test]
    fn each_encoding_counts_its_own_columns() {
        assert_eq!(at(7, Columns::Bytes), (0, 7));
        assert_eq!(at(7, Columns::Utf16), (0, 4));
        assert_eq!(at(7, Columns::Scalars), (0, 3));
    }

    #[test]
    fn positions_go_there_and_back() {
        let index = LineIndex::new(TEXT);
        for columns in [Columns::Bytes, Columns::Utf16, Columns::Scalars] {
            for (offset, _) in TEXT.char_indices() {
                let offset = narrow(offset);
                let position = index.position(TEXT, offset, columns);
                let line_end = index.span(TEXT, position.line).end;
                assert_eq!(index.offset(TEXT, position, columns), offset.min(line_end));
            }
        }
    }

    #[test]
    fn an_edited_index_is_the_one_of_the_new_text() {
        let pieces = ["", "a", "\r", "\n", "\r\n", "\n\r", "b\r\r\nc"];
        for (old, new, around) in each_edit(&pieces) {
            let (old, new) = (around.replace('|', old), around.replace('|', new));
            let edited = LineIndex::new(&old).edited(&new, Common::of(&old, &new));
            assert_eq!(edited, LineIndex::new(&new), "{old:?} to {new:?}");
        }
    }

    /// Each piece in the place of each other, in texts whose ends may pair with theirs.
    fn each_edit<'a>(
        pieces: &'a [&'a str],
    ) -> impl Iterator<Item = (&'a str, &'a str, &'static str)> {
        let around = ["|", "x\r|\ny", "\n|\r", "|\n", "\r|", "a\nb|c\nd"];
        around.into_iter().flat_map(move |around| {
            let both = pieces.iter().flat_map(|old| pieces.iter().map(|new| (*old, *new)));
            both.map(move |(old, new)| (old, new, around))
        })
    }

    #[test]
    fn positions_outside_are_clamped() {
        let index = LineIndex::new(TEXT);
        let far = Position { line: 9, column: 9 };
        assert_eq!(index.offset(TEXT, far, Columns::Utf16), narrow(TEXT.len()));
        let wide = Position { line: 1, column: 40 };
        assert_eq!(index.offset(TEXT, wide, Columns::Utf16), 11);
    }
}
