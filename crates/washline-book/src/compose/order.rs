//! Preps in an order in which what a prep needs comes first.

use rustc_hash::FxHashMap;
use washline_text::Kind;

use super::Composer;
use crate::{EntryId, Referent};

impl Composer<'_> {
    /// Preps in an order in which what a prep needs comes first; rings are noted and left out.
    pub(super) fn prep_order(&mut self, preps: &[usize]) -> Vec<usize> {
        let mut needs: FxHashMap<usize, Vec<usize>> = FxHashMap::default();
        for at in preps {
            let Some(record) = self.records.get(*at) else { continue };
            let reader = self.reader(record, None);
            let mut needed: Vec<usize> = reader
                .lines(&record.entry)
                .iter()
                .flat_map(|read| read.referents().collect::<Vec<_>>())
                .filter_map(|referent| match referent {
                    Referent::Entry(id) => Some(id.0 as usize),
                    Referent::Reference(_) => None,
                })
                .filter(|id| self.records.get(*id).is_some_and(|r| r.kind == Kind::Prep))
                .collect();
            needed.sort_unstable();
            needed.dedup();
            needs.insert(*at, needed);
        }
        let mut order = Vec::new();
        let mut state: FxHashMap<usize, bool> = FxHashMap::default();
        for at in preps {
            self.visit(*at, &needs, &mut state, &mut order);
        }
        order
    }

    /// Depth first without recursion: a chain of preps can be as long as the book.
    fn visit(
        &mut self,
        root: usize,
        needs: &FxHashMap<usize, Vec<usize>>,
        state: &mut FxHashMap<usize, bool>,
        order: &mut Vec<usize>,
    ) {
        if state.contains_key(&root) {
            return;
        }
        let mut path = vec![(root, 0)];
        state.insert(root, false);
        while let Some((at, next)) = path.last_mut() {
            let at = *at;
            let Some(need) = needs.get(&at).and_then(|needed| needed.get(*next)).copied() else {
                state.insert(at, true);
                order.push(at);
                path.pop();
                continue;
            };
            *next += 1;
            match state.get(&need) {
                Some(true) => {}
                Some(false) => {
                    let ring: Vec<EntryId> = path
                        .iter()
                        .skip_while(|(on, _)| *on != need)
                        .filter_map(|(on, _)| self.records.get(*on).map(|record| record.id))
                        .collect();
                    self.cycles.push(ring);
                }
                None => {
                    state.insert(need, false);
                    path.push((need, 0));
                }
            }
        }
    }
}
