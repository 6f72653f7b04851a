//! Physical lines: where they end, and where an entry starts.

use memchr::memchr2;
use washline_text::Span;

use crate::{EntryKind, conflict, heading, slice};

/// Text up to a line end, which is LF, CR LF or a lone CR, and is left out.
pub(crate) struct Lines<'t> {
    rest: &'t str,
}

/// The lines of `text`. A text that ends in a line end has no empty last line.
pub(crate) const fn lines(text: &str) -> Lines<'_> {
    Lines { rest: text }
}

impl<'t> Iterator for Lines<'t> {
    type Item = &'t str;

    fn next(&mut self) -> Option<&'t str> {
        if self.rest.is_empty() {
            return None;
        }
        let bytes = self.rest.as_bytes();
        let Some(at) = memchr2(b'\n', b'\r', bytes) else {
            let line = self.rest;
            self.rest = slice::end(line);
            return Some(line);
        };
        let both = bytes.get(at..at + 2) == Some(b"\r\n");
        let line = self.rest.get(..at)?;
        self.rest = slice::skip(self.rest, at + if both { 2 } else { 1 });
        Some(line)
    }
}

/// What stands before an entry and changes how it is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Before {
    /// Nothing: a byte order mark may open the entry.
    pub first: bool,
    /// The start of a merge conflict that has not ended.
    pub conflict: bool,
}

/// The text of one entry.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece<'t> {
    pub text: &'t str,
    pub kind: EntryKind,
    pub before: Before,
}

/// Cuts a file at its headings. The pieces are the file, byte for byte.
pub(crate) fn pieces(text: &str) -> Vec<Piece<'_>> {
    pieces_until(text, 0, Before::default(), |_, _| false).0
}

/// Cuts a file from the byte `from` on, where an entry starts that has `before` before it, up to
/// the first heading at which to `stop`, given the byte and what stands before it. The second is
/// that byte; the end of the text where nothing stops it.
pub(crate) fn pieces_until(
    text: &str,
    from: usize,
    before: Before,
    stop: impl Fn(usize, Before) -> bool,
) -> (Vec<Piece<'_>>, usize) {
    let mut pieces = Vec::new();
    let first = |at| at == 0 && text.starts_with(BOM);
    let before = Before { first: first(from), ..before };
    let mut open = Piece { text: slice::skip(text, from), kind: EntryKind::Lead, before };
    let mut conflict = before.conflict;
    for line in lines(open.text) {
        if let Some(kind) = heading::opens(line) {
            let at = Span::of(line, text).start as usize;
            close(&mut pieces, open, line);
            let before = Before { first: first(at), conflict };
            if stop(at, before) {
                return (pieces, at);
            }
            open = Piece { text: slice::skip(text, at), kind, before };
        }
        conflict = conflict::goes_on(conflict, line);
    }
    if !open.text.is_empty() {
        pieces.push(open);
    }
    (pieces, text.len())
}

/// The byte order mark.
pub(crate) const BOM: char = '\u{feff}';

fn close<'t>(pieces: &mut Vec<Piece<'t>>, open: Piece<'t>, line: &'t str) {
    let text = slice::taken(open.text, slice_from(open.text, line));
    if !text.is_empty() {
        pieces.push(Piece { text, ..open });
    }
}

/// `text` from where `line` starts, which is a slice of it.
fn slice_from<'t>(text: &'t str, line: &str) -> &'t str {
    slice::skip(text, Span::of(line, text).start as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_end_at_lf_crlf_and_a_lone_cr() {
        let all: Vec<&str> = lines("a\r\nb\rc\n\nd").collect();
        assert_eq!(all, ["a", "b", "c", "", "d"]);
        assert_eq!(lines("a\n").count(), 1);
        assert_eq!(lines("").count(), 0);
    }

    #[test]
    fn a_file_is_cut_at_its_headings() {
        let text = "# lead\ndrink: A\n 1 egg\n  PREP : B\r\nprep B\n";
        let cut: Vec<(&str, EntryKind)> = pieces(text).iter().map(|p| (p.text, p.kind)).collect();
        assert_eq!(
            cut,
            [
                ("# lead\n", EntryKind::Lead),
                ("drink: A\n 1 egg\n", EntryKind::Drink),
                ("  PREP : B\r\nprep B\n", EntryKind::Prep),
            ]
        );
    }
}
