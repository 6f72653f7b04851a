//! The lines of a file that a finding shows, cut to a width and made safe to print.

use std::collections::BTreeSet;
use std::ops::Range;

use unicode_width::UnicodeWidthChar;
use washline_text::{Columns, Position, Span};

use crate::{File, escape};

/// Lines of a file with marks on them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Excerpt {
    /// The lines as shown, each with a line end.
    pub text: String,
    /// Each line's number in the file, from 0, and where it lies in `text`, its end included.
    pub lines: Vec<(u32, Range<usize>)>,
    /// The marks, in the order asked for.
    pub marks: Vec<Mark>,
}

/// A marked span.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Mark {
    /// Where it lies in the excerpt's text.
    pub range: Range<usize>,
    /// Where it starts in the file, from 0.
    pub start: Position,
}

/// How many columns of a line are shown.
const WIDEST: usize = 200;
/// How many of them lie before the first mark, where the line is cut.
const BEFORE: usize = 60;
/// A span over more lines than this is shown by its ends.
const WHOLE: u32 = 6;

/// Writes what an excerpt shows.
pub(crate) trait Show {
    /// A character.
    fn letter(&mut self, out: &mut String, c: char);
    /// Text of the line that was cut off before what is shown.
    fn cut_before(&mut self, out: &mut String, gone: &str);
    /// Something was cut off behind it.
    fn cut_behind(&mut self, out: &mut String);
    /// The byte order mark, which belongs to the file rather than to its first line.
    fn mark(&mut self, out: &mut String, c: char);
}

/// As a terminal shows it: hidden characters as escapes.
pub(crate) struct Plain;

impl Show for Plain {
    fn letter(&mut self, out: &mut String, c: char) {
        escape::push(out, c);
    }

    fn cut_before(&mut self, out: &mut String, _: &str) {
        out.push('…');
    }

    fn cut_behind(&mut self, out: &mut String) {
        out.push('…');
    }

    fn mark(&mut self, _: &mut String, _: char) {}
}

/// The excerpt of `file` for `spans`, written by `show`; columns are counted as `columns` says.
pub(crate) fn excerpt(
    file: &File<'_>,
    spans: &[Span],
    columns: Columns,
    show: &mut impl Show,
) -> Excerpt {
    let spans: Vec<Span> = spans.iter().map(|span| fit(*span, file)).collect();
    let mut out = Excerpt {
        marks: spans
            .iter()
            .map(|span| Mark { range: 0..0, start: file.position(span.start, columns) })
            .collect(),
        ..Excerpt::default()
    };
    for line in lines_of(&spans, file) {
        let span = file.index.span(file.text, line);
        let from = out.text.len();
        let cells = push_line(&mut out.text, span, &spans, file, show);
        out.text.push('\n');
        out.lines.push((line, from..out.text.len()));
        for (mark, wanted) in out.marks.iter_mut().zip(&spans) {
            if span.touches(wanted.start) {
                mark.range.start = cells.place(wanted.start);
            }
            if span.touches(wanted.end) {
                mark.range.end = cells.place(wanted.end);
            }
        }
    }
    out
}

/// `span` within the file, on character boundaries, its end before a line end rather than
/// behind it.
fn fit(span: Span, file: &File<'_>) -> Span {
    let boundary = |offset: u32| {
        let mut offset = (offset as usize).min(file.text.len());
        while !file.text.is_char_boundary(offset) {
            offset -= 1;
        }
        u32::try_from(offset).unwrap_or(u32::MAX)
    };
    let line_of = |offset| file.index.span(file.text, file.index.line_of(offset));
    let start = boundary(span.start);
    let start = start.min(line_of(start).end);
    let mut end = boundary(span.end).max(start);
    if end > start && line_of(end).start == end {
        end = line_of(end - 1).end;
    }
    Span::new(start, end.min(line_of(end).end))
}

fn lines_of(spans: &[Span], file: &File<'_>) -> BTreeSet<u32> {
    let mut lines = BTreeSet::new();
    for span in spans {
        let first = file.index.line_of(span.start);
        let last = file.index.line_of(span.end);
        let head = if last - first > WHOLE { first + WHOLE / 2 } else { last };
        lines.extend(first.saturating_sub(1)..=head + 1);
        lines.extend(last.saturating_sub(2).max(first)..=last + 1);
    }
    lines.retain(|line| *line < file.index.lines());
    lines
}

/// Where the characters of a line went.
struct Cells {
    /// Offset in the file and in the excerpt, rising; at least the line's end.
    at: Vec<(u32, usize)>,
}

impl Cells {
    /// The place of an offset; of one that was cut off, the nearest that was not.
    fn place(&self, offset: u32) -> usize {
        let next = self.at.partition_point(|(file, _)| *file < offset);
        self.at.get(next).or(self.at.last()).map_or(0, |(_, here)| *here)
    }
}

