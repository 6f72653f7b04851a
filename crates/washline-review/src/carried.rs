//! What a changed entry carries into those that pour it, through any number of preps.

use std::collections::VecDeque;
use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};

use crate::Named;
use crate::pair::Pairs;
use crate::state::Items;

/// Something that changed: an entry of the later state, or one that is gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Source {
    /// An entry of the later state.
    Now(usize),
    /// An entry of the earlier state that is gone.
    Gone(usize),
}

/// Why an entry is not what it was.
#[derive(Debug, Default)]
pub(crate) struct Why {
    /// What changed, nearest first.
    pub because: Vec<Named>,
    /// The way from the entry to the first of them.
    pub through: Vec<Arc<str>>,
}

/// Both states with what was touched in them.
pub(crate) struct Web<'a> {
    pub before: &'a Items<'a>,
    pub after: &'a Items<'a>,
    pub pairs: &'a Pairs,
    pub touched: &'a FxHashSet<Source>,
}

impl Web<'_> {
    /// What was changed below the entry at `start` of the later state, in either state.
    pub(crate) fn why(&self, start: usize) -> Why {
        let start = Source::Now(start);
        let mut came: FxHashMap<Source, Source> = FxHashMap::default();
        let mut queue = VecDeque::from([start]);
        let mut why = Why::default();
        while let Some(at) = queue.pop_front() {
            if at != start && self.touched.contains(&at) {
                if why.because.is_empty() {
                    why.through = self.way(at, start, &came);
                }
                why.because.extend(self.named(at));
            }
            for next in self.below(at) {
                if next != start && !came.contains_key(&next) {
                    came.insert(next, at);
                    queue.push_back(next);
                }
            }
        }
        why
    }

    /// What an entry pours now, and what it poured.
    fn below(&self, at: Source) -> Vec<Source> {
        let was = match at {
            Source::Now(a) => self.pairs.from.get(a).copied().flatten(),
            Source::Gone(b) => Some(b),
        };
        let now = match at {
            Source::Now(a) => Some(a),
            Source::Gone(_) => None,
        };
        let here = now.into_iter().flat_map(|a| self.after.uses(a)).map(Source::Now);
        let there = was
            .into_iter()
            .flat_map(|b| self.before.uses(b))
            .map(|b| self.pairs.to.get(b).copied().flatten().map_or(Source::Gone(b), Source::Now));
        here.chain(there).collect()
    }

    fn way(&self, end: Source, start: Source, came: &FxHashMap<Source, Source>) -> Vec<Arc<str>> {
        let mut way = Vec::new();
        let mut at = end;
        while at != start {
            way.extend(self.named(at).map(|named| named.name));
            let Some(before) = came.get(&at) else { break };
            at = *before;
        }
        way.reverse();
        way
    }

    fn named(&self, at: Source) -> Option<Named> {
        match at {
            Source::Now(a) => self.after.get(a),
            Source::Gone(b) => self.before.get(b),
        }
        .map(|item| item.named())
    }
}
