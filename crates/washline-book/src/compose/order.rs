//! Preps in an order in which what a prep needs comes first.

use rustc_hash::FxHashMap;
use washline_text::Kind;

use super::Composer;
use crate::workspace::place;
use crate::{EntryId, Record, Referent};

impl Composer<'_> {
    /// The places of `preps` in an order in which what a prep needs comes first, and the rings
    /// of preps that need themselves.
    pub(super) fn prep_order(
        &self,
        preps: &[usize],
        renewed: &[bool],
    ) -> (Vec<usize>, Vec<Vec<EntryId>>) {
        let mut needs: FxHashMap<usize, Vec<usize>> = FxHashMap::default();
        for at in preps {
            let Some(record) = self.records.get(*at) else { continue };
            let new = renewed.get(*at).is_some_and(|new| *new);
            let uses = if new { self.named_by(record) } else { record.uses.clone() };
            let mut needed: Vec<usize> = uses
                .into_iter()
                .map(|id| place(self.places, id) as usize)
                .filter(|at| self.records.get(*at).is_some_and(|r| r.kind == Kind::Prep))
                .collect();
            needed.sort_unstable();
            needed.dedup();
            needs.insert(*at, needed);
        }
        let mut order = Order::default();
        for at in preps {
            order.visit(*at, &needs);
        }
        let id = |at: &usize| self.records.get(*at).map(|record| record.id);
        let rings = order.rings.iter().map(|ring| ring.iter().filter_map(id).collect()).collect();
        (order.places, rings)
    }

    /// The entries that the lines and garnishes of `record` mean.
    fn named_by(&self, record: &Record) -> Vec<EntryId> {
        let reader = self.reader(record, None, None);
        let (lines, garnishes) = (reader.lines(&record.entry), reader.garnishes(&record.entry));
        let meant = lines.iter().chain(&garnishes).flat_map(crate::Read::referents);
        let entries = meant.filter_map(|referent| match referent {
            Referent::Entry(id) => Some(id),
            Referent::Reference(_) => None,
        });
        entries.collect()
    }
}

/// A walk from need to need.
#[derive(Default)]
struct Order {
    /// Whether all that a prep needs is in the order.
    state: FxHashMap<usize, bool>,
    places: Vec<usize>,
    rings: Vec<Vec<usize>>,
}

impl Order {
    /// Depth first without recursion: a chain of preps can be as long as the book.
    fn visit(&mut self, root: usize, needs: &FxHashMap<usize, Vec<usize>>) {
        if self.state.contains_key(&root) {
            return;
        }
        let mut path = vec![(root, 0)];
        self.state.insert(root, false);
        while let Some((at, next)) = path.last_mut() {
            let at = *at;
            let Some(need) = needs.get(&at).and_then(|needed| needed.get(*next)).copied() else {
                self.state.insert(at, true);
                self.places.push(at);
                path.pop();
                continue;
            };
            *next += 1;
            match self.state.get(&need) {
                Some(true) => {}
                Some(false) => {
                    let on = path.iter().map(|(on, _)| *on);
                    self.rings.push(on.skip_while(|on| *on != need).collect());
                }
                None => {
                    self.state.insert(need, false);
                    path.push((need, 0));
                }
            }
        }
    }
}
