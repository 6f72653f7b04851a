//! What a comparison comes to, as plain data.

use std::sync::Arc;

use washline_book::{Figure, Standing};
use washline_measure::Interval;
use washline_text::{Kind, Severity};

/// Everything that differs between two states.
#[derive(Clone, Debug, Default)]
pub struct Review {
    /// Entries that were written, taken out or rewritten.
    pub changes: Vec<Change>,
    /// Entries that nobody touched and that are not what they were.
    pub carried: Vec<Carried>,
    /// Entries whose layout, spelling or comments alone differ.
    pub layout: Vec<Named>,
    /// Files whose line ends alone differ.
    pub line_ends: Vec<String>,
    /// What the house's standards say now.
    pub standards: Vec<StandardChange>,
    /// Findings, new, gone and still there.
    pub findings: Findings,
    /// Merges that are not resolved.
    pub conflicts: Vec<Conflict>,
    /// How many entries the later state holds.
    pub entries: usize,
}

/// An entry and where it stands.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Named {
    /// Its file as outputs call it.
    pub file: String,
    /// The line of its heading, from 1.
    pub line: u32,
    /// Drink, prep or stock.
    pub kind: Kind,
    /// Its name as written.
    pub name: Arc<str>,
}

/// What became of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// It is new.
    Added,
    /// It is gone.
    Removed,
    /// It has another name, and may stand elsewhere or say something else too.
    Renamed,
    /// It stands in another file, and may say something else too.
    Moved,
    /// It says something else.
    Changed,
}

/// An entry that somebody touched.
#[derive(Clone, Debug)]
pub struct Change {
    /// What became of it.
    pub what: What,
    /// Where it stands; of one that is gone, where it stood.
    pub entry: Named,
    /// Where it stood under which name, if it was there.
    pub before: Option<Named>,
    /// Its ingredient lines.
    pub lines: Vec<LineChange>,
    /// Whether the lines that stayed stand in another order.
    pub reordered: bool,
    /// Whether the order of its lines decides how it looks: it is layered.
    pub layered: bool,
    /// Its fields.
    pub fields: Vec<FieldChange>,
    /// Its steps.
    pub steps: Vec<StepChange>,
    /// Its figures.
    pub moves: Vec<Move>,
    /// Whether nothing could be computed before, and after.
    pub unread: (bool, bool),
    /// Its allergens.
    pub allergens: Allergens,
    /// Of one that is gone or has another name, who still asks for the old one.
    pub still_used: Vec<StillUsed>,
}

impl Change {
    /// Whether it was there before and still is.
    #[must_use]
    pub const fn has_both(&self) -> bool {
        self.before.is_some() && !matches!(self.what, What::Removed)
    }
}

/// An entry that nobody touched, which something that it pours has changed.
#[derive(Clone, Debug)]
pub struct Carried {
    /// The entry.
    pub entry: Named,
    /// What was changed: the entries, nearest first; empty where it is the house's standards.
    pub because: Vec<Named>,
    /// The way from the entry down to the first of them: what it pours, what that pours.
    pub through: Vec<Arc<str>>,
    /// Its figures.
    pub moves: Vec<Move>,
    /// Whether nothing could be computed before, and after.
    pub unread: (bool, bool),
    /// Its allergens.
    pub allergens: Allergens,
}

/// What became of an ingredient line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineKind {
    /// It is new.
    Added,
    /// It is gone.
    Dropped,
    /// There is more or less of it.
    Amount,
    /// Something else goes in.
    Swapped,
    /// Something else is said of it.
    Said,
}

/// A line before and after, as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineChange {
    /// What became of it.
    pub kind: LineKind,
    /// The line that stood there.
    pub before: Option<String>,
    /// The line that stands there.
    pub after: Option<String>,
}

/// A field before and after, as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldChange {
    /// The key.
    pub key: String,
    /// What it said.
    pub before: Option<String>,
    /// What it says.
    pub after: Option<String>,
}

/// A step before and after, as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepChange {
    /// What it said; none if it is new.
    pub before: Option<String>,
    /// What it says; none if it is gone.
    pub after: Option<String>,
    /// Whether it only stands elsewhere among the steps.
    pub moved: bool,
}

