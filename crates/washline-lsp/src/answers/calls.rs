//! Who pours a prep, and what goes into it, as the protocol's hierarchy of calls.

use serde_json::json;
use tower_lsp::lsp_types::*;
use washline_book::{EntryId, Record};
use washline_editor as editor;
use washline_editor::{Call, CallItem};

use crate::answers::outline::kind;
use crate::edition::Edition;
use crate::library::View;

/// The entry at a position.
pub(crate) fn prepare(view: &View, at: Position) -> Vec<CallHierarchyItem> {
    let found = editor::prepare_calls(view.edition.workspace(), view.file, view.offset(at));
    found.into_iter().filter_map(|one| item(&view.edition, one)).collect()
}

/// Who pours it.
pub(crate) fn incoming(view: &View, of: &CallHierarchyItem) -> Vec<CallHierarchyIncomingCall> {
    let edition = &view.edition;
    let Some(entry) = entry(view, of) else { return Vec::new() };
    let calls = editor::incoming(edition.workspace(), entry).into_iter();
    calls
        .filter_map(|Call { item: user, from }| {
            let ruler = edition.ruler(user.file)?;
            let from_ranges = from.into_iter().map(|span| ruler.range(span)).collect();
            Some(CallHierarchyIncomingCall { from: item(edition, user)?, from_ranges })
        })
        .collect()
}

/// What goes into it.
pub(crate) fn outgoing(view: &View, of: &CallHierarchyItem) -> Vec<CallHierarchyOutgoingCall> {
    let edition = &view.edition;
    let Some((entry, ruler)) = entry(view, of).zip(view.ruler()) else { return Vec::new() };
    let calls = editor::outgoing(edition.workspace(), entry).into_iter();
    calls
        .filter_map(|Call { item: used, from }| {
            let from_ranges = from.into_iter().map(|span| ruler.range(span)).collect();
            Some(CallHierarchyOutgoingCall { to: item(edition, used)?, from_ranges })
        })
        .collect()
}

/// The entry that an item stood for.
fn entry(view: &View, of: &CallHierarchyItem) -> Option<EntryId> {
    let workspace = view.edition.workspace();
    let id = of.data.as_ref().and_then(|data| u32::try_from(data.get("entry")?.as_u64()?).ok());
    let is_it = |record: &&Record| record.file == view.file && *record.name == of.name;
    let record = id.and_then(|id| workspace.record(EntryId(id))).filter(is_it);
    // What was written above it meanwhile moves its number.
    let record = record.or_else(|| workspace.records_of(view.file).iter().find(is_it));
    record.map(|record| record.id)
}

fn item(edition: &Edition, of: CallItem) -> Option<CallHierarchyItem> {
    let ruler = edition.ruler(of.file)?;
    Some(CallHierarchyItem {
        name: of.name,
        kind: kind(of.kind),
        tags: None,
        detail: Some(of.detail).filter(|detail| !detail.is_empty()),
        uri: edition.url(of.file)?.clone(),
        range: ruler.range(of.whole),
        selection_range: ruler.range(of.name_span),
        data: Some(json!({"entry": of.entry.0})),
    })
}
