//! All files of a workspace, read together.

use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};
use washline_reference as reference;
use washline_syntax::{Document, EntryKind, Key, Value};
use washline_text::{FileId, Kind, LineIndex, Place, fold};

use crate::compose::Composer;
use crate::names::{From, Names};
use crate::says::Standards;
use crate::{EntryId, Level, Record, Referent, Settings};

/// One file.
#[derive(Clone, Debug)]
pub struct SourceFile {
    /// Its name, as outputs show it.
    pub name: Arc<str>,
    /// Its text, read.
    pub document: Document,
    /// Where its lines start.
    pub index: LineIndex,
    /// The book that its first heading names, folded.
    pub book: Option<Arc<str>>,
}

/// The files, their entries and everything that was made of them.
#[derive(Clone, Debug)]
pub struct Workspace {
    files: Vec<SourceFile>,
    records: Vec<Record>,
    names: Names,
    settings: Arc<Settings>,
    standards: Standards,
    cycles: Vec<Vec<EntryId>>,
    users: FxHashMap<EntryId, Vec<EntryId>>,
    declaring: FxHashSet<Option<Arc<str>>>,
}

impl SourceFile {
    fn read(name: Arc<str>, text: Arc<str>) -> Self {
        let index = LineIndex::new(&text);
        let document = Document::parse(text);
        let book = book_of(&document);
        Self { name, document, index, book }
    }
}

impl Workspace {
    /// Reads `files` (name and text) as one workspace under `settings`.
    #[must_use]
    pub fn new(files: Vec<(Arc<str>, Arc<str>)>, settings: Settings) -> Self {
        let files = files.into_iter().map(|(name, text)| SourceFile::read(name, text)).collect();
        Self::of(files, Arc::new(settings))
    }

    /// The same workspace with the text of one file changed; entries whose bytes are equal
    /// are not read again.
    #[must_use]
    pub fn edit(&self, file: FileId, text: Arc<str>) -> Self {
        let mut files = self.files.clone();
        if let Some(slot) = files.get_mut(file.0 as usize) {
            slot.index = LineIndex::new(&text);
            slot.document = slot.document.edit(text);
            slot.book = book_of(&slot.document);
        }
        Self::of(files, self.settings.clone())
    }

    /// Another state of the workspace: of a file that both have, entries whose bytes are equal
    /// are not read again.
    #[must_use]
    pub fn revised(&self, files: Vec<(Arc<str>, Arc<str>)>, settings: Settings) -> Self {
        let known: FxHashMap<&str, &SourceFile> =
            self.files.iter().map(|file| (&*file.name, file)).collect();
        let files = files.into_iter().map(|(name, text)| {
            let Some(known) = known.get(&*name) else { return SourceFile::read(name, text) };
            if *known.document.text() == text {
                return (*known).clone();
            }
            let index = LineIndex::new(&text);
            let document = known.document.edit(text);
            let book = book_of(&document);
            SourceFile { name, document, index, book }
        });
        Self::of(files.collect(), Arc::new(settings))
    }

    fn of(files: Vec<SourceFile>, settings: Arc<Settings>) -> Self {
        let standards = Standards::new(&files, &settings);
        let mut workspace = Self {
            records: heads(&files),
            files,
            names: Names::default(),
            settings,
            standards,
            cycles: Vec::new(),
            users: FxHashMap::default(),
            declaring: FxHashSet::default(),
        };
        workspace.learn_names();
        let composed = Composer::new(&workspace).run();
        workspace.records = composed.records;
        workspace.cycles = composed.cycles;
        workspace.declaring =
            workspace.records.iter().filter(|r| declares(r)).map(|r| r.book.clone()).collect();
        for record in &workspace.records {
            for used in &record.uses {
                workspace.users.entry(*used).or_default().push(record.id);
            }
        }
        workspace
    }

    fn learn_names(&mut self) {
        let mut names = Names::default();
        for record in &self.records {
            names.add(record.kind, &record.key, record.id, record.file, record.book.as_ref());
            for (also, _) in record.terms(Key::Also) {
                names.add(record.kind, &fold(also), record.id, record.file, record.book.as_ref());
            }
        }
        self.names = names;
    }

    /// The files, in the order given.
    #[must_use]
    pub fn files(&self) -> &[SourceFile] {
        &self.files
    }

