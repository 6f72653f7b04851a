//! What each line of a text is, in one word: what grammars of other tools must agree with.

use washline_syntax::{Document, Entry, Line, LineKind};

/// One word for each line: `blank`, `comment`, `heading`, `field`, `ingredient`, `step`,
/// `refused` (an amount that is not guessed at) or `unreadable`.
#[must_use]
pub fn line_kinds(text: &str) -> Vec<&'static str> {
    let document = Document::parse(text);
    let entries = document.entries().iter().map(|located| &located.entry);
    entries.flat_map(|entry| entry.lines.iter().map(|line| kind(entry, line))).collect()
}

fn kind(entry: &Entry, line: &Line) -> &'static str {
    match line.what {
        LineKind::Blank => "blank",
        LineKind::Comment => "comment",
        LineKind::Heading(_) => "heading",
        LineKind::Field(_) => "field",
        LineKind::Ingredient(_) => "ingredient",
        LineKind::Step(_) => "step",
        LineKind::Unread if is_refused(entry, line) => "refused",
        LineKind::Unread => "unreadable",
    }
}

fn is_refused(entry: &Entry, line: &Line) -> bool {
    let inside = |start: u32| line.span.start <= start && start <= line.span.end;
    entry.problems.iter().any(|p| p.rule == "unreadable-amount" && inside(p.span.start))
}
