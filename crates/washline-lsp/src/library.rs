//! The workspaces behind the open texts, kept level with what the client has told.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use tower_lsp::lsp_types::{
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, Position, TextDocumentEdit,
    TextEdit, Url, WorkspaceEdit,
};
use washline_text::{Edit, FileId};

use crate::desk::{Desk, Sheet};
use crate::edition::Edition;
use crate::encoding::Ruler;
use crate::room::Room;

/// What reading many files tells as it goes: how many there are, and that one was read.
pub(crate) trait Scan: Sync {
    /// So many more are to be read.
    fn expect(&self, files: usize);
    /// One more was read.
    fn read(&self);
}

/// All workspaces.
#[derive(Debug, Default)]
pub(crate) struct Library {
    rooms: BTreeMap<Home, Room>,
    /// In which room an open text lies.
    homes: BTreeMap<Url, Home>,
    /// The stamp of the desk that this is level with.
    level: u64,
    /// The texts that were open then.
    open: Arc<BTreeMap<Url, Sheet>>,
}

/// What a room is known by.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Home {
    /// The root of a workspace.
    Root(PathBuf),
    /// A text that lies nowhere.
    Loose(Url),
}

/// A file of an edition.
#[derive(Clone, Debug)]
pub(crate) struct View {
    /// The workspace.
    pub edition: Arc<Edition>,
    /// The file.
    pub file: FileId,
    /// The texts that were open.
    open: Arc<BTreeMap<Url, Sheet>>,
}

impl View {
    /// How the client calls the file.
    pub(crate) fn url(&self) -> Option<&Url> {
        self.edition.url(self.file)
    }

    /// The measure of the file.
    pub(crate) fn ruler(&self) -> Option<Ruler<'_>> {
        self.edition.ruler(self.file)
    }

    /// The byte at a position of the file.
    pub(crate) fn offset(&self, position: Position) -> u32 {
        self.ruler().map_or(0, |ruler| ruler.offset(position))
    }

    /// Edits of the file.
    pub(crate) fn text_edits(&self, edits: Vec<Edit>) -> Vec<TextEdit> {
        let Some(ruler) = self.ruler() else { return Vec::new() };
        let edit = |edit: Edit| TextEdit::new(ruler.range(edit.span), edit.text);
        edits.into_iter().map(edit).collect()
    }

    /// Edits of several files as a single act of the client, which turns down those of a version
    /// that it no longer has, if it can.
    pub(crate) fn workspace_edit(&self, edits: &[(FileId, Edit)]) -> WorkspaceEdit {
        let edits = self.edition.text_edits(edits).into_iter();
        if !self.edition.terms.versions {
            return WorkspaceEdit::new(edits.collect());
        }
        let of_version = |(uri, edits): (Url, Vec<TextEdit>)| {
            let version = self.open.get(&uri).map(|sheet| sheet.version);
            TextDocumentEdit {
                text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
                edits: edits.into_iter().map(OneOf::Left).collect(),
            }
        };
        let edits = DocumentChanges::Edits(edits.map(of_version).collect());
        WorkspaceEdit { document_changes: Some(edits), ..WorkspaceEdit::default() }
    }
}

impl Library {
    /// Brings everything level with `desk`, unless it is further already.
    pub(crate) fn follow(&mut self, desk: &Desk, scan: &dyn Scan) {
        if desk.stamp <= self.level {
            return;
        }
        let level = self.level;
        let fresh = || desk.open.iter().filter(|(_, sheet)| sheet.stamp > level);
        let mut arrange = desk.arranged > self.level;
        for (url, sheet) in fresh().filter(|(_, sheet)| !sheet.is_standards()) {
            arrange |= !(self.homes.contains_key(url) || self.is_shelved(url, sheet, desk));
        }
        if arrange || desk.closed > self.level {
            self.arrange(desk, scan);
        } else {
            let mut written: BTreeMap<&Home, Vec<(&Url, &Sheet)>> = BTreeMap::new();
            for (url, sheet) in fresh() {
                if let Some(home) = self.homes.get(url) {
                    written.entry(home).or_default().push((url, sheet));
                }
            }
            for (home, sheets) in written {
                if let Some(room) = self.rooms.get_mut(home) {
                    room.write(&sheets);
                }
            }
        }
        self.level = desk.stamp;
        self.open = desk.open.clone();
    }

    /// Whether a text that was opened is a file of a room already: it is at home there then.
    fn is_shelved(&mut self, url: &Url, sheet: &Sheet, desk: &Desk) -> bool {
        let home = home(url, sheet, desk);
        let shelved = self.rooms.get(&home).is_some_and(|room| room.file(url).is_some());
        if shelved {
            self.homes.insert(url.clone(), home);
        }
        shelved
    }

    /// The file that `url` names.
    pub(crate) fn view(&self, url: &Url) -> Option<View> {
        let home = self.homes.get(url);
        let rooms = home.and_then(|home| self.rooms.get(home)).into_iter();
        let (room, file) = rooms
            .chain(self.rooms.values().filter(|_| home.is_none()))
            .find_map(|room| Some((room, room.file(url)?)))?;
        Some(View { edition: room.edition(), file, open: self.open.clone() })
    }

    /// Every workspace.
    pub(crate) fn rooms(&self) -> impl Iterator<Item = &Room> {
        self.rooms.values()
    }

    /// The files of the books below the client's folders, and those that it holds open.
    pub(crate) fn files(&self, desk: &Desk) -> Vec<(Url, View)> {
        let mut files = Vec::new();
        for (home, room) in &self.rooms {
            let within = |root: &Path| desk.folders.iter().any(|folder| root.starts_with(folder));
            let whole = matches!(home, Home::Root(root) if within(root));
            for (url, file) in room.files().filter(|(url, _)| whole || desk.open.contains_key(url))
            {
                let (edition, open) = (room.edition(), self.open.clone());
                files.push((url.clone(), View { edition, file, open }));
            }
        }
        files
    }

    /// Finds out anew which workspaces there are and what lies in each.
    fn arrange(&mut self, desk: &Desk, scan: &dyn Scan) {
        let mut wanted: BTreeMap<Home, BTreeSet<&Url>> = BTreeMap::new();
        for folder in desk.folders.iter() {
            wanted.entry(Home::Root(folder.clone())).or_default();
        }
        self.homes.clear();
        for (url, sheet) in desk.open.iter().filter(|(_, sheet)| !sheet.is_standards()) {
            let home = home(url, sheet, desk);
            wanted.entry(home.clone()).or_default().insert(url);
            self.homes.insert(url.clone(), home);
        }
        let mut old = std::mem::take(&mut self.rooms);
        let mut done = BTreeMap::new();
        // Outer ones come first, and may add inner ones.
        while let Some((home, open)) = wanted.pop_first() {
            let mut room = old.remove(&home).unwrap_or_default();
            for inner in room.gather(&home, &open, desk, self.level, scan) {
                let inner = Home::Root(inner);
                if !done.contains_key(&inner) {
                    wanted.entry(inner).or_default();
                }
            }
            done.insert(home, room);
        }
        self.rooms = done;
    }
}

/// Where a text belongs.
fn home(url: &Url, sheet: &Sheet, desk: &Desk) -> Home {
    match sheet.path.as_deref().and_then(Path::parent) {
        Some(folder) => Home::Root(desk.root(folder).0.to_path_buf()),
        None => Home::Loose(url.clone()),
    }
}
