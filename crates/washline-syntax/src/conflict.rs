//! The marks that a merge leaves behind.

use crate::reader::Reader;
use crate::{LineKind, Problem};

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
    fn markers_are_seven_signs_at_the_start() {
        assert_eq!(marker("<<<<<<< HEAD"), Some(Marker::Start));
        assert_eq!(marker("======="), Some(Marker::Middle));
        assert_eq!(marker(">>>>>>> theirs"), Some(Marker::End));
        assert_eq!(marker("========"), None);
        assert_eq!(marker(" <<<<<<< HEAD"), None);
        assert_eq!(marker("<<<<"), None);
    }
}
