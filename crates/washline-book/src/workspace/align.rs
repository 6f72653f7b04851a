//! Which entries of an edited file are entries that it had before.

use std::collections::VecDeque;
use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};
use washline_syntax::{Entry, Located};
use washline_text::Kind;

use super::held::NOWHERE;
use super::source::kind_of;
use crate::{EntryId, Record};

/// What an entry of the new file is.
pub(super) enum Match<'a> {
    /// The record of an earlier entry with the same bytes.
    Kept(&'a Record),
    /// An entry that was changed.
    Changed(EntryId),
    /// An entry that was not there before.
    New,
}

/// Each drink, prep and stock entry of `entries` with what it was among `old`, the records of the
/// same file before. Each of `old` is taken once at most.
///
/// What stands before and behind all changes is found by its place, what was moved by its bytes;
/// of the rest, an entry is the one between the same neighbours that was of its kind.
pub(super) fn align<'a, 'b>(
    old: &'a [Record],
    entries: &'b [Located],
) -> Vec<(&'b Located, Kind, Match<'a>)> {
    let new: Vec<(&Located, Kind)> =
        entries.iter().filter_map(|at| Some((at, kind_of(at.entry.kind)?))).collect();
    let same = |(old, (new, _)): &(&Record, &(&Located, Kind))| Arc::ptr_eq(&old.entry, &new.entry);
    let head = old.iter().zip(&new).take_while(same).count();
    let most = old.len().min(new.len()) - head;
    let tail = old.iter().rev().zip(new.iter().rev()).take(most).take_while(same).count();
    let mut out: Vec<(&Located, Kind, Match<'a>)> =
        new.iter().map(|(located, kind)| (*located, *kind, Match::New)).collect();
    let kept = |out: &mut Vec<(&'b Located, Kind, Match<'a>)>, at: usize, record: &'a Record| {
        if let Some(slot) = out.get_mut(at) {
            slot.2 = Match::Kept(record);
        }
    };
    for (at, record) in old.iter().take(head).enumerate() {
        kept(&mut out, at, record);
    }
    for (back, record) in old.iter().rev().take(tail).enumerate() {
        kept(&mut out, new.len() - 1 - back, record);
    }
    let rest = old.get(head..old.len() - tail).unwrap_or_default();
    let between = out.get_mut(head..new.len() - tail).unwrap_or_default();
    let mut by_bytes: FxHashMap<*const Entry, VecDeque<&Record>> = FxHashMap::default();
    for record in rest {
        by_bytes.entry(Arc::as_ptr(&record.entry)).or_default().push_back(record);
    }
    let mut taken: FxHashSet<EntryId> = FxHashSet::default();
    for (located, _, slot) in between.iter_mut() {
        let same = by_bytes.get_mut(&Arc::as_ptr(&located.entry));
        if let Some(record) = same.and_then(VecDeque::pop_front) {
            taken.insert(record.id);
            *slot = Match::Kept(record);
        }
    }
    let mut open = rest.iter().filter(|record| !taken.contains(&record.id)).peekable();
    for (_, kind, slot) in between.iter_mut().filter(|(.., slot)| matches!(slot, Match::New)) {
        if let Some(record) = open.next_if(|record| record.kind == *kind) {
            *slot = Match::Changed(record.id);
        }
    }
    out
}

/// Numbers that no entry has.
pub(super) struct Free<'a> {
    places: &'a [u32],
    next: usize,
}

impl<'a> Free<'a> {
    pub(super) const fn of(places: &'a [u32]) -> Self {
        Self { places, next: 0 }
    }

    pub(super) fn take(&mut self) -> EntryId {
        while self.places.get(self.next).is_some_and(|place| *place != NOWHERE) {
            self.next += 1;
        }
        let id = EntryId(u32::try_from(self.next).unwrap_or(u32::MAX));
        self.next += 1;
        id
    }
}
