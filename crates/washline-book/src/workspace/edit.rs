//! From one state of the files to the next: what did not change is shared, what hangs on a
//! change is made anew.

use std::collections::BTreeSet;
use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};
use washline_text::{FileId, Kind};

use super::SourceFile;
use super::align::{Free, Match, align};
use super::held::{Held, NOWHERE, Users, place};
use super::source::kind_of;
use crate::compose::Composer;
use crate::names::{Names, hash};
use crate::says::Standards;
use crate::{EntryId, Made, Record, Referent, Settings};

impl Held {
    /// A workspace with no file.
    pub(super) fn empty(settings: Arc<Settings>) -> Self {
        Self {
            files: Vec::new(),
            firsts: vec![0],
            records: Vec::new(),
            places: Vec::new(),
            names: Arc::default(),
            standards: Standards::new(&[], settings),
            cycles: Arc::default(),
            users: Arc::default(),
            pours: Arc::default(),
            declaring: Arc::default(),
        }
    }

    /// The workspace of `files`, each of which is one of this workspace's files, a later state of
    /// one (its home is the same) or a new one.
    pub(super) fn next(&self, files: Vec<Arc<SourceFile>>) -> Self {
        let stand = self.frames_stand(&files);
        let standards = if stand { self.standards.clone() } else { self.standards.renewed(&files) };
        let mut laid = Laid::out(self, &files);
        let (names, asked) = self.names(&laid);
        let mut renewed = laid.anew.clone();
        let mut restated = Restated { before: self, now: &standards, told: None };
        for (record, renewed) in laid.records.iter_mut().zip(&mut renewed).filter(|(_, new)| !**new)
        {
            let restated = !stand && restated.is(record);
            if restated || (!asked.is_empty() && record.asks_any(&asked)) {
                *record = record.head();
                *renewed = true;
            }
        }
        let mut composer = Composer::new(&names, &standards, &laid.places, laid.records);
        let goods = laid.gone.iter().any(|record| record.kind != Kind::Drink);
        let unsettled = goods || laid.reordered;
        let cycles = composer.run(self, &mut renewed, unsettled);
        let mut next = Self {
            files,
            firsts: laid.firsts,
            records: composer.into_records(),
            places: laid.places.clone(),
            names: names.clone(),
            standards: standards.clone(),
            cycles: cycles.map_or_else(|| self.cycles.clone(), Arc::new),
            users: self.users.clone(),
            pours: self.pours.clone(),
            declaring: self.declaring.clone(),
        };
        let renewed: Vec<&Record> =
            next.records.iter().zip(&renewed).filter(|(_, new)| **new).map(|(r, _)| r).collect();
        next.users = self.users_with(&next, &laid.gone, &renewed, laid.reordered);
        let lost = self.lost(&laid.gone, &renewed);
        next.pours = self.pours_with(&lost, &renewed);
        next.declaring = self.declaring_with(&lost, &renewed);
        next
    }

    /// Whether no file was added or taken away, and none of what the files say of their books
    /// changed.
    fn frames_stand(&self, files: &[Arc<SourceFile>]) -> bool {
        let frames = |files: &[Arc<SourceFile>]| -> Vec<*const Arc<_>> {
            files.iter().map(|file| file.frame.as_ptr()).collect()
        };
        self.files.len() == files.len() && frames(&self.files) == frames(files)
    }

    /// The names of the new state, and the hashes of the names of goods that no longer lead
    /// where they did.
    fn names(&self, laid: &Laid<'_>) -> (Arc<Names>, FxHashSet<u64>) {
        let mut asked = FxHashSet::default();
        let anew =
            || laid.records.iter().zip(&laid.anew).filter(|(_, anew)| **anew).map(|(r, _)| r);
        if laid.gone.is_empty() && anew().next().is_none() && !laid.reordered {
            return (self.names.clone(), asked);
        }
        let mut names = (*self.names).clone();
        laid.gone.iter().for_each(|record| names.remove(record));
        anew().for_each(|record| names.add(record));
        let mut any = false;
        let mut changed = |kind: Kind, key: &str| {
            any = true;
            if kind != Kind::Drink {
                asked.insert(hash(key));
            }
        };
        let at = |id| place(&laid.places, id);
        for record in laid.gone.iter().copied().chain(anew()) {
            names.settle(record, &self.names, at, &mut changed);
        }
        if laid.reordered {
            names.settle_all(at, &mut changed);
        }
        if any { (Arc::new(names), asked) } else { (self.names.clone(), asked) }
    }

