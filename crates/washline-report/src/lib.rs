//! What a run found, written for people and for tools: pure functions into text.

mod annotations;
pub mod baseline;
#[cfg(test)]
mod checks;
pub mod escape;
mod excerpt;
mod explain;
pub mod figures;
mod grid;
mod json;
mod junit;
pub mod keys;
mod line_hash;
mod narrated;
mod number;
mod outcome;
pub mod pages;
mod paint;
pub mod review;
mod sarif;
mod short;
mod source;
mod stand_in;
pub mod standards;
pub mod summary;
mod text;

pub use annotations::annotations;
pub use explain::{explain, rules};
pub use json::json;
pub use junit::junit;
pub use narrated::narrated;
pub use outcome::{File, Outcome, Tally};
pub use sarif::sarif;
pub use short::short;
pub use source::Source;
pub use text::{Style, text};
