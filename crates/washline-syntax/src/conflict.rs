//! The marks that a merge leaves behind.

use washline_text::{Edit, Span};

use crate::reader::Reader;
use crate::slice::clip;
use crate::{LineKind, Mend, Problem};

/// The two versions of a text in which a merge left its marks: with the lines before each
/// middle mark, and with those behind it. What both come from, where it stands between, is in
/// neither. `None` where there are no marks.
#[must_use]
pub fn conflict_sides(text: &str) -> Option<[String; 2]> {
    let mut sides = [String::new(), String::new()];
    let mut found = false;
    for (line, side) in sided(text) {
        found |= matches!(side, Side::Mark(Marker::Start));
        let [ours, theirs] = &mut sides;
        if matches!(side, Side::Both | Side::Ours) {
            ours.push_str(line);
        }
        if matches!(side, Side::Both | Side::Theirs) {
            theirs.push_str(line);
        }
    }
    found.then_some(sides)
}

/// The ways to settle the conflict that starts at byte `at` of `text`: the lines of one version,
/// of the other, of both. None where it has no end.
#[must_use]
pub fn conflict_choices(text: &str, at: u32) -> Vec<Mend> {
    let Some(open) = text.get(at as usize..) else { return Vec::new() };
    let mut lines: Vec<(&str, Side)> = Vec::new();
    for (line, side) in sided(open) {
        lines.push((line, side));
        if matches!(side, Side::Mark(Marker::End)) {
            let called =
                |mark, otherwise: &str| label(&lines, mark).unwrap_or_else(|| otherwise.to_owned());
            let ours = called(Marker::Start, "the first");
            let theirs = called(Marker::End, "the second");
            let keep = |title: String, kept: &[Side]| Mend {
                title,
                safe: false,
                edits: without(text, &lines, kept),
            };
            return vec![
                keep(format!("keep the lines of {ours}"), &[Side::Ours]),
                keep(format!("keep the lines of {theirs}"), &[Side::Theirs]),
                keep("keep the lines of both".to_owned(), &[Side::Ours, Side::Theirs]),
            ];
        }
    }
    Vec::new()
}

/// What the mark `mark` calls its version.
fn label(lines: &[(&str, Side)], mark: Marker) -> Option<String> {
    let (line, _) = lines.iter().find(|(_, side)| *side == Side::Mark(mark))?;
    let label = line.get(7..)?.trim();
    (!label.is_empty()).then(|| format!("`{}`", clip(label)))
}

/// Takes out all lines but those of `kept`; neighbours go in one edit.
fn without(text: &str, lines: &[(&str, Side)], kept: &[Side]) -> Vec<Edit> {
    let mut edits: Vec<Edit> = Vec::new();
    for (line, _) in lines.iter().filter(|(_, side)| !kept.contains(side)) {
        let span = Span::of(line, text);
        match edits.last_mut() {
            Some(last) if last.span.end == span.start => last.span.end = span.end,
            _ => edits.push(Edit::new(span, "")),
        }
    }
    edits
}

/// Which version a line belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    /// It is a mark.
    Mark(Marker),
    /// It stands outside a conflict.
    Both,
    Ours,
    /// It is what both come from.
    Neither,
    Theirs,
}

/// Each line of `text` with its end, and whose it is.
fn sided(text: &str) -> impl Iterator<Item = (&str, Side)> {
    let mut within = Side::Both;
    text.split_inclusive('\n').map(move |line| {
        let Some(mark) = marker(line.trim_end_matches(['\n', '\r'])) else { return (line, within) };
        within = match (mark, within) {
            (Marker::Start, _) => Side::Ours,
            (Marker::Middle, Side::Ours) if line.starts_with('|') => Side::Neither,
            (Marker::Middle, Side::Ours | Side::Neither) => Side::Theirs,
            (Marker::End, Side::Theirs) => Side::Both,
            _ => return (line, within),
        };
        (line, Side::Mark(mark))
    })
}

