//! Plain data about text: spans, the line index, edits, findings and fixes.
//!
//! Everything here is measured in bytes of one file's text (`u32`, half open).
//! Lines and columns are computed in one place, [`LineIndex`], so that every
//! output and every editor is told the same pair.

mod common;
mod edit;
mod ends;
mod finding;
mod fold;
mod index;
mod span;

pub use common::Common;
pub use edit::{Edit, EditError, apply};
pub use ends::line_end;
pub use finding::{Entry, FileId, Finding, Fix, Kind, Place, Related, Severity};
pub use fold::fold;
pub use index::{Columns, LineIndex, Position};
pub use span::Span;
