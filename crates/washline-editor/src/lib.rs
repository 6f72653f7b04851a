//! What an editor asks of a spec book, answered as plain data in byte offsets.
//!
//! Every question takes the [`Workspace`](washline_book::Workspace), a file and a byte or a
//! span of it. Every question has an answer: a byte past the end is the end, a byte inside a
//! character is its start, a file that is not there has nothing in it. No answer runs the
//! rules over the workspace, and none knows of a protocol.

mod cursor;
mod folds;
mod fuzzy;
mod lenses;
mod selection;
mod switches;
mod symbols;

#[cfg(test)]
mod harness;

use washline_text::{Edit, FileId};

pub use folds::{Fold, FoldKind, folds};
pub use lenses::{Lens, lenses};
pub use selection::selection;
pub use switches::Switches;
pub use symbols::{FoundSymbol, Symbol, SymbolKind, document_symbols, workspace_symbols};

/// Edits of several files as a single act: sorted by file, then by place, and not overlapping.
pub type Edits = Vec<(FileId, Edit)>;
