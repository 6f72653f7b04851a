//! The rules: what a head bartender would say aloud of a spec book.
//!
//! Each rule is one file below `rules/`: its prose, its static description, one
//! function that finds, the words, the mend, its tests. [`check`] runs them all.

mod cause;
mod checked;
mod context;
mod convert;
mod draft;
mod known;
mod lines;
mod mend;
mod of_fields;
mod rule;
mod rules;
mod run;
mod together;
mod waiver;
mod words;

#[cfg(test)]
mod harness;

pub use checked::Checked;
pub use context::{Context, Report, Sink};
pub use convert::pourable;
pub use known::known;
pub use mend::{Mend, Mended, ROUNDS, Reach, Refused, mend};
pub use rule::{Check, Fixes, Group, Prose, Rule};
pub use rules::{all, find};
pub use run::{check, check_entry};
pub use together::{Circle, Part, Together};
pub use waiver::is_waivable;
