//! One entry of the workspace: where it stands.

use std::ops::Deref;
use std::sync::Arc;

use washline_text::{FileId, Place, Span};

use crate::Made;

/// A drink, prep or stock entry. It stays the same through edits of its file and of others, as
/// long as the entry is recognised; in a workspace read afresh, entries count from 0 in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId(pub u32);

/// An entry as the workspace knows it: where it stands, and [what was made of it](Made).
///
/// A copy is cheap. Two copies are [made alike](Record::is_made_alike) where nothing was made
/// anew between them.
#[derive(Clone, Debug)]
pub struct Record {
    /// By what other entries refer to it.
    pub id: EntryId,
    /// Its file.
    pub file: FileId,
    /// The byte of the file at which it starts.
    pub start: u32,
    /// The home of its file.
    pub(crate) home: u32,
    made: Arc<Made>,
}

impl Deref for Record {
    type Target = Made;

    fn deref(&self) -> &Made {
        &self.made
    }
}

impl Record {
    /// An entry not yet composed.
    pub(crate) fn new(id: EntryId, file: FileId, home: u32, start: u32, made: Made) -> Self {
        Self { id, file, home, start, made: Arc::new(made) }
    }

    /// The same entry elsewhere.
    pub(crate) fn moved(&self, file: FileId, start: u32) -> Self {
        Self { file, start, ..self.clone() }
    }

    /// The same entry, not yet composed.
    pub(crate) fn head(&self) -> Self {
        let made = Made::head(self.entry.clone(), self.kind, self.book.clone());
        Self::new(self.id, self.file, self.home, self.start, made)
    }

    /// What is made of it, to be filled.
    pub(crate) fn made_mut(&mut self) -> &mut Made {
        Arc::make_mut(&mut self.made)
    }

    /// What was made of it, to be kept.
    pub(crate) const fn made(&self) -> &Arc<Made> {
        &self.made
    }

    /// Whether nothing was made anew between `other`, an earlier or later copy, and this.
    #[must_use]
    pub fn is_made_alike(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.made, &other.made)
    }

    /// Bytes of its entry as a place in its file.
    #[must_use]
    pub const fn place(&self, span: Span) -> Place {
        Place { file: self.file, span: span.shift(self.start) }
    }

    /// The place of its name; of its heading where the name is empty.
    #[must_use]
    pub fn name_place(&self) -> Place {
        if self.entry.name.is_empty() {
            let line = self.entry.lines.first().map_or(Span::at(0), |line| line.content);
            return self.place(line);
        }
        self.place(self.entry.name)
    }
}
