//! How a problem is put together, and which ones keep an entry from being laid out.

use washline_text::{Edit, Span};

use crate::{Mend, Problem};

/// The rules whose findings leave an entry byte for byte as it is. A merge conflict
/// is among them: its markers stand at the start of a line; and a character that nobody sees,
/// which layout might lose in silence.
const UNFORMATTABLE: &[&str] = &[
    "syntax",
    "unreadable-amount",
    "missing-name",
    "empty-step",
    "misplaced-line",
    "merge-conflict",
    "hidden-character",
];

impl Problem {
    /// What breaks `rule` at `span`, and what to do.
    pub(crate) fn new(
        rule: &'static str,
        span: Span,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Self {
        Self { rule, span, message: message.into(), help: help.into(), mends: Vec::new() }
    }

    /// With a mend that leaves what is poured and meant as it is.
    #[must_use]
    pub(crate) fn safely(self, title: impl Into<String>, edits: Vec<Edit>) -> Self {
        self.mend(title, true, edits)
    }

    /// With a mend that a person has to choose.
    #[must_use]
    pub(crate) fn perhaps(self, title: impl Into<String>, edits: Vec<Edit>) -> Self {
        self.mend(title, false, edits)
    }

    fn mend(mut self, title: impl Into<String>, safe: bool, edits: Vec<Edit>) -> Self {
        self.mends.push(Mend { title: title.into(), safe, edits });
        self
    }

    /// Whether an entry with this problem is left as it is by the formatter.
    #[must_use]
    pub fn unformattable(&self) -> bool {
        UNFORMATTABLE.contains(&self.rule)
    }
}
