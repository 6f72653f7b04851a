//! What a rule says of a text, as plain data.

use std::fmt;
use std::sync::Arc;

use crate::{Edit, Span};

/// How much a finding matters; the terms of the Language Server Protocol.
/// Ordered from the gravest to the lightest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Wrong, and someone could be hurt or charged wrongly, or nothing can be computed.
    Error,
    /// Very likely wrong.
    Warning,
    /// Worth knowing.
    Information,
    /// A matter of the house's taste.
    Hint,
}

impl Severity {
    /// All of them, gravest first.
    pub const ALL: [Self; 4] = [Self::Error, Self::Warning, Self::Information, Self::Hint];

    /// The word for it, in lower case.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Information => "information",
            Self::Hint => "hint",
        }
    }

    /// The severity that `word` names.
    #[must_use]
    pub fn from_name(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|severity| severity.name() == word)
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

/// A file of the workspace, by its place in the workspace's list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// Bytes of one file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The file.
    pub file: FileId,
    /// The bytes, counted from the start of the file.
    pub span: Span,
}

/// A second place that a finding speaks of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Related {
    /// Where.
    pub place: Place,
    /// What is there.
    pub message: String,
}

/// One way to mend a finding. Its edits are a single act.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What it does, as an editor's menu shows it.
    pub title: String,
    /// Whether what is poured, what a name refers to and what the house declares stay unchanged.
    pub safe: bool,
    /// The edits, sorted and not overlapping within each file.
    pub edits: Vec<(FileId, Edit)>,
}

/// The kind of entry a finding belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A drink.
    Drink,
    /// A house preparation.
    Prep,
    /// Something bought.
    Stock,
}

impl Kind {
    /// The word for it, as the heading spells it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drink => "drink",
            Self::Prep => "prep",
            Self::Stock => "stock",
        }
    }
}

/// The entry that a finding belongs to.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Entry {
    /// Drink, prep or stock.
    pub kind: Kind,
    /// Its name as written.
    pub name: Arc<str>,
}

/// One thing that a rule has to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The rule's name.
    pub rule: &'static str,
    /// How grave it is, after the house's own setting.
    pub severity: Severity,
    /// The words concerned.
    pub place: Place,
    /// The entry it belongs to; none for a finding of the whole file.
    pub entry: Option<Entry>,
    /// What is wrong, with the numbers.
    pub message: String,
    /// Why it matters at the bar, in one clause.
    pub why: String,
    /// What to do.
    pub help: String,
    /// Second places.
    pub related: Vec<Related>,
    /// Ways to mend it, best first.
    pub fixes: Vec<Fix>,
    /// What holds the finding still across moved lines and reformatting: `v1:` and a hash.
    pub fingerprint: String,
    /// Let off by a waiver of its entry.
    pub waived: bool,
    /// Known from the house's baseline.
    pub baselined: bool,
}

/// How the second place of a waived finding begins that gives the reason.
const WAIVED_BECAUSE: &str = "waived because ";

impl Finding {
    /// Lets it off, for a reason that stands at `place`.
    pub fn waive(&mut self, place: Place, reason: Option<&str>) {
        self.waived = true;
        if let Some(reason) = reason {
            let message = format!("{WAIVED_BECAUSE}{reason}");
            self.related.push(Related { place, message });
        }
    }

    /// Why it is let off, where the waiver says so.
    #[must_use]
    pub fn waived_because(&self) -> Option<&str> {
        let mut told = self.related.iter().rev().filter(|_| self.waived);
        told.find_map(|related| related.message.strip_prefix(WAIVED_BECAUSE))
    }
}
