//! A review for people and for tools.

mod html;
mod json;
mod markdown;
mod text;
mod words;

pub use html::html;
pub use json::json;
pub use markdown::{MOST_CHARACTERS, markdown};
pub use text::text;
pub use words::headline;

/// How outputs call the two states.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sides {
    /// The earlier one: a revision as it was named.
    pub base: String,
    /// The later one: a revision, `the index`, `the working tree`.
    pub head: String,
}
