//! All files of a workspace, read together.

use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};
use washline_reference as reference;
use washline_syntax::Entry;
use washline_text::{FileId, Kind, Place, fold};

use crate::names::{From, Names};
use crate::{EntryId, Level, Record, Referent, Settings};

mod align;
mod answers;
mod edit;
mod held;
mod source;

use answers::{Answer, Log};
pub use answers::{Answers, Watched};
pub(crate) use held::{Held, place};
pub use source::SourceFile;

/// The files, their entries and everything that was made of them.
///
/// A copy is cheap and shares all. [`edit`](Self::edit), [`edit_many`](Self::edit_many) and
/// [`revised`](Self::revised) give a new workspace that shares with this one every entry that neither
/// changed nor hangs on a change: an entry whose bytes are equal is not read again; it is composed
/// again only where something that it uses came out otherwise, a name that it looked up leads
/// elsewhere, or its book's standards changed. What they give is what [`new`](Self::new) makes of
/// the same texts, save that entries keep their [`EntryId`]s.
#[derive(Clone, Debug)]
pub struct Workspace {
    held: Arc<Held>,
    log: Option<Arc<Log>>,
}

impl Workspace {
    /// Reads `files` (name and text) as one workspace under `settings`.
    #[must_use]
    pub fn new(files: Vec<(Arc<str>, Arc<str>)>, settings: Settings) -> Self {
        let files = (0_u32..)
            .zip(files)
            .map(|(home, (name, text))| Arc::new(SourceFile::new(name, text, home)))
            .collect();
        Self::of(Held::empty(Arc::new(settings)).next(files))
    }

    /// The same workspace with the text of one file changed.
    #[must_use]
    pub fn edit(&self, file: FileId, text: Arc<str>) -> Self {
        self.edit_many([(file, text)])
    }

    /// The same workspace with the texts of several files changed, the last of each file's.
    #[must_use]
    pub fn edit_many(&self, texts: impl IntoIterator<Item = (FileId, Arc<str>)>) -> Self {
        let mut files = self.held.files.clone();
        for (file, text) in texts {
            if let Some(slot) = files.get_mut(file.0 as usize) {
                *slot = Arc::new(slot.edit(text));
            }
        }
        Self::of(self.held.next(files))
    }

    /// The workspace of `files` (name and text) under `settings`, which may be fewer, more or
    /// others than this one's: a file that this one has by the same name is an edit of it.
    /// Under other settings every entry is composed again, and none read again.
    #[must_use]
    pub fn revised(&self, files: Vec<(Arc<str>, Arc<str>)>, settings: Settings) -> Self {
        let known: FxHashMap<&str, &Arc<SourceFile>> =
            self.held.files.iter().map(|file| (&*file.name, file)).collect();
        let mut taken = FxHashSet::default();
        let mut next =
            self.held.files.iter().map(|file| file.home).max().map_or(0, |most| most + 1);
        let files = files
            .into_iter()
            .map(|(name, text)| match known.get(&*name) {
                Some(old) if taken.insert(old.home) => {
                    if *old.document.text() == text {
                        return (*old).clone();
                    }
                    Arc::new(old.edit(text))
                }
                _ => {
                    next += 1;
                    Arc::new(SourceFile::new(name, text, next - 1))
                }
            })
            .collect();
        if *self.settings() == settings {
            return Self::of(self.held.next(files));
        }
        Self::of(Held::empty(Arc::new(settings)).next(files))
    }

    fn of(held: Held) -> Self {
        Self { held: Arc::new(held), log: None }
    }

    /// The same workspace, which takes down what it is asked.
    #[must_use]
    pub fn watched(&self) -> Watched {
        Watched::of(self)
    }

    fn with_log(&self, log: Arc<Log>) -> Self {
        Self { held: self.held.clone(), log: Some(log) }
    }

    const fn held(&self) -> &Arc<Held> {
        &self.held
    }

    fn note(&self, answer: impl FnOnce() -> Answer) {
        if let Some(log) = &self.log {
            log.note(answer());
        }
    }

    fn note_names(&self) {
        self.note(|| Answer::Names(self.held.names.clone()));
    }

    fn note_all(&self) {
        self.note(|| Answer::All(self.held.clone()));
    }

    /// The files, in the order given.
    #[must_use]
    pub fn files(&self) -> &[Arc<SourceFile>] {
        self.note_all();
        &self.held.files
    }

