//! What a name means: an entry of the same file, of its book, of the workspace,
//! or an ingredient of the reference; the nearest level that knows it answers.

use std::cell::RefCell;
use std::sync::Arc;

use washline_measure::Unit;
use washline_reference as reference;
use washline_syntax::Key;
use washline_text::{Kind, fold};

use crate::{EntryId, Record};

mod around;
mod choice;
mod resolve;
mod table;

pub(crate) use choice::choice;
use table::{Owner, Table};
pub(crate) use table::{Shard, hash};

/// What a name leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Referent {
    /// A prep or stock entry.
    Entry(EntryId),
    /// A reference ingredient, by its id.
    Reference(u16),
}

/// How near a name was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// In the same file.
    File,
    /// In the same named book.
    Book,
    /// Elsewhere in the workspace.
    Workspace,
    /// In the built-in reference.
    Reference,
}

/// What a name came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Resolution {
    /// What it means; several where one level knows several; empty where nothing knows it.
    pub hits: Vec<Referent>,
    /// Where it was found.
    pub level: Option<Level>,
    /// The count noun that was taken off the name.
    pub unit: Option<Unit>,
    /// The qualifier that belongs to the name (`syrup, almond`), by its place in the list.
    pub qualifier: Option<usize>,
}

/// Every name of the workspace's preps and stock, and of its drinks.
#[derive(Clone, Debug, Default)]
pub(crate) struct Names {
    goods: Table,
    drinks: Table,
}

/// From where a name is looked up.
#[derive(Clone, Copy, Debug)]
pub(crate) struct From<'a> {
    /// The home of the file.
    pub home: u32,
    pub book: Option<&'a str>,
    /// The entry that asks: a stock does not find itself by its kind's words.
    pub asker: Option<EntryId>,
    /// Takes down which names were looked up, found or not.
    pub asked: Option<&'a Asked>,
}

/// The names that an entry looked up, by their hashes.
#[derive(Debug, Default)]
pub(crate) struct Asked(RefCell<Vec<u64>>);

impl Asked {
    /// The names, each once.
    pub(crate) fn into_hashes(self) -> Box<[u64]> {
        let mut hashes = self.0.into_inner();
        hashes.sort_unstable();
        hashes.dedup();
        hashes.into_boxed_slice()
    }

    fn note(&self, key: &str) {
        self.0.borrow_mut().push(hash(key));
    }
}

impl Names {
    /// Adds the names that `record` goes by.
    pub(crate) fn add(&mut self, record: &Record) {
        each_name(record, |key, written, heading| {
            let owner = Owner {
                id: record.id,
                home: record.home,
                book: record.book.clone(),
                written: written.clone(),
                kind: record.kind,
                heading,
            };
            self.table_mut(record.kind).add(key, owner);
        });
    }

    /// Takes out the names that `record` went by.
    pub(crate) fn remove(&mut self, record: &Record) {
        each_name(record, |key, _, _| self.table_mut(record.kind).remove(key, record.id));
    }

    /// Puts the owners of each of `record`'s names in the order that `place` gives, and tells
    /// of each name whether `before` knew it otherwise.
    pub(crate) fn settle(
        &mut self,
        record: &Record,
        before: &Self,
        place: impl Fn(EntryId) -> u32,
        mut changed: impl FnMut(Kind, &str),
    ) {
        each_name(record, |key, _, _| {
            let table = self.table_mut(record.kind);
            table.sort(key, &place);
            if table.owners(key) != before.table(record.kind).owners(key) {
                changed(record.kind, key);
            }
        });
    }

    /// Puts the owners of all names in the order that `place` gives, and tells which moved.
    pub(crate) fn settle_all(
        &mut self,
        place: impl Fn(EntryId) -> u32,
        mut moved: impl FnMut(Kind, &str),
    ) {
        for (kind, table) in [(Kind::Prep, &mut self.goods), (Kind::Drink, &mut self.drinks)] {
            let shared: Vec<Arc<str>> = table.shared().cloned().collect();
            for key in shared {
                let before: Vec<EntryId> = table.owners(&key).iter().map(|o| o.id).collect();
                table.sort(&key, &place);
                if !table.owners(&key).iter().map(|o| o.id).eq(before) {
                    moved(kind, &key);
                }
            }
        }
    }

