//! One state of the books: workspaces with what was found in them.

use std::collections::BTreeMap;

use washline_book::{EntryId, Record, Workspace};
use washline_syntax::EntryKind;
use washline_text::{FileId, Finding, Span};

use crate::Named;

/// All workspaces at one revision, or on disk.
#[derive(Clone, Debug, Default)]
pub struct State<'a> {
    /// The workspaces.
    pub rooms: Vec<Room<'a>>,
}

/// One workspace.
#[derive(Clone, Debug)]
pub struct Room<'a> {
    /// Its files, entries and figures.
    pub workspace: &'a Workspace,
    /// How outputs call its files, in its order.
    pub names: &'a [String],
    /// Which of its files are asked for.
    pub asked: &'a [bool],
    /// Every finding in it.
    pub findings: &'a [Finding],
    /// The files that its standards are read from.
    pub standards: &'a [Standard],
}

/// A `washline.toml`, or what one starts from.
#[derive(Clone, Debug, PartialEq)]
pub struct Standard {
    /// How outputs call it.
    pub name: String,
    /// Its text.
    pub text: String,
    /// What it says: the key with its table to the bytes of its value.
    pub said: BTreeMap<String, Span>,
}

/// One entry of a state, by its place among all of them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Item<'a> {
    pub room: usize,
    pub workspace: &'a Workspace,
    pub record: &'a Record,
    pub file: &'a str,
    /// The name of the section that it stands under.
    pub section: Option<&'a str>,
    pub asked: bool,
}

/// All entries of a state.
#[derive(Debug)]
pub(crate) struct Items<'a> {
    pub list: Vec<Item<'a>>,
    /// Where each workspace's entries begin.
    starts: Vec<usize>,
}

impl<'a> Room<'a> {
    pub(crate) fn name(&self, file: FileId) -> &'a str {
        self.names.get(file.0 as usize).map_or("", String::as_str)
    }

    pub(crate) fn asks(&self, file: FileId) -> bool {
        self.asked.get(file.0 as usize).copied().unwrap_or(false)
    }
}

impl<'a> Items<'a> {
    pub(crate) fn of(state: &State<'a>) -> Self {
        let mut items = Self { list: Vec::new(), starts: Vec::new() };
        for (at, room) in state.rooms.iter().enumerate() {
            items.starts.push(items.list.len());
            let records = room.workspace.records().iter().zip(sections(room.workspace));
            items.list.extend(records.map(|(record, section)| Item {
                room: at,
                workspace: room.workspace,
                record,
                file: room.name(record.file),
                section,
                asked: room.asks(record.file),
            }));
        }
        items
    }

    pub(crate) fn get(&self, at: usize) -> Option<&Item<'a>> {
        self.list.get(at)
    }

    /// The place of an entry of a workspace.
    pub(crate) fn at(&self, room: usize, id: EntryId) -> usize {
        self.starts.get(room).copied().unwrap_or(0).saturating_add(id.0 as usize)
    }

    /// What the entry at `at` pours.
    pub(crate) fn uses(&self, at: usize) -> impl Iterator<Item = usize> + '_ {
        let item = self.get(at);
        let uses = item.into_iter().flat_map(|item| &item.record.uses);
        uses.map(move |id| self.at(item.map_or(0, |item| item.room), *id))
    }
}

/// The section that each entry of a workspace stands under, in its order.
fn sections(workspace: &Workspace) -> Vec<Option<&str>> {
    let mut out = Vec::with_capacity(workspace.records().len());
    for file in workspace.files() {
        let mut section = None;
        for located in file.document.entries() {
            match located.entry.kind {
                EntryKind::Section => section = Some(located.entry.name_text()),
                EntryKind::Drink | EntryKind::Prep | EntryKind::Stock => out.push(section),
                EntryKind::Lead | EntryKind::Book => {}
            }
        }
    }
    out
}

impl Item<'_> {
    pub(crate) fn named(&self) -> Named {
        let record = self.record;
        let place = record.name_place();
        let file = self.workspace.file(record.file);
        Named {
            file: self.file.to_owned(),
            line: file.map_or(0, |file| file.index.line_of(place.span.start)) + 1,
            kind: record.kind,
            name: record.name.clone(),
        }
    }
}
