//! What can be opened from a file of standards: the one that it starts from.

use std::path::Path;

use tower_lsp::lsp_types::{DocumentLink, Url};
use washline_editor as editor;
use washline_editor::{LinkTarget, Switches};
use washline_text::Columns;

use crate::desk::Sheet;

/// The links of a file of standards; none where it can't be read.
pub(crate) fn links(sheet: &Sheet, columns: Columns, switches: Switches) -> Vec<DocumentLink> {
    let text = &sheet.page.text;
    let read = washline_book::read_settings(text, &washline_rules::known());
    let (Ok(settings), Some(folder)) = (read, sheet.path.as_deref().and_then(Path::parent)) else {
        return Vec::new();
    };
    let link = |link: editor::Link| {
        let LinkTarget::Path(path) = &link.target else { return None };
        let path = washline_files::absolute(Path::new(path), folder).ok()?;
        Some(DocumentLink {
            range: sheet.page.ruler(columns).range(link.span),
            target: Some(Url::from_file_path(path).ok()?),
            tooltip: None,
            data: None,
        })
    };
    editor::settings_links(&settings, &switches).into_iter().filter_map(link).collect()
}
