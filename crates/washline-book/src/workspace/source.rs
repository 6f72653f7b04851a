//! One file of a workspace.

use std::sync::Arc;

use washline_syntax::{Document, Entry, EntryKind};
use washline_text::{Common, Kind, LineIndex, fold};

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
    /// A number that the file keeps through edits, and shares with no other of its workspace.
    pub(crate) home: u32,
    /// Its entries that are neither drink, prep nor stock; shared while they stay the same.
    pub(crate) frame: Arc<[Arc<Entry>]>,
}

impl SourceFile {
    /// Reads `text`.
    pub(crate) fn new(name: Arc<str>, text: Arc<str>, home: u32) -> Self {
        let index = LineIndex::new(&text);
        let document = Document::parse(text);
        let frame: Arc<[Arc<Entry>]> = frame(&document).cloned().collect();
        let book = book_of(&frame);
        Self { name, document, index, book, home, frame }
    }

    /// The same file with another text; entries whose bytes are equal are not read again.
    pub(crate) fn edit(&self, text: Arc<str>) -> Self {
        let common = Common::of(self.document.text(), &text);
        let index = self.index.edited(&text, common);
        let document = self.document.edit_between(text, common);
        let same = frame(&document).map(Arc::as_ptr).eq(self.frame.iter().map(Arc::as_ptr));
        let (frame, book) = if same {
            (self.frame.clone(), self.book.clone())
        } else {
            let frame: Arc<[Arc<Entry>]> = frame(&document).cloned().collect();
            let book = book_of(&frame);
            let kept = self.book.clone().filter(|kept| book.as_ref() == Some(kept));
            (frame, kept.or(book))
        };
        Self { name: self.name.clone(), document, index, book, home: self.home, frame }
    }
}

/// What a record is made of an entry of this kind as.
pub(super) const fn kind_of(kind: EntryKind) -> Option<Kind> {
    match kind {
        EntryKind::Drink => Some(Kind::Drink),
        EntryKind::Prep => Some(Kind::Prep),
        EntryKind::Stock => Some(Kind::Stock),
        EntryKind::Lead | EntryKind::Book | EntryKind::Section => None,
    }
}

fn frame(document: &Document) -> impl Iterator<Item = &Arc<Entry>> {
    let entries = document.entries().iter().map(|located| &located.entry);
    entries.filter(|entry| kind_of(entry.kind).is_none())
}

fn book_of(frame: &[Arc<Entry>]) -> Option<Arc<str>> {
    let book = frame.iter().find(|entry| entry.kind == EntryKind::Book)?;
    let name = fold(book.name.text(&book.text));
    (!name.is_empty()).then(|| Arc::from(name))
}
