//! What was asked of a workspace, so that what came of it can be kept while the answers hold.

use std::sync::{Arc, Mutex, PoisonError};

use washline_syntax::Entry;
use washline_text::Kind;

use super::{Held, SourceFile, Workspace};
use crate::names::{Names, Shard};
use crate::{EntryId, Made};

/// A workspace that takes down what it is asked.
///
/// It answers as the workspace it was made of. The [`Answers`] of a check say later whether the
/// same check of a later workspace would be answered the same, and so needs not be run again.
/// Every way into a workspace is taken down; an entry that is held is the caller's to compare
/// ([`Record::is_made_alike`](crate::Record::is_made_alike)). Standards are not: entries whose
/// standards change are made anew.
#[derive(Clone, Debug)]
pub struct Watched {
    workspace: Workspace,
    log: Arc<Log>,
}

/// What was answered.
#[derive(Clone, Debug, Default)]
pub struct Answers(Vec<Answer>);

/// The answers so far.
#[derive(Debug, Default)]
pub(super) struct Log(Mutex<Vec<Answer>>);

#[derive(Clone, Debug)]
pub(super) enum Answer {
    /// What an entry is.
    Record(EntryId, Option<Arc<Made>>),
    /// Who uses an entry, of all of whom more may have been asked by place.
    Users(EntryId, Option<Arc<[EntryId]>>),
    /// Who goes by a name.
    Name(Kind, Box<str>, Option<Arc<Shard>>),
    /// What names lead to.
    Names(Arc<Names>),
    /// What the file at a home says above its entries.
    Frame(u32, Option<Arc<[Arc<Entry>]>>),
    /// A whole file.
    File(u32, Option<Arc<SourceFile>>),
    /// Whether the drinks of a book say what they contain.
    Declares(Option<Arc<str>>, bool),
    /// Whether there is a drink on the list.
    Drinks(bool),
    /// Preps that need themselves.
    Cycles(Arc<Vec<Vec<EntryId>>>),
    /// Anything else.
    All(Arc<Held>),
}

impl Log {
    pub(super) fn note(&self, answer: Answer) {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).push(answer);
    }

    fn take(&self) -> Vec<Answer> {
        std::mem::take(&mut *self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Watched {
    pub(super) fn of(workspace: &Workspace) -> Self {
        let log = Arc::new(Log::default());
        Self { workspace: workspace.with_log(log.clone()), log }
    }

    /// The workspace to ask.
    #[must_use]
    pub const fn workspace(&self) -> &Workspace {
        &self.workspace
    }

    /// What was answered since this was called last.
    #[must_use]
    pub fn take(&self) -> Answers {
        Answers(self.log.take())
    }
}

impl Answers {
    /// Whether nothing was asked, so that no other state of the workspace answers otherwise.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether each is of a table that all entries share: they hold wherever a workspace
    /// [shares those](Workspace::shares_tables_with).
    #[must_use]
    pub fn are_of_tables(&self) -> bool {
        let of_table = |answer: &Answer| {
            matches!(answer, Answer::Name(..) | Answer::Users(..) | Answer::Declares(..))
        };
        self.0.iter().all(of_table)
    }

    /// Whether `workspace` would answer the same, of which `before`, another state of it,
    /// would: what the two share is not looked up.
    #[must_use]
    pub fn hold_since(&self, before: &Workspace, workspace: &Workspace) -> bool {
        let (then, now) = (before.held(), workspace.held());
        let same = |answer: &Answer| match answer {
            Answer::Name(..) => Arc::ptr_eq(&then.names, &now.names),
            Answer::Users(..) => Arc::ptr_eq(&then.users, &now.users),
            Answer::Declares(..) => Arc::ptr_eq(&then.declaring, &now.declaring),
            _ => false,
        };
        self.0.iter().all(|answer| same(answer) || answer.still_holds(now))
    }

    /// Whether `workspace`, a later state of the one that gave them, would answer the same.
    #[must_use]
    pub fn still_hold(&self, workspace: &Workspace) -> bool {
        self.0.iter().all(|answer| answer.still_holds(workspace.held()))
    }
}

impl Workspace {
    /// Whether this state is `other` itself.
    #[must_use]
    pub fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.held, &other.held)
    }

    /// Whether this state and `other` have the same names.
    #[must_use]
    pub fn shares_names_with(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.held.names, &other.held.names)
    }

    /// Whether this state and `other` have the same names, users of entries, and books whose
    /// drinks say what they contain.
    #[must_use]
    pub fn shares_tables_with(&self, other: &Self) -> bool {
        let (a, b) = (&self.held, &other.held);
        self.shares_names_with(other)
            && Arc::ptr_eq(&a.users, &b.users)
            && Arc::ptr_eq(&a.declaring, &b.declaring)
    }
}

impl Answer {
    fn still_holds(&self, held: &Arc<Held>) -> bool {
        match self {
            Answer::Record(id, made) => alike(held.made(*id), made.as_ref()),
            Answer::Users(id, users) => match (held.users.get(id), users) {
                (None, None) => true,
                (Some(now), Some(then)) => Arc::ptr_eq(now, then),
                _ => false,
            },
            Answer::Name(kind, key, shard) => alike(held.names.shard(*kind, key), shard.as_ref()),
            Answer::Names(names) => Arc::ptr_eq(&held.names, names),
            Answer::Frame(home, frame) => {
                let now = held.file_at(*home).map(|file| &file.frame);
                match (now, frame) {
                    (Some(now), Some(then)) => Arc::ptr_eq(now, then),
                    (None, None) => true,
                    _ => false,
                }
            }
            Answer::File(home, file) => alike(held.file_at(*home), file.as_ref()),
            Answer::Declares(book, declares) => held.declares(book) == *declares,
            Answer::Drinks(any) => held.has_drinks() == *any,
            Answer::Cycles(cycles) => Arc::ptr_eq(&held.cycles, cycles),
            Answer::All(all) => Arc::ptr_eq(held, all),
        }
    }
}

fn alike<T>(now: Option<&Arc<T>>, then: Option<&Arc<T>>) -> bool {
    match (now, then) {
        (Some(now), Some(then)) => Arc::ptr_eq(now, then),
        (None, None) => true,
        _ => false,
    }
}