    /// One file.
    #[must_use]
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(id.0 as usize)
    }

    /// Drinks, preps and stock of all files, in order.
    #[must_use]
    pub fn records(&self) -> &[Record] {
        &self.records
    }

    /// One entry.
    #[must_use]
    pub fn record(&self, id: EntryId) -> Option<&Record> {
        self.records.get(id.0 as usize)
    }

    /// The house's standards.
    #[must_use]
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The standards that hold for an entry: those of its file.
    #[must_use]
    pub fn settings_of(&self, record: &Record) -> &Settings {
        self.settings_in(record.file)
    }

    /// The standards that hold in a file: the house's, its folder's markets, and what its book
    /// says where the house is silent.
    #[must_use]
    pub fn settings_in(&self, file: FileId) -> &Settings {
        self.standards.of(file).unwrap_or(&self.settings)
    }

    /// Where the book of a file says `key` (`market`, `units.liquid`), where the house does not.
    #[must_use]
    pub fn said_by_book(&self, file: FileId, key: &str) -> Option<Place> {
        self.standards.said(self.file(file)?.book.as_ref()?, key)
    }

    /// Preps that need themselves, each as the ring of entries.
    #[must_use]
    pub fn cycles(&self) -> &[Vec<EntryId>] {
        &self.cycles
    }

    /// The entries that use a prep or stock entry.
    #[must_use]
    pub fn users(&self, id: EntryId) -> &[EntryId] {
        self.users.get(&id).map_or(&[], Vec::as_slice)
    }

    /// Whether the book of `record` says of any drink on its list what it contains. Files that
    /// name no book are one.
    #[must_use]
    pub fn declares(&self, record: &Record) -> bool {
        self.declaring.contains(&record.book)
    }

    /// Where in `name`, which nothing knows, the side of a choice stands that is unknown by
    /// itself: `foo` of `gin or foo`. The whole of it where it is no choice.
    #[must_use]
    pub fn unknown_side<'a>(&self, name: &'a str, record: &Record) -> &'a str {
        crate::line::unknown_side(name, &self.names, from(record)).unwrap_or(name)
    }

    /// The preps and stock entries that go by a folded name, nearest to `record` first.
    #[must_use]
    pub fn entries_called(&self, key: &str, record: &Record) -> Option<(Vec<EntryId>, Level)> {
        self.names.entries(key, from(record))
    }

    /// The drinks that go by a folded name, nearest to `record` first.
    #[must_use]
    pub fn drinks_called(&self, key: &str, record: &Record) -> Vec<EntryId> {
        self.names.drinks(key, from(record))
    }

    /// What a name means, as a line of `record` would have it.
    #[must_use]
    pub fn meaning(&self, name: &str, record: &Record) -> crate::Resolution {
        self.names.resolve(name, &[], true, from(record))
    }

    /// The known names nearest to `name`, at most `limit`: the workspace's own first, as they are written.
    #[must_use]
    pub fn nearest(&self, name: &str, limit: usize) -> Vec<String> {
        let key = fold(name);
        let own = self.names.goods().map(|name| (name, ()));
        let mut own: Vec<&str> = reference::nearest::closest(&key, own, limit)
            .into_iter()
            .map(|(name, ())| name)
            .collect();
        own.sort_unstable();
        let mut out: Vec<String> = own.into_iter().map(|name| self.as_written(name)).collect();
        for known in reference::nearest(&key, limit) {
            if out.iter().all(|name| fold(name) != fold(known.name)) {
                out.push(known.name.to_owned());
            }
        }
        out.truncate(limit);
        out
    }

    /// The drink names nearest to `name`.
    #[must_use]
    pub fn nearest_drinks(&self, name: &str, limit: usize) -> Vec<String> {
        let names = self.names.drink_names().map(|name| (name, ()));
        reference::nearest::closest(&fold(name), names, limit)
            .into_iter()
            .map(|(name, ())| self.as_written(name))
            .collect()
    }

    fn as_written(&self, key: &str) -> String {
        let named = self.records.iter().find(|record| *record.key == *key);
        if let Some(record) = named {
            return record.name.to_string();
        }
        let also = self.records.iter().find_map(|record| {
            record.terms(Key::Also).find(|(word, _)| fold(word) == key).map(|(word, _)| word)
        });
        also.unwrap_or(key).to_owned()
    }

    /// The name of what a referent is.
    #[must_use]
    pub fn name_of(&self, referent: Referent) -> &str {
        match referent {
            Referent::Entry(id) => self.record(id).map_or("", |record| &record.name),
            Referent::Reference(id) => reference::ingredient(id).map_or("", |known| known.name),
        }
    }

    /// The text of a place.
    #[must_use]
    pub fn text(&self, place: Place) -> &str {
        self.file(place.file).map_or("", |file| place.span.text(file.document.text()))
    }

    pub(crate) const fn names(&self) -> &Names {
        &self.names
    }
}

/// From where the lines of `record` look names up.
pub(crate) fn from(record: &Record) -> From<'_> {
    From { file: record.file, book: record.book.as_deref(), asker: Some(record.id) }
}

/// A drink on the list that says what it contains, be it nothing.
fn declares(record: &Record) -> bool {
    let says =
        record.fields(Key::Contains).any(|f| matches!(f.value, Value::None | Value::Terms(_)));
    record.kind == Kind::Drink && !record.retired && says
}

fn book_of(document: &Document) -> Option<Arc<str>> {
    let book = document.entries().iter().find(|at| at.entry.kind == EntryKind::Book)?;
    let name = fold(book.entry.name.text(&book.entry.text));
    (!name.is_empty()).then(|| Arc::from(name))
}

/// The entries of all files, not yet composed.
fn heads(files: &[SourceFile]) -> Vec<Record> {
    let mut out = Vec::new();
    for (file, source) in files.iter().enumerate() {
        for located in source.document.entries() {
            let kind = match located.entry.kind {
                EntryKind::Drink => Kind::Drink,
                EntryKind::Prep => Kind::Prep,
                EntryKind::Stock => Kind::Stock,
                _ => continue,
            };
            let id = EntryId(u32::try_from(out.len()).unwrap_or(u32::MAX));
            let file = FileId(u32::try_from(file).unwrap_or(u32::MAX));
            out.push(Record::head(id, file, located, kind, source.book.clone()));
        }
    }
    out
}
