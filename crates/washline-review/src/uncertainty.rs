//! How far a difference of two figures is known.
//!
//! What both states do not know in the same way cancels: the acid of the lemons, how much a
//! shake melts, how a line that stayed is poured. What belongs to one state alone (a line whose
//! amount changed, a strength stated anew, another way of mixing) counts in full. So the
//! uncertainty of a difference is that of what differs (JCGM 100:2008, 5.2: correlated inputs).

use std::cell::RefCell;
use std::collections::BTreeMap;

use rustc_hash::FxHashMap;
use washline_book::{Cause, Effects, EntryId, Figure, Input};
use washline_syntax::Key;

use crate::lines::{self, Lines};
use crate::meaning;
use crate::pair::Pairs;
use crate::state::Items;

/// What is needed to say which doubts are common to both states.
pub(crate) struct Doubts<'a> {
    before: &'a Items<'a>,
    after: &'a Items<'a>,
    pairs: &'a Pairs,
    /// The lines that stayed, of pairs that were asked for.
    lines: RefCell<FxHashMap<usize, BTreeMap<u32, u32>>>,
}

/// The effects of the inputs on both figures of one pair.
pub(crate) struct Both<'a> {
    doubts: &'a Doubts<'a>,
    room: usize,
    before: Effects,
    after: Effects,
}

impl<'a> Doubts<'a> {
    pub(crate) fn new(before: &'a Items<'a>, after: &'a Items<'a>, pairs: &'a Pairs) -> Self {
        Self { before, after, pairs, lines: RefCell::default() }
    }

    /// The effects on the entries at `b` and `a`.
    pub(crate) fn of(&'a self, b: usize, a: usize) -> Option<Both<'a>> {
        let (one, other) = (self.before.get(b)?, self.after.get(a)?);
        Some(Both {
            doubts: self,
            room: one.room,
            before: one.workspace.effects(one.record),
            after: other.workspace.effects(other.record),
        })
    }

    /// The input of the earlier state as the later one knows it; none where it is another.
    fn same(&self, room: usize, input: Input) -> Option<Input> {
        match input {
            Input::Property(..) | Input::Measure(_) | Input::Size(..) => Some(input),
            Input::Line(entry, line) => {
                let (entry, line) = self.same_line(room, entry, line)?;
                Some(Input::Line(entry, line))
            }
            Input::Choice(entry, line) => {
                let (entry, line) = self.same_line(room, entry, line)?;
                Some(Input::Choice(entry, line))
            }
            Input::Stated(entry, part) => {
                let (b, a) = self.pair(room, entry)?;
                let (one, other) = (self.before.get(b)?.record, self.after.get(a)?.record);
                let keys = [Key::Abv, Key::Sugar, Key::Brix, Key::Acid, Key::Fat, Key::Salt];
                let same = keys.into_iter().all(|key| one.number(key) == other.number(key));
                same.then_some(Input::Stated(other.id.0, part))
            }
            Input::Loss(entry, loss) => {
                let (_, a) = self.pair(room, entry)?;
                Some(Input::Loss(self.after.get(a)?.record.id.0, loss))
            }
        }
    }

    fn pair(&self, room: usize, entry: u32) -> Option<(usize, usize)> {
        let b = self.before.at(room, EntryId(entry));
        Some((b, (*self.pairs.to.get(b)?)?))
    }

    fn same_line(&self, room: usize, entry: u32, line: u32) -> Option<(u32, u32)> {
        let (b, a) = self.pair(room, entry)?;
        let (one, other) = (self.before.get(b)?.record, self.after.get(a)?.record);
        if *one.entry.text == *other.entry.text {
            return Some((other.id.0, line));
        }
        let mut known = self.lines.borrow_mut();
        let same = known.entry(b).or_insert_with(|| {
            let Lines { same, .. } =
                lines::compare(&meaning::poured(&one.entry), &meaning::poured(&other.entry));
            same
        });
        Some((other.id.0, *same.get(&line)?))
    }
}

impl Both<'_> {
    /// One standard uncertainty of the difference of `figure`; of the ratio, of its logarithm.
    /// None where the figure is not reckoned from inputs.
    pub(crate) fn of_difference(&self, figure: Figure) -> Option<f64> {
        // What a cause did before is taken from what it does now; a line may stand for several
        // doubts, which come in the same order on both sides.
        let mut moved: BTreeMap<Cause, Vec<f64>> = BTreeMap::new();
        for (cause, by) in self.after.on(figure) {
            moved.entry(cause.clone()).or_default().push(by);
        }
        let mut seen: BTreeMap<Cause, usize> = BTreeMap::new();
        let mut squares = 0.0;
        let mut any = !moved.is_empty();
        for (cause, by) in self.before.on(figure) {
            any = true;
            let common = match cause {
                Cause::Input(input) => self.doubts.same(self.room, *input).map(Cause::Input),
                Cause::Melt(model) => Some(Cause::Melt(model.clone())),
            };
            let slot = common.and_then(|cause| {
                let nth = seen.entry(cause.clone()).or_insert(0);
                *nth += 1;
                moved.get_mut(&cause)?.get_mut(*nth - 1)
            });
            match slot {
                Some(slot) => *slot -= by,
                None => squares += by * by,
            }
        }
        squares += moved.values().flatten().map(|by| by * by).sum::<f64>();
        any.then(|| squares.sqrt()).filter(|u| u.is_finite())
    }
}
