//! The notation: text to lines to entries.
//!
//! Reading is lossless, total and local: a [`Document`]'s text is the file's
//! text, every text gives a document, and an edit re-reads the entry it touches.
//! It is linear too: no line is looked at more often than a fixed number of times.

mod amount;
mod blank;
mod comment;
mod conflict;
mod document;
mod doubles;
mod field;
mod heading;
mod hidden;
mod ingredient;
mod key;
mod lines;
mod near;
mod other;
mod problem;
pub mod property;
mod reader;
mod run;
mod slice;
mod step;
mod technique;
mod tree;
mod value;
pub mod vocabulary;

pub use amount::unit;
pub use conflict::{conflict_choices, conflict_sides};
pub use document::{Document, Entry, Located};
pub use ingredient::{name_beside, role_of};
pub use key::Key;
pub use step::{ice_of, technique_at_start};
pub use technique::Technique;
pub use tree::{
    Act, Amount, AmountWord, EntryKind, Field, Garnish, Heading, Ice, Ingredient, Line, LineKind,
    Mend, Part, Placed, Problem, Property, Role, Second, StatedDilution, Step, Value,
};
