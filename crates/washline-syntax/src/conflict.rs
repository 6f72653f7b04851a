//! The marks that a merge leaves behind.

use crate::reader::Reader;
use crate::{LineKind, Problem};

/// The two versions of a text in which a merge left its marks: with the lines before each
/// middle mark, and with those behind it. What both come from, where it stands between, is in
/// neither. `None` where there are no marks.
#[must_use]
pub fn conflict_sides(text: &str) -> Option<[String; 2]> {
    let mut sides = [String::new(), String::new()];
    let mut within = Within::Both;
    let mut found = false;
    for line in text.split_inclusive('\n') {
        match (marker(line.trim_end_matches(['\n', '\r'])), within) {
            (Some(Marker::Start), _) => (found, within) = (true, Within::Ours),
            (Some(Marker::Middle), Within::Ours) if line.starts_with('|') => {
                within = Within::Neither;
            }
            (Some(Marker::Middle), Within::Ours | Within::Neither) => within = Within::Theirs,
            (Some(Marker::End), Within::Theirs) => within = Within::Both,
            _ => {
                let [ours, theirs] = &mut sides;
                if matches!(within, Within::Both | Within::Ours) {
                    ours.push_str(line);
                }
                if matches!(within, Within::Both | Within::Theirs) {
                    theirs.push_str(line);
                }
            }
        }
    }
    found.then_some(sides)
}

/// Which version a line belongs to.
#[derive(Clone, Copy)]
enum Within {
    Both,
    Ours,
    Neither,
    Theirs,
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
    fn markers_are_seven_signs_at_the_start() {
        assert_eq!(marker("<<<<<<< HEAD"), Some(Marker::Start));
        assert_eq!(marker("======="), Some(Marker::Middle));
        assert_eq!(marker(">>>>>>> theirs"), Some(Marker::End));
        assert_eq!(marker("========"), None);
        assert_eq!(marker(" <<<<<<< HEAD"), None);
        assert_eq!(marker("<<<<"), None);
    }
}
