//! What can be done at a place: the mends of its findings, and rewriting that changes nothing
//! of what is meant.

use std::fmt;
use std::str::FromStr;

use washline_book::Workspace;
use washline_measure::Unit;
use washline_text::{FileId, Finding, Span};

use crate::Edits;
use crate::cursor::clamp_span;

mod convert;
mod declare;
mod extract;
mod mend;
mod scale;
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
    /// Makes an entry of its own of what a line says.
    Extract,
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
    /// Write the amounts of the lines in a span in another unit.
    Convert {
        /// The span of the file.
        span: Span,
        /// The unit.
        unit: Unit,
    },
    /// Scale the lines of an entry to a number of serves.
    Scale {
        /// The byte of the file at which the entry starts.
        entry: u32,
        /// The number of serves.
        serves: u32,
    },
    /// Make a prep of lines of a drink.
    Extract {
        /// The span of the file.
        span: Span,
    },
}

impl fmt::Display for Deferred {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FixAll => f.write_str("fix-all"),
            Self::Convert { span, unit } => {
                write!(f, "convert {} {} {}", span.start, span.end, unit.name())
            }
            Self::Scale { entry, serves } => write!(f, "scale {entry} {serves}"),
            Self::Extract { span } => write!(f, "extract {} {}", span.start, span.end),
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
        let words: Vec<&str> = text.splitn(4, ' ').collect();
        let number = |word: &str| word.parse::<u32>().map_err(|_| NoAct);
        match *words.as_slice() {
            ["fix-all"] => Ok(Self::FixAll),
            ["convert", start, end, unit] => Ok(Self::Convert {
                span: Span::new(number(start)?, number(end)?),
                unit: Unit::from_words(unit).ok_or(NoAct)?,
            }),
            ["scale", entry, serves] => {
                Ok(Self::Scale { entry: number(entry)?, serves: number(serves)? })
            }
            ["extract", start, end] => {
                Ok(Self::Extract { span: Span::new(number(start)?, number(end)?) })
            }
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
    out.extend(convert::actions(workspace, file, span));
    out.extend(scale::actions(workspace, file, span));
    out.extend(declare::action(workspace, file, span));
    out.extend(extract::action(workspace, file, span));
    out
}

/// The edits of a deferred act on `file`; none where it no longer fits the text.
#[must_use]
pub fn resolve(workspace: &Workspace, file: FileId, deferred: &Deferred) -> Option<Edits> {
    match deferred {
        Deferred::FixAll => mend::all(workspace, file),
        Deferred::Convert { span, unit } => convert::resolve(workspace, file, *span, *unit),
        Deferred::Scale { entry, serves } => scale::resolve(workspace, file, *entry, *serves),
        Deferred::Extract { span } => extract::resolve(workspace, file, *span),
    }
}

/// Whether two spans share a byte, or an end.
const fn touch(a: Span, b: Span) -> bool {
    a.start <= b.end && b.start <= a.end
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_act_reads_back() {
        let span = Span::new(3, 9);
        let acts = [
            Deferred::FixAll,
            Deferred::Convert { span, unit: Unit::ImpOz },
            Deferred::Scale { entry: 7, serves: 10 },
            Deferred::Extract { span },
        ];
        for act in acts {
            assert_eq!(act.to_string().parse(), Ok(act));
        }
        for word in ["", "scale 1", "scale 1 -2", "convert 1 2 gin", "fix-all 1"] {
            assert_eq!(word.parse::<Deferred>(), Err(NoAct));
        }
    }
}
