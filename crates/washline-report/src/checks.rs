//! What the tests of several outputs stand on.

use std::ops::Range;
use std::sync::Arc;

use washline_book::{Settings, Workspace};
use washline_text::{Entry, FileId, Finding, Kind, Place, Severity, Span};

use crate::Outcome;

/// A workspace of `files`, name and text.
pub(crate) fn workspace(files: &[(&str, &str)]) -> Workspace {
    let files = files.iter().map(|(name, text)| (Arc::from(*name), Arc::from(*text))).collect();
    Workspace::new(files, Settings::default())
}

/// Hands `check` the outcome of `findings` in `files`.
pub(crate) fn outcome(
    files: &[(&str, &str)],
    findings: Vec<Finding>,
    check: impl FnOnce(&Outcome<'_>),
) {
    let workspace = workspace(files);
    let mut outcome = Outcome::default();
    (outcome.books, outcome.entries) = (files.len(), 1);
    let names = files.iter().map(|(name, _)| (*name).to_owned()).collect();
    outcome.add(&workspace, names, findings);
    outcome.sort();
    check(&outcome);
}

/// A warning about bytes of a file.
pub(crate) fn finding(file: u32, bytes: Range<u32>) -> Finding {
    Finding {
        rule: "measures-disagree",
        severity: Severity::Warning,
        place: place(file, bytes),
        entry: Some(Entry { kind: Kind::Drink, name: Arc::from("Quarry Lane") }),
        message: "1 oz is 29.6 ml, the line says 20 ml: 32 % apart".to_owned(),
        why: "two bartenders pour two drinks".to_owned(),
        help: "keep one of the two".to_owned(),
        related: Vec::new(),
        fixes: Vec::new(),
        fingerprint: "v1:0123456789abcdef".to_owned(),
        waived: false,
        baselined: false,
    }
}

/// Bytes of a file.
pub(crate) fn place(file: u32, bytes: Range<u32>) -> Place {
    Place { file: FileId(file), span: Span::new(bytes.start, bytes.end) }
}
