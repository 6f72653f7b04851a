//! Layout: small edits, never the whole file.

use tower_lsp::lsp_types::{Position, Range, TextEdit};
use washline_editor as editor;

use crate::library::View;

/// The layout of a whole file.
pub(crate) fn whole(view: &View) -> Vec<TextEdit> {
    view.text_edits(editor::format_document(view.edition.workspace(), view.file))
}

/// The layout of the lines that a range touches.
pub(crate) fn part(view: &View, range: Range) -> Vec<TextEdit> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    view.text_edits(editor::format_range(view.edition.workspace(), view.file, ruler.span(range)))
}

/// The layout of the line that was left by typing a line end.
pub(crate) fn typed(view: &View, at: Position, typed: &str) -> Vec<TextEdit> {
    let (workspace, at) = (view.edition.workspace(), view.offset(at));
    view.text_edits(editor::format_typed(workspace, view.file, at, typed))
}
