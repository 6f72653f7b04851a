//! Layout as an editor asks for it: a file, a selection, the line just left.

use washline_book::{FractionStyle, Settings, Workspace};
use washline_format::{Fractions, Options, format, format_entries};
use washline_syntax::Document;
use washline_text::{Edit, FileId, Span};

use crate::cursor::{clamp, clamp_span, entry_at, whole};

/// The edits that lay out all of `file`.
#[must_use]
pub fn format_document(workspace: &Workspace, file: FileId) -> Vec<Edit> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    format(&source.document, &options(workspace.settings_in(file))).edits
}

/// The edits that lay out the entries that `span` touches, of them those inside it.
#[must_use]
pub fn format_range(workspace: &Workspace, file: FileId, span: Span) -> Vec<Edit> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let span = clamp_span(source.document.text(), span);
    let entries = source.document.entries();
    let touched = |at: usize| {
        entries.get(at).is_some_and(|located| whole(located).overlaps(lines_of(source, span)))
    };
    let done = format_entries(&source.document, &options(workspace.settings_in(file)), touched);
    let lines = lines_of(source, span);
    let inside = |edit: &Edit| lines.start <= edit.span.start && edit.span.end <= lines.end;
    done.edits.into_iter().filter(inside).collect()
}

/// The edits that lay out what was just left by typing a line end at `offset`: the line above.
/// None of them touches the line that the cursor is on.
#[must_use]
pub fn format_typed(workspace: &Workspace, file: FileId, offset: u32, typed: &str) -> Vec<Edit> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    if !typed.ends_with(['\n', '\r']) {
        return Vec::new();
    }
    let text = source.document.text();
    let line = source.index.line_of(clamp(text, offset));
    let Some(above) = line.checked_sub(1) else { return Vec::new() };
    let span = source.index.span(text, above);
    if span.is_empty() {
        return Vec::new();
    }
    let whole = source.index.span_with_end(above);
    let inside = |edit: &Edit| whole.start <= edit.span.start && edit.span.end <= whole.end;
    let edits = format_range(workspace, file, span);
    if edits.iter().any(inside) {
        return edits.into_iter().filter(inside).collect();
    }
    // The half line below it is laid out when it is left in its turn.
    let Some(start) = entry_at(source, span.start).map(|located| located.start) else {
        return Vec::new();
    };
    let document = Document::parse(Span::new(start, whole.end).text(text));
    let done = format(&document, &options(workspace.settings_in(file))).edits.into_iter();
    let edits = done.map(|edit| Edit::new(edit.span.shift(start), edit.text));
    edits.filter(inside).collect()
}

/// Whole lines around `span`.
fn lines_of(source: &washline_book::SourceFile, span: Span) -> Span {
    let first = source.index.span_with_end(source.index.line_of(span.start));
    // A selection that ends at the start of a line does not mean that line.
    let last = if span.is_empty() { span.end } else { span.end - 1 };
    first.cover(source.index.span_with_end(source.index.line_of(last)))
}

/// How the house has its books laid out.
fn options(settings: &Settings) -> Options {
    let layout = &settings.layout;
    let own = Options::default();
    Options {
        fractions: match layout.fractions {
            Some(FractionStyle::Decimal) => Fractions::Decimal,
            Some(FractionStyle::Fraction) => Fractions::Fraction,
            None => Fractions::AsWritten,
        },
        indent: layout.indent.map_or(own.indent, |indent| indent as usize),
        align: layout.align.unwrap_or(own.align),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn after(house: &House, edits: Vec<Edit>) -> String {
        washline_text::apply(house.text(), &edits).unwrap()
    }

    #[test]
    fn a_file_is_laid_out() {
        let (house, at) = House::at("drink: A\n60ml gin\n");
        let done = format_document(&house.workspace, at.file);
        assert_eq!(after(&house, done), "drink: A\n  60 ml  gin\n");
    }

    #[test]
    fn a_selection_leaves_other_entries_alone() {
        let (house, at) = House::at("drink: A\n60ml gin\n\ndrink: B\n\n60ml| gin\n");
        let done = format_range(&house.workspace, at.file, Span::at(at.offset));
        let laid_out = after(&house, done);
        assert!(
            laid_out.starts_with("drink: A\n60ml gin\n") && laid_out.ends_with("  60 ml  gin\n")
        );
    }

    #[test]
    fn a_line_is_laid_out_when_it_is_left() {
        let (house, at) = House::at("drink: A\n\n  60ml gin\n  |");
        let done = format_typed(&house.workspace, at.file, at.offset, "\n");
        assert_eq!(after(&house, done), "drink: A\n\n  60 ml  gin\n  ");
        assert!(format_typed(&house.workspace, at.file, at.offset, "x").is_empty());
    }
}