    fn users_with(
        &self,
        next: &Self,
        gone: &[&Record],
        renewed: &[&Record],
        reordered: bool,
    ) -> Arc<Users> {
        let mut touched: FxHashMap<EntryId, (FxHashSet<EntryId>, Vec<EntryId>)> =
            FxHashMap::default();
        for old in gone.iter().filter(|old| next.place(old.id) == NOWHERE) {
            for used in &old.uses {
                touched.entry(*used).or_default().0.insert(old.id);
            }
        }
        for new in renewed {
            let old = self.record(new.id).map_or(&[][..], |old| &old.uses);
            if old == new.uses {
                continue;
            }
            for used in old {
                touched.entry(*used).or_default().0.insert(new.id);
            }
            for used in &new.uses {
                touched.entry(*used).or_default().1.push(new.id);
            }
        }
        if reordered {
            for used in self.users.keys() {
                touched.entry(*used).or_default();
            }
        }
        if touched.is_empty() {
            return self.users.clone();
        }
        let mut users = (*self.users).clone();
        for (used, (less, more)) in touched {
            let kept = users.get(&used).into_iter().flat_map(|users| users.iter());
            let kept = kept.filter(|user| !less.contains(user)).copied();
            let all: BTreeSet<(u32, EntryId)> =
                kept.chain(more).map(|user| (next.place(user), user)).collect();
            let all: Arc<[EntryId]> = all.into_iter().map(|(_, user)| user).collect();
            if all.is_empty() {
                users.remove(&used);
            } else if users.get(&used) != Some(&all) {
                users.insert(used, all);
            }
        }
        Arc::new(users)
    }

    /// What was here of entries that are gone or made anew.
    fn lost<'a>(&'a self, gone: &[&'a Record], renewed: &[&Record]) -> Vec<&'a Record> {
        let went: FxHashSet<EntryId> = gone.iter().map(|record| record.id).collect();
        let old = renewed.iter().filter(|new| !went.contains(&new.id));
        let old = old.filter_map(|new| self.record(new.id));
        gone.iter().copied().chain(old).collect()
    }

    fn pours_with(&self, lost: &[&Record], renewed: &[&Record]) -> Arc<FxHashMap<Referent, u32>> {
        let mut changes: FxHashMap<Referent, i64> = FxHashMap::default();
        let all = |record: &&Record| -> Vec<Referent> {
            record.reads.iter().flat_map(|read| read.referents()).collect()
        };
        lost.iter().flat_map(all).for_each(|means| *changes.entry(means).or_default() -= 1);
        renewed.iter().flat_map(all).for_each(|means| *changes.entry(means).or_default() += 1);
        changes.retain(|_, change| *change != 0);
        let mut pours = self.pours.clone();
        for (means, change) in changes {
            let lines = i64::from(pours.get(&means).copied().unwrap_or(0)) + change;
            match u32::try_from(lines).unwrap_or(0) {
                0 => Arc::make_mut(&mut pours).remove(&means),
                lines => Arc::make_mut(&mut pours).insert(means, lines),
            };
        }
        pours
    }

    fn declaring_with(
        &self,
        lost: &[&Record],
        renewed: &[&Record],
    ) -> Arc<FxHashMap<Option<Arc<str>>, u32>> {
        let mut declaring = self.declaring.clone();
        for record in lost.iter().filter(|record| record.declares()) {
            if let Some(drinks) = Arc::make_mut(&mut declaring).get_mut(&record.book) {
                *drinks = drinks.saturating_sub(1);
            }
        }
        for record in renewed.iter().filter(|record| record.declares()) {
            *Arc::make_mut(&mut declaring).entry(record.book.clone()).or_default() += 1;
        }
        declaring
    }
}

/// The records of the new state, those that were not there before as heads.
struct Laid<'a> {
    records: Vec<Record>,
    /// Whether each is a head, by its place.
    anew: Vec<bool>,
    firsts: Vec<u32>,
    places: Vec<u32>,
    /// The earlier state of all that is no longer there, or no longer as it was.
    gone: Vec<&'a Record>,
    /// Whether entries that were there before stand in another order.
    reordered: bool,
}