/// A marker of a merge conflict.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marker {
    /// `<<<<<<<`
    Start,
    /// `=======` or `|||||||`
    Middle,
    /// `>>>>>>>`
    End,
}

/// The marker that `line` is. Markers stand at the very start of a line.
pub(crate) fn marker(line: &str) -> Option<Marker> {
    let bytes = line.as_bytes();
    let mark = *bytes.first()?;
    let marker = match mark {
        b'<' => Marker::Start,
        b'=' | b'|' => Marker::Middle,
        b'>' => Marker::End,
        _ => return None,
    };
    let seven = bytes.get(..7)?.iter().all(|byte| *byte == mark);
    let ends = bytes.get(7).is_none_or(|byte| *byte == b' ');
    (seven && ends).then_some(marker)
}

/// Whether a conflict is open behind `line`, where one was or was not before it.
pub(crate) fn goes_on(open: bool, line: &str) -> bool {
    match marker(line) {
        Some(Marker::Start) => true,
        Some(Marker::End) => false,
        _ => open,
    }
}

/// Reads a marker line: the conflict is told once, at its start, and what stands
/// inside it is read without complaint.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, marker: Marker, line: &'t str) -> LineKind {
    let stray = marker == Marker::End && !reader.conflict;
    if (marker == Marker::Start && !reader.conflict) || stray {
        let span = reader.span(line);
        let what = if stray { "ends here, its start is missing" } else { "starts here" };
        reader.tell(Problem::new(
            "merge-conflict",
            span,
            format!("a merge conflict {what}: two versions of these lines stand in the file"),
            "keep the lines of one version, and take out the lines of `<`, `=` and `>`",
        ));
    }
    reader.conflict = goes_on(reader.conflict, line);
    LineKind::Unread
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_conflict_has_two_sides() {
        let text = "a\n<<<<<<< ours\nb\n||||||| base\nc\n=======\nd\ne\n>>>>>>> theirs\nf\n";
        let sides = ["a\nb\nf\n".to_owned(), "a\nd\ne\nf\n".to_owned()];
        assert_eq!(conflict_sides(text), Some(sides));
        assert_eq!(conflict_sides("a\n=======\nb\n"), None);
        let crlf = "<<<<<<< x\r\na\r\n=======\r\nb\r\n>>>>>>> y\r\n";
        assert_eq!(conflict_sides(crlf), Some(["a\r\n".to_owned(), "b\r\n".to_owned()]));
    }

    #[test]
    fn a_conflict_is_settled_in_three_ways() {
        let text = "a\r\n<<<<<<< ours\r\nb\r\n||||||| base\r\nc\r\n=======\r\nd\r\n>>>>>>> menu of May\r\nf\r\n";
        let choices = conflict_choices(text, 3);
        let settled: Vec<(&str, String)> = choices
            .iter()
            .map(|mend| (&*mend.title, washline_text::apply(text, &mend.edits).unwrap()))
            .collect();
        let expected = [
            ("keep the lines of `ours`", "a\r\nb\r\nf\r\n"),
            ("keep the lines of `menu of May`", "a\r\nd\r\nf\r\n"),
            ("keep the lines of both", "a\r\nb\r\nd\r\nf\r\n"),
        ];
        assert_eq!(settled, expected.map(|(title, text)| (title, text.to_owned())));
        assert!(conflict_choices("<<<<<<< x\na\n", 0).is_empty(), "it has no end");
        let bare = conflict_choices("<<<<<<<\na\n=======\nb\n>>>>>>>", 0);
        assert_eq!(bare[1].title, "keep the lines of the second");
    }

    #[test]
    fn markers_are_seven_signs_at_the_start() {
        assert_eq!(marker("<<<<<<< HEAD"), Some(Marker::Start));
        assert_eq!(marker("======="), Some(Marker::Middle));
        assert_eq!(marker(">>>>>>> theirs"), Some(Marker::End));
        assert_eq!(marker("========"), None);
        assert_eq!(marker(" <<<<<<< HEAD"), None);
        assert_eq!(marker("<<<<"), None);
    }
}
