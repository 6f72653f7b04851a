//! Names: where they lead, where they are used, what else they could be.

use tower_lsp::jsonrpc::{Error, Result};
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
    targets(view, at, editor::definition)
}

/// Where a name is declared.
pub(crate) fn declaration(view: &View, at: Position) -> GotoDefinitionResponse {
    targets(view, at, editor::declaration)
}

/// The variants of a drink.
pub(crate) fn implementation(view: &View, at: Position) -> GotoDefinitionResponse {
    targets(view, at, editor::implementation)
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
        Ok(edits) => Ok(view.edition.workspace_edit(&edits)),
        Err(refused) => Err(Error::invalid_params(refused.to_string())),
    }
}

fn targets(view: &View, at: Position, leads: Leads) -> GotoDefinitionResponse {
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
    if edition.terms.links {
        return GotoDefinitionResponse::Link(found.collect());
    }
    let place = |link: LocationLink| Location::new(link.target_uri, link.target_selection_range);
    GotoDefinitionResponse::Array(found.map(place).collect())
}
