//! What was read of one entry, on its way into its record.

use washline_reference::Sort;
use washline_syntax::Role;

use crate::{Allergens, EntryId, Made, Method, Read};

/// What was read of an entry with lines.
pub(super) struct Parts {
    pub reads: Vec<Read>,
    pub garnishes: Vec<Read>,
    pub method: Method,
    pub allergens: Allergens,
    pub uses: Vec<EntryId>,
    pub reaches: Vec<(u16, usize)>,
    pub unread: bool,
    pub asked: Box<[u64]>,
}

impl Parts {
    /// A top that was given what the glass has room for fills it anew.
    pub(super) fn open_tops(&mut self) {
        for read in &mut self.reads {
            let word = matches!(read.amount.as_str(), "top" | "fill");
            read.vague |= read.role == Role::Top && word && read.second.is_none();
        }
    }

    pub(super) fn put(self, made: &mut Made) {
        made.reads = self.reads;
        made.garnishes = self.garnishes;
        made.method = self.method;
        made.allergens = self.allergens;
        made.uses = self.uses;
        made.reaches = self.reaches;
        made.unread = self.unread;
        made.asked = self.asked;
    }
}

/// Whether a line that matters has no size, so that nothing can be computed. What seasons
/// (a leaf, a pinch of spice) may have none.
pub(super) fn has_no_size(reads: &[Read]) -> bool {
    reads.iter().any(|read| read.counted && read.vague && !seasons(read))
}

fn seasons(read: &Read) -> bool {
    read.sort_is(&[
        Sort::Herb,
        Sort::Spice,
        Sort::Flower,
        Sort::Fruit,
        Sort::Vegetable,
        Sort::Salt,
        Sort::Gum,
        Sort::Tea,
        Sort::Nut,
        Sort::Gas,
        Sort::Ice,
        Sort::Other,
    ]) && read.ingredient().is_some_and(|known| !known.liquid)
}
