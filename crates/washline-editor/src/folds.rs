//! What can be folded away: entries, sections, runs of comments.

use washline_book::Workspace;
use washline_syntax::{EntryKind, LineKind, Located};
use washline_text::{FileId, Span};

use crate::cursor::body;

/// What a fold hides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FoldKind {
    /// The lines of an entry.
    Entry,
    /// All entries of a section or a book.
    Region,
    /// Lines of comment.
    Comment,
}

/// Lines that can be folded into the first of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fold {
    /// From the end of what stays to the end of what goes.
    pub span: Span,
    /// What goes.
    pub kind: FoldKind,
}

/// The folds of `file`, by where they start.
#[must_use]
pub fn folds(workspace: &Workspace, file: FileId) -> Vec<Fold> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let entries = source.document.entries();
    let mut out = regions(entries);
    for located in entries {
        if matches!(located.entry.kind, EntryKind::Drink | EntryKind::Prep | EntryKind::Stock) {
            out.extend(below(located, body(located).end, FoldKind::Entry));
        }
        comments(located, &mut out);
    }
    out.sort_by_key(|fold| (fold.span.start, std::cmp::Reverse(fold.span.end)));
    out
}

/// Each book up to the next, each section up to the next section or book.
fn regions(entries: &[Located]) -> Vec<Fold> {
    let mut out = Vec::new();
    let (mut book, mut section): (Option<&Located>, Option<&Located>) = (None, None);
    let mut end = 0;
    for located in entries {
        match located.entry.kind {
            EntryKind::Book => {
                out.extend(section.take().and_then(|open| below(open, end, FoldKind::Region)));
                out.extend(book.replace(located).and_then(|b| below(b, end, FoldKind::Region)));
            }
            EntryKind::Section => {
                let before = section.replace(located);
                out.extend(before.and_then(|open| below(open, end, FoldKind::Region)));
            }
            _ => {}
        }
        end = body(located).end;
    }
    out.extend(section.and_then(|open| below(open, end, FoldKind::Region)));
    out.extend(book.and_then(|open| below(open, end, FoldKind::Region)));
    out
}

/// From the end of the heading to `end`, where that is on another line.
fn below(located: &Located, end: u32, kind: FoldKind) -> Option<Fold> {
    let heading = located.entry.lines.first()?;
    let start = heading.span.end + located.start;
    (end > start).then_some(Fold { span: Span::new(start, end), kind })
}

/// Two or more lines of comment, one right below the other.
fn comments(located: &Located, out: &mut Vec<Fold>) {
    let mut run: Option<(Span, Span)> = None;
    let mut close = |run: Option<(Span, Span)>| {
        let Some((first, last)) = run.filter(|(first, last)| first != last) else { return };
        let span = Span::new(first.end, last.end).shift(located.start);
        out.push(Fold { span, kind: FoldKind::Comment });
    };
    for line in &located.entry.lines {
        if matches!(line.what, LineKind::Comment) {
            run = Some(run.map_or((line.span, line.span), |(first, _)| (first, line.span)));
        } else {
            close(run.take());
        }
    }
    close(run);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    #[test]
    fn entries_sections_and_comments_fold() {
        let (house, at) = House::at(
            "# the shaken ones\n# and the others\nbook: B\nsection: S\ndrink: A\n  60 ml gin\n\ndrink: B\n",
        );
        let folds = folds(&house.workspace, at.file);
        let said: Vec<(FoldKind, &str)> =
            folds.iter().map(|fold| (fold.kind, house.words(fold.span))).collect();
        assert_eq!(
            said,
            [
                (FoldKind::Comment, "\n# and the others"),
                (FoldKind::Region, "\nsection: S\ndrink: A\n  60 ml gin\n\ndrink: B"),
                (FoldKind::Region, "\ndrink: A\n  60 ml gin\n\ndrink: B"),
                (FoldKind::Entry, "\n  60 ml gin"),
            ]
        );
    }
}