/// A figure before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// Its name in outputs for tools.
    pub id: String,
    /// Its name for people.
    pub label: String,
    /// Its unit for people.
    pub unit: String,
    /// What it is.
    pub figure: Figure,
    /// What it was.
    pub before: Option<Interval>,
    /// What it has become.
    pub after: Option<Interval>,
    /// Half the 95 % range of the difference, of what differs alone: what both states do not
    /// know in the same way cancels. None where one is missing, for a cost, and for what differs
    /// by next to nothing.
    pub doubt: Option<f64>,
    /// Whether the difference is too small to be told from none.
    pub within: bool,
    /// How it stands against its family's band.
    pub stood: Option<Stood>,
}

/// A figure against its family's band.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stood {
    /// The band, in words; the later one.
    pub band: String,
    /// Where it stood.
    pub before: Option<Standing>,
    /// Where it stands.
    pub after: Option<Standing>,
}

/// In which way a drink is no longer what it was, in the words of the bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// More acid to its sugar.
    Tarter,
    /// More sugar to its acid.
    Sweeter,
    /// Less sugar, and no acid to speak of.
    Drier,
    /// More alcohol by volume.
    Stronger,
    /// Less.
    Weaker,
    /// More in the glass.
    Longer,
    /// Less in the glass.
    Shorter,
    /// It costs more.
    Dearer,
    /// It costs less.
    Cheaper,
}

impl Turn {
    /// The word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tarter => "tarter",
            Self::Sweeter => "sweeter",
            Self::Drier => "drier",
            Self::Stronger => "stronger",
            Self::Weaker => "weaker",
            Self::Longer => "longer",
            Self::Shorter => "shorter",
            Self::Dearer => "dearer",
            Self::Cheaper => "cheaper",
        }
    }
}

/// The allergens that differ.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Allergens {
    /// What it carries now and did not.
    pub gained: Vec<AllergenChange>,
    /// What it carried and does not now.
    pub lost: Vec<AllergenChange>,
    /// What nobody vouches for now.
    pub unknown: Vec<String>,
    /// What nobody vouched for, and somebody does now, or it is no longer in it.
    pub known: Vec<String>,
}

impl Allergens {
    /// Whether none differs.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self == &Self::default()
    }
}

/// One allergen, and how it comes or came.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct AllergenChange {
    /// The allergen's name.
    pub allergen: &'static str,
    /// Which kind of it; empty where nobody says.
    pub detail: String,
    /// The way it comes: the line, what that pours, down to what carries it; empty where the
    /// entry itself says so.
    pub through: Vec<String>,
    /// Only some makers' have it.
    pub perhaps: bool,
}

/// Who still asks for what is gone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StillUsed {
    /// Who.
    pub by: Named,
    /// The name on its line.
    pub line: String,
    /// What that name means now: something else of that name; none if it leads nowhere.
    pub now: Option<String>,
}

/// A key of `washline.toml` before and after, as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandardChange {
    /// The file.
    pub file: String,
    /// The key with its table; empty where the whole file came or went.
    pub key: String,
    /// What it said.
    pub before: Option<String>,
    /// What it says.
    pub after: Option<String>,
}

/// The findings of both states, by fingerprint. Those let off by a waiver do not count.
#[derive(Clone, Debug, Default)]
pub struct Findings {
    /// Only in the later state.
    pub new: Vec<Told>,
    /// Only in the earlier state, places by it.
    pub gone: Vec<Told>,
    /// In both.
    pub still: Vec<Told>,
}

/// A finding as a review tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// Its rule.
    pub rule: &'static str,
    /// How grave it is.
    pub severity: Severity,
    /// What is wrong.
    pub message: String,
    /// The entry it belongs to: kind and name.
    pub entry: Option<washline_text::Entry>,
    /// Its file.
    pub file: String,
    /// Its line, from 1.
    pub line: u32,
    /// Its fingerprint.
    pub fingerprint: String,
    /// Of one that is gone: whether a waiver lets it off.
    pub waived: bool,
}

/// A file in which a merge has left both versions.
#[derive(Clone, Debug)]
pub struct Conflict {
    /// The file.
    pub file: String,
    /// The line of its first mark, from 1.
    pub line: u32,
    /// What differs between the two: before is our side, after is theirs.
    pub sides: Vec<Change>,
}
