//! The lossless document: a file's text as a list of shared entries.

use std::collections::HashMap;
use std::sync::Arc;

use washline_text::{Common, Span};

use crate::lines::{Before, Piece, pieces, pieces_until};
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
        Self { entries: read(0, &pieces(&text), &[]), text }
    }

    /// The document of `text`, with every entry of this one whose bytes are equal.
    #[must_use]
    pub fn edit(&self, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let common = Common::of(&self.text, &text);
        self.edit_between(text, common)
    }

    /// As [`edit`](Self::edit), with what the texts have in `common`: only what stands
    /// around the edit is read.
    #[must_use]
    pub fn edit_between(&self, text: impl Into<Arc<str>>, common: Common) -> Self {
        let text = text.into();
        Self { entries: self.reuse(&text, common), text }
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

    /// Entries before and behind an edit stay; only between them is the text cut anew, and
    /// looked up among the entries that stood there.
    fn reuse(&self, text: &str, common: Common) -> Vec<Located> {
        let old = &self.entries;
        // Where an entry ends hangs on the heading of the next.
        let head = old.partition_point(|old| old.end() < common.head).saturating_sub(1);
        let (kept, rest) = old.split_at_checked(head).unwrap_or_default();
        let (from, before) = rest
            .first()
            .map_or((0, Before::default()), |first| (first.start as usize, first.entry.before));
        let (was, is) = (self.text.len() - common.tail, text.len() - common.tail);
        let follower = |at: usize, before: Before| {
            let start = narrow(at.checked_sub(is)? + was);
            let tail = rest.partition_point(|old| old.start < start);
            let old = rest.get(tail)?;
            (old.start == start && old.entry.before == before).then_some(tail)
        };
        let (pieces, end) =
            pieces_until(text, from, before, |at, before| follower(at, before).is_some());
        let tail = rest.partition_point(|old| (old.start as usize) < end - is + was);
        let (gone, tail) = rest.split_at_checked(tail).unwrap_or_default();
        let mut entries = Vec::with_capacity(kept.len() + pieces.len() + tail.len());
        entries.extend_from_slice(kept);
        entries.extend(read(from, &pieces, gone));
        let moved =
            |old: &Located| Located { start: old.start - narrow(was) + narrow(is), ..old.clone() };
        entries.extend(tail.iter().map(moved));
        entries
    }
}

impl Located {
    /// The byte of the file behind it.
    fn end(&self) -> usize {
        self.start as usize + self.entry.text.len()
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
    pub fn text_of(&self, span: Span) -> &str {
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
}

/// The entries of `pieces`, which stand one behind the other from the byte `from` on; each of
/// `known` is used again where it is one of them.
fn read(from: usize, pieces: &[Piece<'_>], known: &[Located]) -> Vec<Located> {
    let known: HashMap<&str, &Arc<Entry>> =
        known.iter().map(|old| (&*old.entry.text, &old.entry)).collect();
    let mut start = from;
    let place = |piece: &Piece<'_>| {
        let here = narrow(start);
        start += piece.text.len();
        let same = known.get(piece.text).filter(|entry| entry.before == piece.before);
        let entry = same.map_or_else(|| Arc::new(reader::entry(*piece)), |same| Arc::clone(same));
        Located { start: here, entry }
    };
    pieces.iter().map(place).collect()
}

fn narrow(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