fn push_line(
    out: &mut String,
    line: Span,
    spans: &[Span],
    file: &File<'_>,
    show: &mut impl Show,
) -> Cells {
    let text = line.text(file.text);
    let cut = width(text, WIDEST).is_none();
    let start = if cut { window_start(text, line, spans) } else { 0 };
    let (before, rest) = text.split_at_checked(start).unwrap_or(("", text));
    if !before.is_empty() {
        show.cut_before(out, before);
    }
    let mut cells = Cells { at: Vec::new() };
    let mut shown = 0;
    let from = line.start as usize + start;
    for (at, c) in rest.char_indices() {
        cells.at.push((u32::try_from(from + at).unwrap_or(u32::MAX), out.len()));
        if shown >= WIDEST {
            show.cut_behind(out);
            return cells;
        }
        if c == '\u{feff}' && from + at == 0 {
            show.mark(out, c);
        } else {
            show.letter(out, c);
        }
        shown += columns_of(c);
    }
    cells.at.push((line.end, out.len()));
    cells
}

/// The byte of a line that is too wide from which on it is shown.
fn window_start(text: &str, line: Span, spans: &[Span]) -> usize {
    let marked = spans.iter().flat_map(|span| [span.start, span.end]);
    let focus = marked.filter(|offset| line.touches(*offset)).min().unwrap_or(line.start);
    let before = text.get(..(focus - line.start) as usize).unwrap_or("");
    let mut left = BEFORE;
    let mut start = before.len();
    for (at, c) in before.char_indices().rev() {
        let wide = columns_of(c);
        if wide > left {
            return start;
        }
        left -= wide;
        start = at;
    }
    0
}

/// How many columns `text` takes; none where they are more than `most`.
fn width(text: &str, most: usize) -> Option<usize> {
    let mut columns = 0;
    for c in text.chars() {
        columns += columns_of(c);
        if columns > most {
            return None;
        }
    }
    Some(columns)
}

fn columns_of(c: char) -> usize {
    match c {
        '\t' => 4,
        c if escape::is_hidden(c) => 8,
        c => c.width().unwrap_or(0),
    }
}

#[cfg(test)]
mod tests {
    use washline_text::LineIndex;

    use super::*;

    fn of(text: &str, spans: &[(u32, u32)]) -> Excerpt {
        let index = LineIndex::new(text);
        let file = File { name: String::new(), text, index: &index };
        let spans: Vec<Span> = spans.iter().map(|(start, end)| Span::new(*start, *end)).collect();
        excerpt(&file, &spans, Columns::Scalars, &mut Plain)
    }

    fn marked(text: &str, spans: &[(u32, u32)]) -> Vec<String> {
        let excerpt = of(text, spans);
        excerpt.marks.iter().map(|mark| excerpt.text[mark.range.clone()].to_owned()).collect()
    }

    #[test]
    fn a_line_comes_with_its_neighbours() {
        let excerpt = of("a\nb\nc\nd\n", &[(2, 3)]);
        assert_eq!(excerpt.text, "a\nb\nc\n");
        assert_eq!(excerpt.lines, [(0, 0..2), (1, 2..4), (2, 4..6)]);
    }

    #[test]
    fn lone_carriage_returns_end_lines() {
        let excerpt = of("a\rb\rc", &[(2, 3)]);
        assert_eq!(excerpt.text, "a\nb\nc\n");
        assert_eq!(excerpt.marks[0].start, Position { line: 1, column: 0 });
    }

    #[test]
    fn hidden_characters_are_shown_and_marks_follow() {
        let text = "gin \u{1b}[2J, dry";
        assert_eq!(marked(text, &[(0, 8), (4, 5)]), ["gin \\u{1b}[2J", "\\u{1b}"]);
    }

    #[test]
    fn a_long_line_is_cut_around_the_mark() {
        let text = format!("{}MARK{}", "a".repeat(5000), "é".repeat(5000));
        let excerpt = of(&text, &[(5000, 5004)]);
        assert_eq!(&excerpt.text[excerpt.marks[0].range.clone()], "MARK");
        assert_eq!(excerpt.marks[0].start.column, 5000);
        assert_eq!(excerpt.text.chars().count(), 1 + WIDEST + 1 + 1);
        assert!(excerpt.text.starts_with("…aaa") && excerpt.text.ends_with("éé…\n"));
        let whole = of(&text, &[(0, 5004)]);
        assert_eq!(whole.marks[0].range, 0..WIDEST);
    }

    #[test]
    fn a_long_span_is_shown_by_its_ends() {
        let text = "x\n".repeat(1000);
        let excerpt = of(&text, &[(2, 1900)]);
        let lines: Vec<u32> = excerpt.lines.iter().map(|(line, _)| *line).collect();
        assert_eq!(lines, [0, 1, 2, 3, 4, 5, 947, 948, 949, 950]);
    }

    #[test]
    fn spans_outside_are_drawn_in() {
        assert_eq!(marked("é", &[(1, 9)]), ["é"]);
        assert_eq!(marked("a\nb", &[(0, 2)]), ["a"]);
        assert_eq!(marked("a\r\nb", &[(2, 3)]), [""]);
        assert_eq!(marked("", &[(0, 0), (7, 9)]), ["", ""]);
        assert_eq!(marked("\u{feff}a", &[(0, 4)]), ["a"]);
    }
}