impl<'a> Laid<'a> {
    fn out(old: &'a Held, files: &[Arc<SourceFile>]) -> Self {
        let mut laid = Self {
            records: Vec::with_capacity(old.records.len()),
            anew: Vec::with_capacity(old.records.len()),
            firsts: Vec::with_capacity(files.len() + 1),
            places: Vec::new(),
            gone: Vec::new(),
            reordered: false,
        };
        let mut free = Free::of(&old.places);
        let mut homes = Homes::of(old);
        let mut seen = vec![false; old.files.len()];
        for (at, file) in files.iter().enumerate() {
            laid.firsts.push(narrow(laid.records.len()));
            let id = FileId(narrow(at));
            match homes.find(at, file.home) {
                Some(was) => {
                    if let Some(seen) = seen.get_mut(was) {
                        *seen = true;
                    }
                    laid.file_again(old, was, file, id, &mut free);
                }
                None => laid.new_file(file, id, &mut free),
            }
        }
        laid.firsts.push(narrow(laid.records.len()));
        for (was, _) in seen.iter().enumerate().filter(|(_, seen)| !**seen) {
            laid.gone.extend(old.records_of(was));
        }
        laid.learn_places(old);
        laid
    }

    fn file_again(
        &mut self,
        old: &'a Held,
        was: usize,
        file: &Arc<SourceFile>,
        id: FileId,
        free: &mut Free<'_>,
    ) {
        let records = old.records_of(was);
        let Some(before) = old.files.get(was) else { return };
        if Arc::ptr_eq(before, file) {
            self.records.extend(records.iter().map(|record| record.moved(id, record.start)));
            self.anew.resize(self.records.len(), false);
            return;
        }
        let rebound = before.book != file.book;
        let mut kept: FxHashSet<EntryId> = FxHashSet::default();
        for (located, kind, found) in align(records, file.document.entries()) {
            let entry = match found {
                Match::Kept(record) if !rebound => {
                    kept.insert(record.id);
                    self.records.push(record.moved(id, located.start));
                    self.anew.push(false);
                    continue;
                }
                Match::Kept(record) => record.id,
                Match::Changed(id) => id,
                Match::New => free.take(),
            };
            let made = Made::head(located.entry.clone(), kind, file.book.clone());
            self.records.push(Record::new(entry, id, file.home, located.start, made));
            self.anew.push(true);
        }
        self.gone.extend(records.iter().filter(|record| !kept.contains(&record.id)));
    }

    fn new_file(&mut self, file: &SourceFile, id: FileId, free: &mut Free<'_>) {
        for located in file.document.entries() {
            let Some(kind) = kind_of(located.entry.kind) else { continue };
            let made = Made::head(located.entry.clone(), kind, file.book.clone());
            self.records.push(Record::new(free.take(), id, file.home, located.start, made));
            self.anew.push(true);
        }
    }

    /// Notes where each entry is, and whether any two that were there stand the other way round.
    fn learn_places(&mut self, old: &Held) {
        let most = self.records.iter().map(|record| record.id.0 as usize + 1).max().unwrap_or(0);
        self.places = vec![NOWHERE; most.max(old.places.len())];
        let mut last = 0;
        for (at, record) in (0_u32..).zip(&self.records) {
            if let Some(place) = self.places.get_mut(record.id.0 as usize) {
                *place = at;
            }
            let before = old.place(record.id);
            if before != NOWHERE {
                self.reordered |= before < last;
                last = before;
            }
        }
    }
}

/// Tells whose standards changed.
struct Restated<'a> {
    before: &'a Held,
    now: &'a Standards,
    /// Of the file asked of last: which it was and is, and whether its standards changed.
    told: Option<(FileId, FileId, bool)>,
}

impl Restated<'_> {
    fn is(&mut self, record: &Record) -> bool {
        let Some(old) = self.before.record(record.id) else { return true };
        match self.told {
            Some((was, is, changed)) if (was, is) == (old.file, record.file) => changed,
            _ => {
                let (was, is) = (self.before.standards.of(old.file), self.now.of(record.file));
                let changed = !std::ptr::eq(was, is) && was != is;
                self.told = Some((old.file, record.file, changed));
                changed
            }
        }
    }
}

/// Finds files again by their homes.
struct Homes<'a> {
    files: &'a [Arc<SourceFile>],
    by_home: Option<FxHashMap<u32, usize>>,
}

impl<'a> Homes<'a> {
    fn of(old: &'a Held) -> Self {
        Self { files: &old.files, by_home: None }
    }

    /// The place of the file that lives at `home`, most likely `at`.
    fn find(&mut self, at: usize, home: u32) -> Option<usize> {
        if self.files.get(at).is_some_and(|file| file.home == home) {
            return Some(at);
        }
        let files = self.files;
        let by_home = self.by_home.get_or_insert_with(|| {
            files.iter().enumerate().map(|(at, file)| (file.home, at)).collect()
        });
        by_home.get(&home).copied()
    }
}

fn narrow(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