    const fn table(&self, kind: Kind) -> &Table {
        if matches!(kind, Kind::Drink) { &self.drinks } else { &self.goods }
    }

    const fn table_mut(&mut self, kind: Kind) -> &mut Table {
        if matches!(kind, Kind::Drink) { &mut self.drinks } else { &mut self.goods }
    }

    /// The other entries whose headings say the name of `record`, under the same book.
    pub(crate) fn namesakes<'a>(&'a self, record: &'a Record) -> impl Iterator<Item = &'a Owner> {
        let owners = self.table(record.kind).owners(&record.key).iter();
        owners.filter(|owner| {
            owner.heading
                && owner.kind == record.kind
                && owner.id != record.id
                && owner.book == record.book
        })
    }

    /// What stands for who goes by the name `key`.
    pub(crate) fn shard(&self, kind: Kind, key: &str) -> Option<&Arc<Shard>> {
        self.table(kind).shard(key)
    }

    /// All folded names of preps and stock, in no order.
    pub(crate) fn goods(&self) -> impl Iterator<Item = &str> {
        self.goods.keys()
    }

    /// All folded names of drinks, in no order.
    pub(crate) fn drink_names(&self) -> impl Iterator<Item = &str> {
        self.drinks.keys()
    }

    /// The name `key` as it is written by who goes by it; a heading before `also:`.
    pub(crate) fn as_written(&self, kind: Kind, key: &str) -> Option<&Arc<str>> {
        let owners = self.table(kind).owners(key);
        let heading = owners.iter().find(|owner| owner.heading);
        heading.or_else(|| owners.first()).map(|owner| &owner.written)
    }

    /// The drinks called `key`, at the nearest level that has any.
    pub(crate) fn drinks(&self, key: &str, from: From<'_>) -> Vec<EntryId> {
        nearest(self.drinks.owners(key), from).map(|(ids, _)| ids).unwrap_or_default()
    }

    /// The preps and stock called `key`, at the nearest level that has any.
    pub(crate) fn entries(&self, key: &str, from: From<'_>) -> Option<(Vec<EntryId>, Level)> {
        if let Some(asked) = from.asked {
            asked.note(key);
        }
        nearest(self.goods.owners(key), from)
    }

    /// What the folded `key` means, entries before the reference, no spelling turned.
    fn exactly(&self, key: &str, from: From<'_>) -> Option<(Vec<Referent>, Level)> {
        if key.is_empty() {
            return None;
        }
        if let Some((ids, level)) = self.entries(key, from) {
            return Some((ids.into_iter().map(Referent::Entry).collect(), level));
        }
        let known = reference::exactly(key)?;
        Some((vec![Referent::Reference(known.id)], Level::Reference))
    }

    /// What `key` means, its plural turned where it must be.
    pub(crate) fn look(&self, key: &str, from: From<'_>) -> Option<(Vec<Referent>, Level)> {
        self.exactly(key, from).or_else(|| {
            reference::plural::turned(key).find_map(|turned| self.exactly(&turned, from))
        })
    }

    /// Whether `text` as it stands, commas and all, is a known name.
    pub(crate) fn knows(&self, text: &str, from: From<'_>) -> bool {
        self.look(&fold(text), from).is_some()
    }
}

/// Each name that `record` goes by: folded, as written, and whether its heading says it.
fn each_name(record: &Record, mut each: impl FnMut(&str, &Arc<str>, bool)) {
    if !record.key.is_empty() {
        each(&record.key, &record.name, true);
    }
    for (also, _) in record.terms(Key::Also) {
        let key = fold(also);
        if !key.is_empty() {
            each(&key, &Arc::from(also), false);
        }
    }
}

fn nearest(owners: &[Owner], from: From<'_>) -> Option<(Vec<EntryId>, Level)> {
    let others = || owners.iter().filter(|owner| Some(owner.id) != from.asker);
    let pick = |keep: &dyn Fn(&Owner) -> bool, level: Level| {
        let ids: Vec<EntryId> = others().filter(|o| keep(o)).map(|o| o.id).collect();
        (!ids.is_empty()).then_some((ids, level))
    };
    pick(&|owner| owner.home == from.home, Level::File)
        .or_else(|| {
            let book = from.book?;
            pick(&|owner| owner.book.as_deref() == Some(book), Level::Book)
        })
        .or_else(|| pick(&|_| true, Level::Workspace))
}
