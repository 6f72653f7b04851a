//! What a run found, written for people and for tools: pure functions into text.

pub mod baseline;
#[cfg(test)]
mod checks;
pub mod escape;
mod excerpt;
mod explain;
pub mod figures;
mod grid;
mod json;
mod narrated;
mod number;
mod outcome;
mod paint;
pub mod review;
mod short;
mod source;
mod stand_in;
pub mod standards;
pub mod summary;
mod text;

pub use explain::{explain, rules};
pub use json::json;
pub use narrated::narrated;
pub use outcome::{File, Outcome, Tally};
pub use short::short;
pub use source::Source;
pub use text::{Style, text};
