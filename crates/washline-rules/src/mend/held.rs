//! Fixes that are not tried, or not tried again.

use std::collections::{BTreeMap, BTreeSet};

use washline_text::{Entry, Finding, Fix};

use super::Wanted;

/// A fix by the finding that it mends, and its title.
pub(super) type Key = (String, String);

/// The key of a fix.
pub(super) fn key(finding: &Finding, fix: &Fix) -> Key {
    (finding.fingerprint.clone(), fix.title.clone())
}

/// Fixes that are held back.
#[derive(Default)]
pub(super) struct Held {
    /// They would have brought an error, as the texts were then.
    pub refused: BTreeSet<Key>,
    /// They were applied, and what they mend is still there.
    idle: BTreeSet<Key>,
    /// Whether a text has changed since one was refused.
    moved: bool,
}

impl Held {
    pub fn holds(&self, key: &Key) -> bool {
        self.refused.contains(key) || self.idle.contains(key)
    }

    /// Forgets what was refused, where the texts are others by now. Whether anything was.
    pub fn again(&mut self) -> bool {
        let again = self.moved && !self.refused.is_empty();
        if again {
            self.refused.clear();
            self.moved = false;
        }
        again
    }

    /// Learns from a round that applied `taken` to the texts in which `before` was found.
    pub fn learn(&mut self, taken: &[Wanted<'_>], before: &[Finding], after: &[Finding]) {
        self.moved |= !taken.is_empty();
        let left: BTreeSet<&str> = after.iter().map(|finding| &*finding.fingerprint).collect();
        let (was, is) = (count(before), count(after));
        for (finding, fix) in taken {
            // Of those like it there are fewer: it stands for another now.
            let like = (finding.rule, finding.entry.as_ref());
            if left.contains(&*finding.fingerprint) && is.get(&like) >= was.get(&like) {
                self.idle.insert(key(finding, fix));
            }
        }
    }
}

/// How many findings of each rule there are in each entry.
fn count(findings: &[Finding]) -> BTreeMap<(&'static str, Option<&Entry>), usize> {
    let mut count = BTreeMap::new();
    for finding in findings {
        *count.entry((finding.rule, finding.entry.as_ref())).or_default() += 1;
    }
    count
}
