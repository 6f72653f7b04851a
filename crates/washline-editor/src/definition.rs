//! Where a name is given, and where it is used.

use washline_book::{EntryId, Record, Referent, Workspace};
use washline_syntax::Key;
use washline_text::{FileId, Kind, Place, Span};

use crate::cursor::Cursor;
use crate::naming::{self, Naming};

/// Where a name leads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Target {
    /// The words that were asked of.
    pub origin: Span,
    /// The file of what they name.
    pub file: FileId,
    /// All of it.
    pub whole: Span,
    /// Its name.
    pub name: Span,
}

/// A use of a name in one file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Highlight {
    /// The words.
    pub span: Span,
    /// Whether they give the name rather than use it.
    pub write: bool,
}

/// The entries that the name at `offset` means, all of an ambiguous one. An ingredient of the
/// reference has no place in the workspace.
#[must_use]
pub fn definition(workspace: &Workspace, file: FileId, offset: u32) -> Vec<Target> {
    let Some(cursor) = Cursor::at(workspace, file, offset) else { return Vec::new() };
    let (Some(naming), Some(record)) = (naming::at(&cursor), cursor.record) else {
        return Vec::new();
    };
    let origin = cursor.span(naming.span);
    meant(record, &naming).iter().filter_map(|id| target(workspace, *id, origin)).collect()
}

/// Where the name at `offset` is declared: its entry's heading.
#[must_use]
pub fn declaration(workspace: &Workspace, file: FileId, offset: u32) -> Vec<Target> {
    definition(workspace, file, offset)
}

/// The variants of the drink at `offset`: those that say `variant-of:` it.
#[must_use]
pub fn implementation(workspace: &Workspace, file: FileId, offset: u32) -> Vec<Target> {
    let Some(cursor) = Cursor::at(workspace, file, offset) else { return Vec::new() };
    let Some(naming) = naming::at(&cursor) else { return Vec::new() };
    let drink = naming::entry(&naming).and_then(|id| workspace.record(id));
    let Some(drink) = drink.filter(|record| record.kind == Kind::Drink) else {
        return Vec::new();
    };
    let origin = cursor.span(naming.span);
    let varies = |record: &&Record| {
        record.fields(Key::VariantOf).any(|field| {
            let key = washline_text::fold(record.text(field.value_span));
            workspace.drinks_called(&key, record).first() == Some(&drink.id)
        })
    };
    let variants = workspace.records().iter().filter(varies);
    variants.filter_map(|record| target(workspace, record.id, origin)).collect()
}

/// Every use of what the name at `offset` means, in the order of files; of an ingredient of
/// the reference too.
#[must_use]
pub fn references(
    workspace: &Workspace,
    file: FileId,
    offset: u32,
    with_declaration: bool,
) -> Vec<Place> {
    let Some(cursor) = Cursor::at(workspace, file, offset) else { return Vec::new() };
    let Some(naming) = naming::at(&cursor) else { return Vec::new() };
    let mut out = Vec::new();
    for record in workspace.records() {
        let uses = uses(workspace, record, naming.means).into_iter();
        let kept = uses.filter(|naming| with_declaration || !naming.declares);
        out.extend(kept.map(|naming| record.place(naming.span)));
    }
    out
}

/// The uses of what the name at `offset` means, in its file.
#[must_use]
pub fn highlights(workspace: &Workspace, file: FileId, offset: u32) -> Vec<Highlight> {
    let Some(cursor) = Cursor::at(workspace, file, offset) else { return Vec::new() };
    let Some(naming) = naming::at(&cursor) else { return Vec::new() };
    let mut out = Vec::new();
    for record in crate::cursor::records_of(workspace, file) {
        for naming in uses(workspace, record, naming.means) {
            let span = record.place(naming.span).span;
            out.push(Highlight { span, write: naming.declares });
        }
    }
    out
}

/// Where `record` names `means`.
pub(crate) fn uses(workspace: &Workspace, record: &Record, means: Referent) -> Vec<Naming> {
    if !may_name(record, means) {
        return Vec::new();
    }
    let all = naming::of(workspace, record).into_iter();
    all.filter(|naming| naming.means == means).collect()
}

/// Whether it is worth looking at all that `record` names.
fn may_name(record: &Record, means: Referent) -> bool {
    let reads = record.reads.iter().chain(&record.garnishes);
    means == Referent::Entry(record.id)
        || record.field(Key::VariantOf).is_some()
        || reads.into_iter().any(|read| read.referents().any(|one| one == means))
}

/// The entries that words mean: one, or all that an ambiguous name has.
fn meant(record: &Record, naming: &Naming) -> Vec<EntryId> {
    let mut reads = record.reads.iter().chain(&record.garnishes);
    let read = reads.find(|read| read.name_span == naming.span && read.or.is_empty());
    let all = read.map(|read| read.resolution.hits.clone()).unwrap_or_default();
    let all = if all.is_empty() || naming.declares { vec![naming.means] } else { all };
    let entry = |referent: &Referent| match referent {
        Referent::Entry(id) => Some(*id),
        Referent::Reference(_) => None,
    };
    all.iter().filter_map(entry).collect()
}

fn target(workspace: &Workspace, id: EntryId, origin: Span) -> Option<Target> {
    let record = workspace.record(id)?;
    let whole = body(record);
    Some(Target { origin, file: record.file, whole, name: record.name_place().span })
}

/// An entry from its heading to the last line that says something.
pub(crate) fn body(record: &Record) -> Span {
    let located = washline_syntax::Located { start: record.start, entry: record.entry.clone() };
    crate::cursor::body(&located)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    const PREP: &str = "prep: Honey Syrup\n  also: honey mix\n  600 g honey\n  300 g water\n";

    #[test]
    fn a_line_leads_to_its_prep() {
        let (house, at) = House::of(&["drink: A\n  15 ml ho|ney mix\n", PREP]);
        let found = definition(&house.workspace, at.file, at.offset);
        assert_eq!(found.len(), 1);
        assert_eq!(house.said(Place { file: found[0].file, span: found[0].name }), "Honey Syrup");
        assert_eq!(house.words(found[0].origin), "honey mix");
    }

    #[test]
    fn a_prep_is_found_on_lines_and_in_steps() {
        let drink = "drink: A\n  60 ml gin\n  15 ml honey syrup\n  - shake with ice\n  - add the Honey Syrup\n";
        let (house, at) =
            House::of(&[drink, "prep: Honey |Syrup\n  also: honey mix\n  600 g honey\n"]);
        let said = |with| {
            let found = references(&house.workspace, at.file, at.offset, with);
            found.into_iter().map(|place| house.said(place).to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(said(false), ["honey syrup", "Honey Syrup"]);
        assert_eq!(said(true), ["honey syrup", "Honey Syrup", "Honey Syrup", "honey mix"]);
    }

    #[test]
    fn a_drink_leads_to_its_variants() {
        let (house, at) =
            House::at("drink: Low |Tide\n  60 ml gin\n\ndrink: B\n  variant-of: low tide\n");
        let found = implementation(&house.workspace, at.file, at.offset);
        assert_eq!(found.len(), 1);
        assert_eq!(house.words(found[0].name), "B");
    }

    #[test]
    fn a_file_lights_up_every_use() {
        let (house, at) =
            House::at("drink: A\n  60 ml g|in\n  - stir the gin\n\ndrink: B\n  30 ml gin\n");
        assert_eq!(highlights(&house.workspace, at.file, at.offset).len(), 3);
    }
}
