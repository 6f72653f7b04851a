//! The notation: text to lines to entries.
//!
//! Reading is lossless, total and local: a [`Document`]'s text is the file's
//! text, every text gives a document, and an edit re-reads the entry it touches.

mod document;
mod key;
mod technique;
mod tree;

pub use document::{Document, Entry, Located};
pub use key::Key;
pub use technique::Technique;
pub use tree::{
    Act, Amount, AmountWord, EntryKind, Field, Garnish, Heading, Ice, Ingredient, Line, LineKind,
    Mend, Part, Placed, Problem, Property, Role, Second, StatedDilution, Step, Value,
};