    /// One file.
    #[must_use]
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        let file = self.held.file(id)?;
        self.note(|| Answer::File(file.home, Some(file.clone())));
        Some(file)
    }

    /// The name of a file, as outputs show it.
    #[must_use]
    pub fn file_name(&self, id: FileId) -> &str {
        self.held.file(id).map_or("", |file| &file.name)
    }

    /// What a file says beside its drinks, preps and stock: the lines before the first heading,
    /// its book, its sections.
    #[must_use]
    pub fn frame(&self, id: FileId) -> &[Arc<Entry>] {
        let Some(file) = self.held.file(id) else { return &[] };
        self.note(|| Answer::Frame(file.home, Some(file.frame.clone())));
        &file.frame
    }

    /// Drinks, preps and stock of all files, in order.
    #[must_use]
    pub fn records(&self) -> &[Record] {
        self.note_all();
        &self.held.records
    }

    /// Drinks, preps and stock of one file, in order.
    #[must_use]
    pub fn records_of(&self, file: FileId) -> &[Record] {
        self.note_all();
        self.held.records_of(file.0 as usize)
    }

    /// One entry.
    #[must_use]
    pub fn record(&self, id: EntryId) -> Option<&Record> {
        self.note(|| Answer::Record(id, self.held.made(id).cloned()));
        self.held.record(id)
    }

    /// The house's standards.
    #[must_use]
    pub fn settings(&self) -> &Settings {
        self.held.standards.house()
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
        self.held.standards.of(file)
    }

    /// Where the book of a file says `key` (`market`, `units.liquid`), where the house does not.
    #[must_use]
    pub fn said_by_book(&self, file: FileId, key: &str) -> Option<Place> {
        self.note_all();
        self.held.standards.said(&self.held.files, self.held.file(file)?.book.as_ref()?, key)
    }

    /// Preps that need themselves, each as the ring of entries.
    #[must_use]
    pub fn cycles(&self) -> &[Vec<EntryId>] {
        self.note(|| Answer::Cycles(self.held.cycles.clone()));
        &self.held.cycles
    }

    /// The entries that use a prep or stock entry, in order.
    #[must_use]
    pub fn users(&self, id: EntryId) -> &[EntryId] {
        self.note(|| Answer::Users(id, self.held.users.get(&id).cloned()));
        self.held.users_of(id)
    }

    /// How many lines pour each thing that is poured, the sides of a choice each, in any order.
    pub fn pours(&self) -> impl Iterator<Item = (Referent, u32)> + '_ {
        self.note_all();
        self.held.pours.iter().map(|(means, lines)| (*means, *lines))
    }

    /// Whether there is a drink that is not retired.
    #[must_use]
    pub fn has_drinks(&self) -> bool {
        let any = self.held.has_drinks();
        self.note(|| Answer::Drinks(any));
        any
    }

    /// Whether the book of `record` says of any drink on its list what it contains. Files that
    /// name no book are one.
    #[must_use]
    pub fn declares(&self, record: &Record) -> bool {
        let declares = self.held.declares(&record.book);
        self.note(|| Answer::Declares(record.book.clone(), declares));
        declares
    }

    /// Where in `name`, which nothing knows, the side of a choice stands that is unknown by
    /// itself: `foo` of `gin or foo`. The whole of it where it is no choice.
    #[must_use]
    pub fn unknown_side<'a>(&self, name: &'a str, record: &Record) -> &'a str {
        crate::line::unknown_side(name, self.names(), from(record)).unwrap_or(name)
    }

    /// The preps and stock entries that go by a folded name, nearest to `record` first.
    #[must_use]
    pub fn entries_called(&self, key: &str, record: &Record) -> Option<(Vec<EntryId>, Level)> {
        self.names().entries(key, from(record))
    }

    /// Whether another entry of its kind, in its book or its file, has the name of `record`.
    #[must_use]
    pub fn has_namesake(&self, record: &Record) -> bool {
        self.note(|| {
            let shard = self.held.names.shard(record.kind, &record.key);
            Answer::Name(record.kind, record.key.clone(), shard.cloned())
        });
        let mut all = self.held.names.namesakes(record);
        all.any(|owner| record.book.is_some() || owner.home == record.home)
    }

    /// The other entries of its kind that have the name and the book of `record`, or as it name
    /// none.
    pub fn namesakes<'a>(&'a self, record: &'a Record) -> impl Iterator<Item = EntryId> + 'a {
        self.note_names();
        self.held.names.namesakes(record).map(|owner| owner.id)
    }

    /// The drinks that go by a folded name, nearest to `record` first.
    #[must_use]
    pub fn drinks_called(&self, key: &str, record: &Record) -> Vec<EntryId> {
        self.names().drinks(key, from(record))
    }

    /// What a name means, as a line of `record` would have it.
    #[must_use]
    pub fn meaning(&self, name: &str, record: &Record) -> crate::Resolution {
        self.names().resolve(name, &[], true, from(record))
    }

    /// The known names nearest to `name`, at most `limit`: the workspace's own first, as they are written.
    #[must_use]
    pub fn nearest(&self, name: &str, limit: usize) -> Vec<String> {
        let key = fold(name);
        let own = self.names().goods().map(|name| (name, ()));
        let mut own: Vec<&str> = reference::nearest::closest(&key, own, limit)
            .into_iter()
            .map(|(name, ())| name)
            .collect();
        own.sort_unstable();
        let mut out: Vec<String> =
            own.into_iter().map(|name| self.as_written(Kind::Prep, name)).collect();
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
        let names = self.names().drink_names().map(|name| (name, ()));
        reference::nearest::closest(&fold(name), names, limit)
            .into_iter()
            .map(|(name, ())| self.as_written(Kind::Drink, name))
            .collect()
    }

    fn as_written(&self, kind: Kind, key: &str) -> String {
        self.held.names.as_written(kind, key).map_or(key, |written| written).to_owned()
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

    pub(crate) fn names(&self) -> &Names {
        self.note_names();
        &self.held.names
    }
}

/// From where the lines of `record` look names up.
pub(crate) fn from(record: &Record) -> From<'_> {
    From { home: record.home, book: record.book.as_deref(), asker: Some(record.id), asked: None }
}
