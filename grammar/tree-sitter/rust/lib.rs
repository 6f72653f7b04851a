//! The `.pour` notation for tree-sitter: its language and the queries of editors.

use tree_sitter_language::LanguageFn;

#[expect(unsafe_code, reason = "the generated parser is C")]
unsafe extern "C" {
    fn tree_sitter_pour() -> *const ();
}

/// The language.
#[expect(unsafe_code, reason = "the function is that of the parser compiled beside this crate")]
pub const LANGUAGE: LanguageFn = unsafe { LanguageFn::from_raw(tree_sitter_pour) };

/// What is shown how, with the capture names that editors share.
pub const HIGHLIGHTS: &str = include_str!("../queries/highlights.scm");

/// What folds.
pub const FOLDS: &str = include_str!("../queries/folds.scm");

/// What is indented.
pub const INDENTS: &str = include_str!("../queries/indents.scm");
