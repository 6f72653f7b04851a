//! The lossless document: a file's text as a list of shared entries.

use std::sync::Arc;

use washline_text::Span;

use crate::{EntryKind, Line, Problem};

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
}
