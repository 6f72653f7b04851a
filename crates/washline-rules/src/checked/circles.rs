//! What was found where entries are looked at together, circle by circle.

use std::collections::BTreeSet;

use rustc_hash::{FxHashMap, FxHashSet};
use washline_book::{Answers, EntryId, Record, Watched, Workspace};

use super::alike;
use super::anchor::Anchored;
use crate::run::within;
use crate::together::{Circle, parts, together};
use crate::{Rule, Sink, Together};

/// What was found so far in circles, in this state of the workspace and in earlier ones.
#[derive(Debug, Default)]
pub(super) struct Circles {
    /// In which circles each entry is, by its number.
    entries: Vec<Option<Member>>,
    /// What each entry asked, by its number.
    asked: Vec<Asked>,
    /// How many entries are in `entries`.
    count: usize,
    circles: FxHashMap<Key, OfCircle>,
    /// The state of the workspace that was last looked at.
    last: Option<Workspace>,
    /// The circles in which something was found.
    speaking: BTreeSet<Key>,
    /// The circles in which an edit of no entry of theirs may change what is found.
    open: FxHashSet<Key>,
}

/// What an entry asked of the workspace to know its circles.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Asked {
    Nothing,
    Tables,
    More,
}

/// A rule, by its place among those that look at entries together, and a circle of its.
type Key = (u8, Circle);

/// A circle, and what the entry says there, as in [`Part`](crate::Part).
type Parted = (Key, Option<u64>);

/// An entry as it was when last looked at.
#[derive(Debug)]
struct Member {
    record: Record,
    /// Its place in the workspace.
    place: usize,
    answers: Answers,
    parts: Box<[Parted]>,
}

/// What was found in one circle.
#[derive(Debug, Default)]
struct OfCircle {
    members: Vec<EntryId>,
    answers: Answers,
    found: Vec<Anchored>,
}

/// What an edit did to the circles.
#[derive(Debug, Default)]
struct Changes {
    /// Circles of which an entry is made anew, came or went.
    touched: FxHashSet<Key>,
    joined: FxHashMap<Key, Vec<EntryId>>,
    /// Whether two entries stand the other way round.
    reordered: bool,
}

impl Circles {
    /// What is found in circles.
    pub(super) fn found(&self) -> impl Iterator<Item = &Anchored> {
        self.speaking.iter().filter_map(|key| self.circles.get(key)).flat_map(|of| &of.found)
    }

    /// Brings what is found up to date.
    pub(super) fn look(&mut self, workspace: &Workspace) {
        if self.last.as_ref().is_some_and(|last| last.is(workspace)) {
            return;
        }
        let rules: Vec<_> = together().collect();
        let mut changes = self.follow(workspace, &rules);
        if changes.reordered {
            changes.touched.extend(self.circles.keys());
        }
        for key in &changes.touched {
            let joined = changes.joined.remove(key).unwrap_or_default();
            self.enrol(*key, joined);
        }
        let before = self.last.replace(workspace.clone());
        let stands = |of: &OfCircle| of.is_whole() && hold(&of.answers, before.as_ref(), workspace);
        let fell = |key: &&Key| self.circles.get(*key).is_some_and(|of| !stands(of));
        changes.touched.extend(self.open.iter().filter(fell));
        for key in changes.touched {
            self.look_at(workspace, &rules, key);
        }
    }

