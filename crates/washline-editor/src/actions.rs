//! What can be done at a place: the mends of its findings, and rewriting that changes nothing
//! of what is meant.

use std::fmt;
use std::str::FromStr;

use washline_book::Workspace;
use washline_text::{FileId, Finding, Span};

use crate::Edits;
use crate::cursor::clamp_span;

mod mend;
mod waive;

/// Something that can be done.
#[derive(Clone, Debug, PartialEq)]
pub struct Action {
    /// What it does, as a menu shows it.
    pub title: String,
    /// What sort of act it is.
    pub kind: ActionKind,
    /// Whether it is the one to take where several are offered.
    pub preferred: bool,
    /// The findings that it answers, by their places in the list given.
    pub answers: Vec<usize>,
    /// What it comes to.
    pub does: Does,
}

/// The sort of an act.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ActionKind {
    /// Mends one finding.
    QuickFix,
    /// Mends all that is safe to mend in the file.
    FixAll,
    /// Says the same in other words or units.
    Rewrite,
}

/// What an act comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Does {
    /// These edits.
    Edits(Edits),
    /// Edits that [`resolve`] computes when they are asked for.
    Deferred(Deferred),
}

/// An act that is computed when it is chosen. As text it is a word and numbers, and reads back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deferred {
    /// Mend all that is safe to mend.
    FixAll,
}

impl fmt::Display for Deferred {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FixAll => f.write_str("fix-all"),
        }
    }
}

/// The text is no act that can be computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoAct;

impl fmt::Display for NoAct {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("no such act")
    }
}

impl std::error::Error for NoAct {}

impl FromStr for Deferred {
    type Err = NoAct;

    fn from_str(text: &str) -> Result<Self, NoAct> {
        match text {
            "fix-all" => Ok(Self::FixAll),
            _ => Err(NoAct),
        }
    }
}

/// What can be done in `span` of `file`. `findings` are those of the file, or of the
/// workspace; what they offer is offered where they stand.
#[must_use]
pub fn actions(
    workspace: &Workspace,
    file: FileId,
    span: Span,
    findings: &[Finding],
) -> Vec<Action> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let span = clamp_span(source.document.text(), span);
    let here: Vec<(usize, &Finding)> = findings
        .iter()
        .enumerate()
        .filter(|(_, finding)| finding.place.file == file && !finding.waived)
        .filter(|(_, finding)| touch(finding.place.span, span))
        .collect();
    let mut out = mend::quick_fixes(&here);
    out.extend(mend::fix_all(file, findings));
    out.extend(waive::actions(workspace, &here));
    out
}

/// The edits of a deferred act on `file`; none where it no longer fits the text.
#[must_use]
pub fn resolve(workspace: &Workspace, file: FileId, deferred: &Deferred) -> Option<Edits> {
    match deferred {
        Deferred::FixAll => mend::all(workspace, file),
    }
}

/// Whether two spans share a byte, or an end.
const fn touch(a: Span, b: Span) -> bool {
    a.start <= b.end && b.start <= a.end
}
