//! What an editor asks of a spec book, answered as plain data in byte offsets.
//!
//! Every question takes the [`Workspace`](washline_book::Workspace), a file and a byte or a
//! span of it. Every question has an answer: a byte past the end is the end, a byte inside a
//! character is its start, a file that is not there has nothing in it. No answer runs the
//! rules over the workspace, and none knows of a protocol.

mod actions;
mod calls;
mod completion;
mod cursor;
mod definition;
mod folds;
mod fuzzy;
mod hints;
mod hover;
mod layout;
mod lenses;
mod links;
mod naming;
mod plain;
mod rename;
mod selection;
mod switches;
mod symbols;
mod tokens;
mod topic;
mod unread;

#[cfg(test)]
mod harness;
#[cfg(test)]
mod total;

use washline_text::{Edit, FileId};

pub use actions::{Action, ActionKind, Deferred, Does, NoAct, actions, resolve};
pub use calls::{Call, CallItem, incoming, outgoing, prepare_calls};
pub use completion::{Item, ItemKind, completion};
pub use definition::{
    Highlight, Target, declaration, definition, highlights, implementation, references,
};
pub use folds::{Fold, FoldKind, folds};
pub use hints::{Hint, hints};
pub use hover::{Hover, describe, hover};
pub use layout::{format_document, format_range, format_typed};
pub use lenses::{Lens, lenses};
pub use links::{Link, LinkTarget, links, settings_links};
pub use plain::plain;
pub use rename::{RenameRefused, Renaming, prepare_rename, rename};
pub use selection::selection;
pub use switches::Switches;
pub use symbols::{FoundSymbol, Symbol, SymbolKind, document_symbols, workspace_symbols};
pub use tokens::{TOKEN_KINDS, Token, TokenKind, tokens};
pub use topic::{NoTopic, Topic};

/// Edits of several files as a single act: sorted by file, then by place, and not overlapping.
pub type Edits = Vec<(FileId, Edit)>;
