//! A workspace and what is found in it, kept while it is edited.

use std::collections::BTreeSet;
use std::sync::{Arc, Mutex, PoisonError};

use washline_book::{Record, Workspace};
use washline_text::{FileId, Finding};

use crate::draft::{Draft, number};
use crate::run;
use crate::together::in_order;

mod anchor;
mod circles;
mod entries;
mod namesakes;
mod states;

use anchor::Anchored;
use circles::Circles;
use entries::Entries;
use namesakes::Namesakes;
use states::States;

/// A workspace and what is found in it.
///
/// ```
/// use washline_book::{Settings, Workspace};
/// use washline_rules::Checked;
/// use washline_text::FileId;
///
/// let text = "drink: Lantern\n  60 ml gin\n  1 splash quarry water\n";
/// let files = vec![("a.pour".into(), text.into())];
/// let checked = Checked::new(Workspace::new(files, Settings::default()));
/// let edited = checked.edit(FileId(0), text.replace("60", "45").into());
/// assert!(!edited.findings_of(FileId(0)).is_empty());
/// ```
///
/// [`edit`](Self::edit) and [`next`](Self::next) give the next state and leave this one as it
/// is; all states share what was found. [`findings_of`](Self::findings_of) gives just what
/// [`check`](crate::check) gives of that file, and looks again only at entries of that file that
/// were made anew or for which the workspace would answer otherwise than it did; nothing is
/// looked at before a file of its is asked for, save for the few rules that look at entries
/// together; those look again at the [circles](crate::Circle) that an edit touched. Findings are kept relative to their entries, so that what moves needs no second look.
///
/// It may be shared between threads; those that ask at once wait for each other.
#[derive(Clone, Debug)]
pub struct Checked {
    workspace: Workspace,
    kept: Arc<Mutex<Kept>>,
}

/// What was found so far, in this state of the workspace and in earlier ones.
#[derive(Debug, Default)]
struct Kept {
    states: States,
    namesakes: Namesakes,
    entries: Entries,
    circles: Circles,
}

impl Checked {
    /// Takes `workspace`, nothing of it looked at yet.
    #[must_use]
    pub fn new(workspace: Workspace) -> Self {
        Self { workspace, kept: Arc::default() }
    }

    /// The workspace.
    #[must_use]
    pub const fn workspace(&self) -> &Workspace {
        &self.workspace
    }

    /// The next state: `workspace`, made of this one's by an edit or a
    /// [revision](Workspace::revised).
    #[must_use]
    pub fn next(&self, workspace: Workspace) -> Self {
        Self { workspace, kept: self.kept.clone() }
    }

    /// The next state, with the text of one file changed.
    #[must_use]
    pub fn edit(&self, file: FileId, text: Arc<str>) -> Self {
        self.next(self.workspace.edit(file, text))
    }

    /// The findings of one file, in order: start, end, rule, message.
    #[must_use]
    pub fn findings_of(&self, file: FileId) -> Vec<Finding> {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.circles.look(&self.workspace);
        self.of(file, &mut kept)
    }

    /// Every finding of the workspace, in the order of outputs.
    #[must_use]
    pub fn findings(&self) -> Vec<Finding> {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.circles.look(&self.workspace);
        run::in_order(&self.workspace, |file| self.of(file, &mut kept))
    }

    fn of(&self, file: FileId, kept: &mut Kept) -> Vec<Finding> {
        let workspace = &self.workspace;
        kept.states.turn_to(workspace);
        // Findings of entries that go by one name are told apart by their number.
        let mut files: BTreeSet<FileId> = BTreeSet::from([file]);
        files.extend(kept.namesakes.files(workspace, &kept.states, file));
        let mut sink = crate::Sink::new(workspace, run::fallback());
        for file in &files {
            run::beside_entries(workspace, *file, &mut sink);
        }
        let mut drafts: Vec<Draft> = sink.drafts;
        let records = || files.iter().flat_map(|file| workspace.records_of(*file));
        kept.entries.look_at(workspace, &kept.states, records());
        for record in records() {
            let found = kept.entries.of(record).iter();
            drafts.extend(found.filter_map(|found| found.at(workspace)));
        }
        let here = |found: &&Anchored| found.file(workspace).is_some_and(|f| files.contains(&f));
        let found = kept.circles.found().filter(here);
        let mut together: Vec<Draft> = found.filter_map(|found| found.at(workspace)).collect();
        in_order(&mut together);
        drafts.append(&mut together);
        let mut findings = number(workspace, drafts);
        findings.retain(|finding| finding.place.file == file);
        run::finished(workspace, file, findings)
    }
}

/// Whether `a` and `b` are one entry, made once.
fn alike(a: &Record, b: &Record) -> bool {
    a.id == b.id && a.is_made_alike(b)
}
