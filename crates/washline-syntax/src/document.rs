//! The lossless document: a file's text as a list of shared entries.

use std::collections::HashMap;
use std::sync::Arc;

use washline_text::Span;

use crate::lines::{Before, Piece, pieces};
use crate::{EntryKind, Field, Ingredient, Key, Line, LineKind, Problem, Step, lines, reader};

/// A file read whole. Its text is the file's text, byte for byte.
#[derive(Clone, Debug)]
pub struct Document {
    pub(crate) text: Arc<str>,
    pub(crate) entries: Vec<Located>,
}

/// An entry and where it starts.
#[derive(Clone, Debug)]
pub struct Located {
    /// The byte of the file at which the entry starts.
    pub start: u32,
    /// The entry; shared with earlier versions of the document where its bytes are equal.
    pub entry: Arc<Entry>,
}

/// A heading with all lines up to the next one, or the lines before the first.
#[derive(Debug, PartialEq)]
pub struct Entry {
    /// What it is.
    pub kind: EntryKind,
    /// Its bytes, line ends included.
    pub text: Box<str>,
    /// The name behind the heading's key, relative to the entry; empty where there is none.
    pub name: Span,
    /// Its lines.
    pub lines: Vec<Line>,
    /// What is wrong with it as text.
    pub problems: Vec<Problem>,
    /// What stood before it and changed how it was read.
    pub(crate) before: Before,
}

impl Document {
    /// Reads a file, whatever it holds. Texts above 4 GiB are beyond its spans.
    #[must_use]
    pub fn parse(text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let pieces = pieces(&text);
        let entries = pieces.iter().map(|piece| Arc::new(reader::entry(*piece))).collect();
        Self { entries: located(entries), text }
    }

    /// The document of `text`, with every entry of this one whose bytes are equal.
    #[must_use]
    pub fn edit(&self, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let entries = self.reuse(&pieces(&text));
        Self { entries: located(entries), text }
    }

    /// The file's text, byte for byte.
    #[must_use]
    pub const fn text(&self) -> &Arc<str> {
        &self.text
    }

    /// Its entries in order; their texts one behind the other are the file's text.
    #[must_use]
    pub fn entries(&self) -> &[Located] {
        &self.entries
    }

    /// Whether the file starts with a byte order mark, which is part of its first entry.
    #[must_use]
    pub fn has_bom(&self) -> bool {
        self.text.starts_with(lines::BOM)
    }

    /// Entries before and behind an edit stay in line; only between them does it
    /// take a look-up by text.
    fn reuse(&self, pieces: &[Piece<'_>]) -> Vec<Arc<Entry>> {
        let old = &self.entries;
        let pairs = old.iter().zip(pieces);
        let head = pairs.take_while(|(old, piece)| old.entry.is(piece)).count();
        let pairs = old.iter().rev().zip(pieces.iter().rev());
        let most = old.len().min(pieces.len()) - head;
        let tail = pairs.take(most).take_while(|(old, piece)| old.entry.is(piece)).count();
        let between = old.get(head..old.len() - tail).unwrap_or_default();
        let known: HashMap<&str, &Arc<Entry>> =
            between.iter().map(|old| (&*old.entry.text, &old.entry)).collect();
        let fresh = |piece: &Piece<'_>| {
            let same = known.get(piece.text).filter(|entry| entry.is(piece));
            same.map_or_else(|| Arc::new(reader::entry(*piece)), |entry| Arc::clone(entry))
        };
        let kept = |old: &Located| Arc::clone(&old.entry);
        let new = pieces.get(head..pieces.len() - tail).unwrap_or_default();
        let first = old.iter().take(head).map(kept);
        let last = old.iter().skip(old.len() - tail).map(kept);
        first.chain(new.iter().map(fresh)).chain(last).collect()
    }
}

impl Entry {
    /// Its name as written; empty where it has none.
    #[must_use]
    pub fn name_text(&self) -> &str {
        self.text_of(self.name)
    }

    /// The text of a span of it.
    #[must_use]
    pub fn text_of(&self, span: washline_text::Span) -> &str {
        span.text(&self.text)
    }

    /// Its fields in order, known or not.
    pub fn fields(&self) -> impl Iterator<Item = &Field> {
        self.lines.iter().filter_map(|line| match &line.what {
            LineKind::Field(field) => Some(&**field),
            _ => None,
        })
    }

    /// The first field with `key`.
    #[must_use]
    pub fn field(&self, key: Key) -> Option<&Field> {
        self.fields().find(|field| field.key == Some(key))
    }

    /// Its ingredient lines in order.
    pub fn ingredients(&self) -> impl Iterator<Item = &Ingredient> {
        self.lines.iter().filter_map(|line| match &line.what {
            LineKind::Ingredient(ingredient) => Some(&**ingredient),
            _ => None,
        })
    }

    /// Its steps in order.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.lines.iter().filter_map(|line| match &line.what {
            LineKind::Step(step) => Some(&**step),
            _ => None,
        })
    }

    /// Whether a mistake of notation keeps the formatter from touching it.
    #[must_use]
    pub fn unformattable(&self) -> bool {
        self.problems.iter().any(Problem::unformattable)
    }

    fn is(&self, piece: &Piece<'_>) -> bool {
        *self.text == *piece.text && self.before == piece.before
    }
}

/// Entries with the byte at which each starts.
fn located(entries: Vec<Arc<Entry>>) -> Vec<Located> {
    let mut start: u32 = 0;
    let place = |entry: Arc<Entry>| {
        let here = start;
        start = start.saturating_add(u32::try_from(entry.text.len()).unwrap_or(u32::MAX));
        Located { start: here, entry }
    };
    entries.into_iter().map(place).collect()
}
