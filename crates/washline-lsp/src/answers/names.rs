//! Names: where they lead, where they are used, what else they could be.

use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::*;
use washline_book::Workspace;
use washline_editor as editor;
use washline_editor::Target;
use washline_text::FileId;

use crate::library::View;

/// A question that leads from a name to entries.
type Leads = fn(&Workspace, FileId, u32) -> Vec<Target>;

/// The entries that a name means.
pub(crate) fn definition(view: &View, at: Position) -> GotoDefinitionResponse {
    targets(view, at, editor::definition, view.edition.terms.links.definition)
}

/// Where a name is declared.
pub(crate) fn declaration(view: &View, at: Position) -> GotoDefinitionResponse {
    targets(view, at, editor::declaration, view.edition.terms.links.declaration)
}

/// The variants of a drink.
pub(crate) fn implementation(view: &View, at: Position) -> GotoDefinitionResponse {
    targets(view, at, editor::implementation, view.edition.terms.links.implementation)
}

/// Every use of a name.
pub(crate) fn references(view: &View, at: Position, with_declaration: bool) -> Vec<Location> {
    let (edition, at) = (&view.edition, view.offset(at));
    let places = editor::references(edition.workspace(), view.file, at, with_declaration);
    places.into_iter().filter_map(|place| edition.location(place)).collect()
}

/// The uses of a name in its file.
pub(crate) fn highlights(view: &View, at: Position) -> Vec<DocumentHighlight> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let found = editor::highlights(view.edition.workspace(), view.file, view.offset(at));
    let kind = |write| match write {
        true => DocumentHighlightKind::WRITE,
        false => DocumentHighlightKind::READ,
    };
    found
        .into_iter()
        .map(|one| DocumentHighlight { range: ruler.range(one.span), kind: Some(kind(one.write)) })
        .collect()
}

/// What a rename would rename.
pub(crate) fn prepare_rename(view: &View, at: Position) -> Option<PrepareRenameResponse> {
    let renaming = editor::prepare_rename(view.edition.workspace(), view.file, view.offset(at))?;
    Some(PrepareRenameResponse::RangeWithPlaceholder {
        range: view.ruler()?.range(renaming.span),
        placeholder: renaming.name,
    })
}

/// The edits of a rename; why it can't be is the error.
pub(crate) fn rename(view: &View, at: Position, new: &str) -> Result<WorkspaceEdit> {
    let workspace = view.edition.workspace();
    match editor::rename(workspace, view.file, view.offset(at), new) {
        Ok(edits) => Ok(view.workspace_edit(&edits)),
        Err(refused) => Err(failed(refused.to_string())),
    }
}

/// What was asked for is understood and can't be: why.
fn failed(why: String) -> Error {
    /// By this number the protocol knows it; the library does not.
    const REQUEST_FAILED: i64 = -32803;
    Error { code: ErrorCode::ServerError(REQUEST_FAILED), message: why.into(), data: None }
}

fn targets(view: &View, at: Position, leads: Leads, takes_links: bool) -> GotoDefinitionResponse {
    let (edition, at) = (&view.edition, view.offset(at));
    let link = |target: Target| {
        let there = edition.ruler(target.file)?;
        Some(LocationLink {
            origin_selection_range: Some(view.ruler()?.range(target.origin)),
            target_uri: edition.url(target.file)?.clone(),
            target_range: there.range(target.whole),
            target_selection_range: there.range(target.name),
        })
    };
    let found = leads(edition.workspace(), view.file, at).into_iter().filter_map(link);
    if takes_links {
        return GotoDefinitionResponse::Link(found.collect());
    }
    let place = |link: LocationLink| Location::new(link.target_uri, link.target_selection_range);
    GotoDefinitionResponse::Array(found.map(place).collect())
}
