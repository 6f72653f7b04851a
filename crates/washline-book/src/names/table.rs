//! Names and who goes by them, kept so that a copy with a few of them changed is cheap.

use std::hash::BuildHasher;
use std::sync::Arc;

use rustc_hash::{FxBuildHasher, FxHashMap};
use washline_text::Kind;

use crate::EntryId;

/// Who goes by a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Owner {
    /// The entry.
    pub id: EntryId,
    /// The home of its file: a number that it keeps through edits.
    pub home: u32,
    /// The book of its file.
    pub book: Option<Arc<str>>,
    /// Drink, prep or stock.
    pub kind: Kind,
    /// The name as this entry writes it.
    pub written: Arc<str>,
    /// Whether it is the name in the heading; else one from `also:`.
    pub heading: bool,
}

pub(crate) type Shard = FxHashMap<Arc<str>, Vec<Owner>>;

/// More shards make a change cheaper to copy, fewer a copy without a change.
const SHARDS: usize = 64;

/// Folded names to their owners, in shards that copies share until they change.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    shards: Vec<Arc<Shard>>,
}

impl Default for Table {
    fn default() -> Self {
        Self { shards: vec![Arc::default(); SHARDS] }
    }
}

impl Table {
    /// The owners of `key`, in the order of the workspace.
    pub(super) fn owners(&self, key: &str) -> &[Owner] {
        let shard = self.shards.get(shard_of(key));
        shard.and_then(|shard| shard.get(key)).map_or(&[], Vec::as_slice)
    }

    /// What stands for the owners of `key`, and of some other names: the same while none of
    /// them changes.
    pub(super) fn shard(&self, key: &str) -> Option<&Arc<Shard>> {
        self.shards.get(shard_of(key))
    }

    /// All names, in no order.
    pub(super) fn keys(&self) -> impl Iterator<Item = &str> {
        self.shards.iter().flat_map(|shard| shard.keys()).map(AsRef::as_ref)
    }

    /// Adds an owner behind the others, unless the entry goes by the name already.
    pub(super) fn add(&mut self, key: &str, owner: Owner) {
        let Some(shard) = self.shards.get_mut(shard_of(key)) else { return };
        let owners = Arc::make_mut(shard).entry(Arc::from(key)).or_default();
        if owners.iter().all(|other| other.id != owner.id) {
            owners.push(owner);
        }
    }

    /// Takes the entry `id` from the owners of `key`.
    pub(super) fn remove(&mut self, key: &str, id: EntryId) {
        let Some(shard) = self.shards.get_mut(shard_of(key)) else { return };
        if !shard.contains_key(key) {
            return;
        }
        let shard = Arc::make_mut(shard);
        let Some(owners) = shard.get_mut(key) else { return };
        owners.retain(|owner| owner.id != id);
        if owners.is_empty() {
            shard.remove(key);
        }
    }

    /// Puts the owners of `key` in the order of the workspace.
    pub(super) fn sort(&mut self, key: &str, place: impl Fn(EntryId) -> u32) {
        if self.owners(key).is_sorted_by_key(|owner| place(owner.id)) {
            return;
        }
        let Some(shard) = self.shards.get_mut(shard_of(key)) else { return };
        if let Some(owners) = Arc::make_mut(shard).get_mut(key) {
            owners.sort_by_key(|owner| place(owner.id));
        }
    }

    /// The names that several go by.
    pub(super) fn shared(&self) -> impl Iterator<Item = &Arc<str>> {
        let all = self.shards.iter().flat_map(|shard| shard.iter());
        all.filter(|(_, owners)| owners.len() > 1).map(|(key, _)| key)
    }
}

/// The hash by which entries remember the names they asked for.
pub(crate) fn hash(key: &str) -> u64 {
    FxBuildHasher.hash_one(key)
}

fn shard_of(key: &str) -> usize {
    usize::try_from(hash(key) >> 32).unwrap_or(0) % SHARDS
}
