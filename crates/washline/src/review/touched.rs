//! What was touched since a revision, and what that carries into.

use std::collections::BTreeSet;
use std::path::PathBuf;

use washline_text::{Entry, Kind, fold};

use super::{Wanted, from_top};
use crate::failure::{Failure, Failures};

/// The entries and files of the working tree that are not what they were.
#[derive(Debug)]
pub(crate) struct Touched {
    top: PathBuf,
    here: PathBuf,
    /// Path from the top, kind, folded name.
    entries: BTreeSet<(String, Kind, String)>,
    /// Files whose text differs, by their paths from the top.
    files: BTreeSet<String>,
}

impl Touched {
    /// What differs between `revision` and the working tree; none where that can't be read, which
    /// is told.
    pub(crate) fn since(revision: &str, failures: &mut Failures) -> Option<Self> {
        let here = super::here(failures)?;
        let repository = super::open(&here, failures)?;
        let top = repository.top().to_path_buf();
        let wanted = Wanted {
            base: Some(revision),
            head: None,
            staged: false,
            merge_base: false,
            paths: std::slice::from_ref(&top),
        };
        let states = wanted.read(&here, failures)?;
        let review = states.compare(&states.without_findings());
        let mut touched = Self { top, here, entries: BTreeSet::new(), files: BTreeSet::new() };
        let changed = review.changes.iter().map(|change| &change.entry);
        let carried = review.carried.iter().map(|carried| &carried.entry);
        for named in changed.chain(carried).chain(&review.layout) {
            let Some(path) = touched.path(&named.file) else {
                failures.tell(&Failure::about(&named.file, "it lies outside of the repository"));
                return None;
            };
            touched.entries.insert((path, named.kind, fold(&named.name)));
        }
        for room in &states.after {
            let old = states.before.iter().find(|old| old.root == room.root);
            for (name, text) in room.asked_texts() {
                if old.and_then(|old| old.text(name)) != Some(text) {
                    touched.files.extend(touched.path(name));
                }
            }
        }
        Some(touched)
    }

    /// Whether the entry of the file that outputs call `file` was touched; of what belongs to no
    /// entry, whether the file was.
    pub(crate) fn holds(&self, file: &str, entry: Option<&Entry>) -> bool {
        let Some(path) = self.path(file) else { return false };
        match entry {
            Some(entry) => self.entries.contains(&(path, entry.kind, fold(&entry.name))),
            None => self.files.contains(&path),
        }
    }

    /// The path from the top of what outputs call `file`: from the working directory on, else from
    /// the top.
    fn path(&self, file: &str) -> Option<String> {
        let below = self.here.join(file);
        let path = if below.exists() { below } else { self.top.join(file) };
        from_top(&path, &self.top, &self.here)
    }
}