    /// Learns in which circles each entry is now.
    fn follow(&mut self, workspace: &Workspace, rules: &[(&'static Rule, Together)]) -> Changes {
        let mut changes = Changes::default();
        let mut watched: Option<Watched> = None;
        let mut last = 0;
        let mut known = 0;
        let steady = Steady::of(self.last.as_ref(), workspace);
        let records = workspace.records();
        for (place, record) in records.iter().enumerate() {
            let at = record.id.0 as usize;
            if self.entries.len() <= at {
                self.entries.resize_with(at + 1, || None);
                self.asked.resize(at + 1, Asked::More);
            }
            let (slot, asked) = (self.entries.get_mut(at), self.asked.get_mut(at));
            let (Some(slot), Some(asked)) = (slot, asked) else { continue };
            if steady.has(place, record, *asked) {
                known += 1;
                changes.reordered |= place < last;
                last = place;
                continue;
            }
            if let Some(member) = slot {
                known += 1;
                changes.reordered |= member.place < last;
                last = member.place;
                member.place = place;
                if alike(&member.record, record)
                    && hold(&member.answers, self.last.as_ref(), workspace)
                {
                    continue;
                }
            }
            let watched = watched.get_or_insert_with(|| workspace.watched());
            let context = within(watched.workspace(), record);
            let parts = (0_u8..).zip(rules).flat_map(|(rule, (_, together))| {
                let parts = parts(*together, &context).into_iter();
                parts.map(move |part| ((rule, part.circle), part.says))
            });
            let parts: Box<[Parted]> = parts.collect();
            let answers = watched.take();
            let old = slot.take();
            let restated = match (&old, &self.last) {
                (Some(old), Some(last)) => is_restated((&old.record, last), (record, workspace)),
                _ => true,
            };
            let old = old.map(|old| old.parts).unwrap_or_default();
            changes.learn(record.id, &old, &parts, restated);
            *asked = Asked::of(&answers);
            *slot = Some(Member { record: record.clone(), place, answers, parts });
        }
        if known < self.count {
            self.forget(workspace, &mut changes);
        }
        self.count = records.len();
        changes
    }

    /// Forgets the entries that are gone.
    fn forget(&mut self, workspace: &Workspace, changes: &mut Changes) {
        for slot in &mut self.entries {
            let gone = slot.as_ref().is_some_and(|old| workspace.record(old.record.id).is_none());
            if let Some(old) = slot.take_if(|_| gone) {
                changes.touched.extend(old.parts.iter().map(|(key, _)| *key));
            }
        }
    }

    /// Puts a circle's entries in the order of the workspace, with those that joined it and
    /// without those that left.
    fn enrol(&mut self, key: Key, joined: Vec<EntryId>) {
        let entries = &self.entries;
        let member = |id: &EntryId| entries.get(id.0 as usize).and_then(Option::as_ref);
        let of = self.circles.entry(key).or_default();
        of.members.extend(joined);
        of.members.retain(|id| {
            member(id).is_some_and(|member| member.parts.iter().any(|(of, _)| *of == key))
        });
        of.members.sort_unstable_by_key(|id| member(id).map(|member| member.place));
        of.members.dedup();
    }

    /// Looks at a circle.
    fn look_at(&mut self, workspace: &Workspace, rules: &[(&'static Rule, Together)], key: Key) {
        let Some((rule, together)) = rules.get(usize::from(key.0)) else { return };
        let Some(of) = self.circles.get_mut(&key) else { return };
        if of.members.is_empty() {
            self.circles.remove(&key);
            self.speaking.remove(&key);
            self.open.remove(&key);
            return;
        }
        let records: Vec<&Record> =
            of.members.iter().filter_map(|id| workspace.record(*id)).collect();
        let watched = workspace.watched();
        let mut sink = Sink::new(watched.workspace(), rule);
        (together.find)(watched.workspace(), key.1, &records, &mut sink);
        let drafts = sink.drafts;
        of.answers = watched.take();
        let anchor = |draft| Anchored::new(draft, None, workspace);
        of.found = drafts.into_iter().map(anchor).collect();
        if of.found.is_empty() {
            self.speaking.remove(&key);
        } else {
            self.speaking.insert(key);
        }
        if of.answers.is_empty() && of.is_whole() {
            self.open.remove(&key);
        } else {
            self.open.insert(key);
        }
    }
}

impl OfCircle {
    /// Whether all that is found can be kept while entries move.
    fn is_whole(&self) -> bool {
        self.found.iter().all(Anchored::is_whole)
    }
}

impl Asked {
    fn of(answers: &Answers) -> Self {
        match answers {
            none if none.is_empty() => Self::Nothing,
            tables if tables.are_of_tables() => Self::Tables,
            _ => Self::More,
        }
    }
}

/// Tells of which entries nothing changed since the state before, by that state alone.
struct Steady<'a> {
    before: &'a [Record],
    /// What entries may have asked of the workspace.
    most: Asked,
}

impl<'a> Steady<'a> {
    fn of(before: Option<&'a Workspace>, now: &Workspace) -> Self {
        let shared = before.is_some_and(|before| now.shares_tables_with(before));
        let most = if shared { Asked::Tables } else { Asked::Nothing };
        Self { before: before.map_or(&[], Workspace::records), most }
    }

    /// Whether `record` is the one at its place before, and what it asked would be answered the same.
    fn has(&self, place: usize, record: &Record, asked: Asked) -> bool {
        asked <= self.most && self.before.get(place).is_some_and(|old| alike(old, record))
    }
}

/// Whether answers that held in the state before still do.
fn hold(answers: &Answers, before: Option<&Workspace>, now: &Workspace) -> bool {
    match before {
        Some(before) => answers.hold_since(before, now),
        None => answers.still_hold(now),
    }
}

/// Whether other standards hold for an entry than did, or other words of its card count.
fn is_restated(old: (&Record, &Workspace), new: (&Record, &Workspace)) -> bool {
    let (was, is) = (old.1.settings_of(old.0), new.1.settings_of(new.0));
    let named = old.0.name == new.0.name && old.0.book == new.0.book && old.0.file == new.0.file;
    !named || !(std::ptr::eq(was, is) || was == is)
}

impl Changes {
    /// Takes in that an entry has other parts than it had, or was `restated`.
    fn learn(&mut self, id: EntryId, old: &[Parted], new: &[Parted], restated: bool) {
        let same = |(key, says): &Parted, others: &[Parted]| {
            !restated && says.is_some() && others.contains(&(*key, *says))
        };
        self.touched.extend(old.iter().filter(|part| !same(part, new)).map(|(key, _)| *key));
        self.touched.extend(new.iter().filter(|part| !same(part, old)).map(|(key, _)| *key));
        for (key, _) in new.iter().filter(|(key, _)| old.iter().all(|(of, _)| of != key)) {
            self.joined.entry(*key).or_default().push(id);
        }
    }
}
