//! Who pours a prep, and what goes into it.

use washline_book::{EntryId, Record, Referent, Workspace};
use washline_text::{FileId, Span};

use crate::SymbolKind;
use crate::cursor::Cursor;
use crate::definition::{body, uses};
use crate::naming;
use crate::symbols::{detail, kind};

/// An entry that pours or is poured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CallItem {
    /// The entry.
    pub entry: EntryId,
    /// Its name.
    pub name: String,
    /// A few words about it; may be empty.
    pub detail: String,
    /// What it is.
    pub kind: SymbolKind,
    /// Its file.
    pub file: FileId,
    /// All of it.
    pub whole: Span,
    /// Its name, inside `whole`.
    pub name_span: Span,
}

/// One entry that pours another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// The other end: who pours, or what is poured.
    pub item: CallItem,
    /// The words by which it is poured, in the file of the entry that pours.
    pub from: Vec<Span>,
}

/// The entry that is named at `offset`; elsewhere the one that `offset` lies in.
#[must_use]
pub fn prepare_calls(workspace: &Workspace, file: FileId, offset: u32) -> Vec<CallItem> {
    let Some(cursor) = Cursor::at(workspace, file, offset) else { return Vec::new() };
    let named = naming::at(&cursor).and_then(|naming| naming::entry(&naming));
    let record = named.and_then(|id| workspace.record(id)).or(cursor.record);
    record.map(item).into_iter().collect()
}

/// Who pours `entry`.
#[must_use]
pub fn incoming(workspace: &Workspace, entry: EntryId) -> Vec<Call> {
    let pours = workspace.users(entry).iter().filter_map(|id| workspace.record(*id));
    let calls = pours.map(|user| Call { item: item(user), from: spans(workspace, user, entry) });
    calls.filter(|call| !call.from.is_empty()).collect()
}

/// What of the workspace goes into `entry`.
#[must_use]
pub fn outgoing(workspace: &Workspace, entry: EntryId) -> Vec<Call> {
    let Some(record) = workspace.record(entry) else { return Vec::new() };
    let used = record.uses.iter().filter_map(|id| workspace.record(*id));
    let calls = used.map(|used| Call { item: item(used), from: spans(workspace, record, used.id) });
    calls.filter(|call| !call.from.is_empty()).collect()
}

fn spans(workspace: &Workspace, user: &Record, used: EntryId) -> Vec<Span> {
    let uses = uses(workspace, user, Referent::Entry(used)).into_iter();
    uses.filter(|naming| !naming.declares).map(|naming| user.place(naming.span).span).collect()
}

fn item(record: &Record) -> CallItem {
    let named = !record.name.is_empty();
    CallItem {
        entry: record.id,
        name: if named { record.name.to_string() } else { record.kind.name().to_owned() },
        detail: detail(record),
        kind: kind(record.kind),
        file: record.file,
        whole: body(record),
        name_span: record.name_place().span,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    #[test]
    fn a_prep_knows_who_pours_it_and_what_goes_in() {
        let (house, at) = House::at(
            "drink: A\n  15 ml Spiced |Honey\n\nprep: Spiced Honey\n  600 ml Honey Mix\n  5 g salt\n\nprep: Honey Mix\n  600 g honey\n",
        );
        let item = &prepare_calls(&house.workspace, at.file, at.offset)[0];
        assert_eq!(item.name, "Spiced Honey");
        let told = |calls: Vec<Call>| {
            let one = |call: &Call| (call.item.name.clone(), house.words(call.from[0]).to_owned());
            calls.iter().map(one).collect::<Vec<_>>()
        };
        let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
        assert_eq!(told(incoming(&house.workspace, item.entry)), [pair("A", "Spiced Honey")]);
        assert_eq!(told(outgoing(&house.workspace, item.entry)), [pair("Honey Mix", "Honey Mix")]);
    }
}
