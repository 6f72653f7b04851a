//! The states of a workspace that are looked at one after the other.

use washline_book::{Answers, Workspace};

/// The state that is looked at, and the one that was looked at before it.
#[derive(Debug, Default)]
pub(super) struct States {
    now: Option<Workspace>,
    before: Option<Workspace>,
    stamp: Stamp,
}

/// The number of a state, in the order in which they were looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Stamp(u64);

impl States {
    /// Turns to a state, unless that is the one that is looked at.
    pub(super) fn turn_to(&mut self, workspace: &Workspace) {
        if !self.now.as_ref().is_some_and(|now| now.is(workspace)) {
            self.before = self.now.replace(workspace.clone());
            self.stamp.0 += 1;
        }
    }

    /// The number of the state that is looked at.
    pub(super) const fn stamp(&self) -> Stamp {
        self.stamp
    }

    /// The state of that number, where it is the one before.
    pub(super) fn at(&self, stamp: Stamp) -> Option<&Workspace> {
        self.before.as_ref().filter(|_| stamp.0 + 1 == self.stamp.0)
    }

    /// Whether `answers` that held in the state of that number hold in `workspace`, the one that
    /// is looked at.
    pub(super) fn hold(&self, answers: &Answers, stamp: Stamp, workspace: &Workspace) -> bool {
        match self.at(stamp) {
            _ if stamp == self.stamp => true,
            Some(before) => answers.hold_since(before, workspace),
            None => answers.still_hold(workspace),
        }
    }
}
