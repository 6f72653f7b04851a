//! What the house standards come to for a file, and which line of which file said so.

mod json;
mod rows;
mod text;

use std::collections::BTreeMap;

use washline_book::Settings;
use washline_text::{LineIndex, Span};

pub use json::json;
pub use text::text;

/// The standards of one file or folder, with where they were said.
#[derive(Debug)]
pub struct Standards<'a> {
    /// How outputs call the file or folder.
    pub name: &'a str,
    /// Its path from the house's root, by which the house's folders know it; a folder ends in `/`.
    pub path: &'a str,
    /// What holds.
    pub settings: &'a Settings,
    /// The house's files, each before the one that it starts from.
    pub files: &'a [SettingsFile],
    /// Where the book says what the house does not: the house's key, and the place.
    pub book: BTreeMap<String, Origin>,
}

/// A `washline.toml` that was read.
#[derive(Clone, Debug)]
pub struct SettingsFile {
    /// How outputs call it.
    pub name: String,
    /// Its text.
    pub text: String,
    /// What it says: the key to the bytes of its value.
    pub said: BTreeMap<String, Span>,
}

/// Where something was said; line and column count from 1, a column is a Unicode character.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// How outputs call the file.
    pub file: String,
    /// The line.
    pub line: u32,
    /// The column.
    pub column: u32,
}

impl SettingsFile {
    /// Where the file says `key`.
    #[must_use]
    pub fn origin(&self, key: &str) -> Option<Origin> {
        let span = self.said.get(key)?;
        Some(Origin::of(&self.name, &self.text, &LineIndex::new(&self.text), span.start))
    }
}

impl Origin {
    /// The place of the byte `offset` of a file.
    #[must_use]
    pub fn of(file: &str, text: &str, index: &LineIndex, offset: u32) -> Self {
        let position = index.position(text, offset, washline_text::Columns::Scalars);
        Self { file: file.to_owned(), line: position.line + 1, column: position.column + 1 }
    }
}
