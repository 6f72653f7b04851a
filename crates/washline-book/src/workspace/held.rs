//! All that a workspace holds.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use washline_text::{FileId, Kind};

use super::SourceFile;
use crate::names::Names;
use crate::says::Standards;
use crate::{EntryId, Made, Record, Referent};

/// The place of an entry that is not there.
pub(super) const NOWHERE: u32 = u32::MAX;

/// The entries that use each prep and stock entry, in the order of the workspace.
pub(super) type Users = FxHashMap<EntryId, Arc<[EntryId]>>;

/// Files, records, and what was learned of all of them.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    pub files: Vec<Arc<SourceFile>>,
    /// The place of each file's first record, and one past the last of all.
    pub firsts: Vec<u32>,
    /// Drinks, preps and stock of all files, in order.
    pub records: Vec<Record>,
    /// The place of each entry among the records.
    pub places: Vec<u32>,
    pub names: Arc<Names>,
    pub standards: Standards,
    pub cycles: Arc<Vec<Vec<EntryId>>>,
    pub users: Arc<Users>,
    /// How many lines pour each thing.
    pub pours: Arc<FxHashMap<Referent, u32>>,
    /// How many drinks of each book say what they contain.
    pub declaring: Arc<FxHashMap<Option<Arc<str>>, u32>>,
}

impl Held {
    pub(crate) fn record(&self, id: EntryId) -> Option<&Record> {
        self.records.get(self.place(id) as usize)
    }

    pub(super) fn place(&self, id: EntryId) -> u32 {
        place(&self.places, id)
    }

    pub(super) fn made(&self, id: EntryId) -> Option<&Arc<Made>> {
        self.record(id).map(Record::made)
    }

    pub(super) fn file(&self, id: FileId) -> Option<&Arc<SourceFile>> {
        self.files.get(id.0 as usize)
    }

    /// The records of one file.
    pub(super) fn records_of(&self, file: usize) -> &[Record] {
        let first = self.firsts.get(file).copied().unwrap_or(NOWHERE);
        let end = self.firsts.get(file + 1).copied().unwrap_or(first);
        self.records.get(first as usize..end as usize).unwrap_or_default()
    }

    /// The file that lives at `home`; most files live at their own place.
    pub(super) fn file_at(&self, home: u32) -> Option<&Arc<SourceFile>> {
        let near = self.files.get(home as usize).filter(|file| file.home == home);
        near.or_else(|| self.files.iter().find(|file| file.home == home))
    }

    pub(crate) fn users_of(&self, id: EntryId) -> &[EntryId] {
        self.users.get(&id).map_or(&[], |users| users)
    }

    pub(super) fn has_drinks(&self) -> bool {
        self.records.iter().any(|record| record.kind == Kind::Drink && !record.retired)
    }

    pub(super) fn declares(&self, book: &Option<Arc<str>>) -> bool {
        self.declaring.get(book).is_some_and(|drinks| *drinks > 0)
    }
}

/// The place of the entry `id` among the records.
pub(crate) fn place(places: &[u32], id: EntryId) -> u32 {
    places.get(id.0 as usize).copied().unwrap_or(NOWHERE)
}
