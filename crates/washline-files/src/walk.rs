//! The spec books below a folder.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use ignore::gitignore::{Gitignore, GitignoreBuilder};
use ignore::{DirEntry, WalkBuilder};

use crate::SETTINGS;

/// The extension of a spec book.
pub const EXTENSION: &str = "pour";

/// What to walk.
#[derive(Clone, Copy, Debug)]
pub struct Walk<'a> {
    /// The folder to walk; itself never left out.
    pub from: &'a Path,
    /// The workspace's root, from which `exclude` counts; `from` or a folder above it.
    pub root: &'a Path,
    /// Paths that are left out, written as in an ignore file.
    pub exclude: &'a [String],
}

/// What was found.
#[derive(Debug, Default)]
pub struct Walked {
    /// The spec books, in the order of their paths' bytes.
    pub files: Vec<PathBuf>,
    /// Folders on the way with a `washline.toml` of their own, not entered: each is its own
    /// workspace.
    pub nested: Vec<PathBuf>,
    /// What could not be looked into, in words.
    pub errors: Vec<String>,
}

/// Walks a folder. Ignore files count, outside of git too; hidden files are left out; links
/// are not followed.
#[must_use]
pub fn walk(walk: Walk<'_>) -> Walked {
    let nested = Arc::new(Mutex::new(Vec::new()));
    let mut walked = Walked::default();
    for entry in walker(walk, Arc::clone(&nested)) {
        match entry {
            Ok(entry) if is_book(&entry) => walked.files.push(entry.into_path()),
            Ok(_) => {}
            Err(error) => walked.errors.push(error.to_string()),
        }
    }
    walked.nested = std::mem::take(&mut *nested.lock().unwrap_or_else(PoisonError::into_inner));
    walked.files.sort_by(|a, b| a.as_os_str().cmp(b.as_os_str()));
    walked.nested.sort();
    walked.errors.sort();
    walked
}

fn walker(walk: Walk<'_>, nested: Arc<Mutex<Vec<PathBuf>>>) -> ignore::Walk {
    let Excluded(exclude) = Excluded::new(walk.root, walk.exclude);
    WalkBuilder::new(walk.from)
        .require_git(false)
        .git_global(false)
        // Asking how many there could be costs more than the walk of a small book.
        .threads(1)
        .filter_entry(move |entry| {
            if entry.depth() == 0 {
                return true;
            }
            let folder = entry.file_type().is_some_and(|kind| kind.is_dir());
            if exclude.matched(entry.path(), folder).is_ignore() {
                return false;
            }
            if folder && entry.path().join(SETTINGS).is_file() {
                let mut nested = nested.lock().unwrap_or_else(PoisonError::into_inner);
                nested.push(entry.path().to_path_buf());
                return false;
            }
            true
        })
        .build()
}

/// The paths that a house leaves out.
#[derive(Debug)]
pub struct Excluded(Gitignore);

impl Excluded {
    /// `patterns`, written as in an ignore file, count from `root`. One that can't be read leaves
    /// nothing out: the settings' reader has told of it.
    #[must_use]
    pub fn new(root: &Path, patterns: &[String]) -> Self {
        if patterns.is_empty() {
            return Self(Gitignore::empty());
        }
        let mut builder = GitignoreBuilder::new(root);
        for pattern in patterns {
            let _ = builder.add_line(None, pattern);
        }
        Self(builder.build().unwrap_or_else(|_| Gitignore::empty()))
    }

    /// Whether the file at `path` below the root, or a folder on the way to it, is left out.
    #[must_use]
    pub fn holds(&self, path: &Path) -> bool {
        !self.0.is_empty() && self.0.matched_path_or_any_parents(path, false).is_ignore()
    }
}

fn is_book(entry: &DirEntry) -> bool {
    entry.file_type().is_some_and(|kind| kind.is_file())
        && entry
            .path()
            .extension()
            .is_some_and(|extension| extension.eq_ignore_ascii_case(EXTENSION))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree(files: &[(&str, &str)]) -> tempfile::TempDir {
        let folder = tempfile::Builder::new().prefix("books").tempdir().unwrap();
        for (path, text) in files {
            let path = folder.path().join(path);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }
        folder
    }

    fn names(paths: &[PathBuf], root: &Path) -> Vec<String> {
        paths.iter().filter_map(|path| crate::relative(path, root)).collect()
    }

    fn found(root: &Path, exclude: &[&str]) -> (Vec<String>, Vec<String>) {
        let exclude: Vec<String> = exclude.iter().map(|&path| path.to_owned()).collect();
        let walked = walk(Walk { from: root, root, exclude: &exclude });
        assert_eq!(walked.errors, Vec::<String>::new());
        (names(&walked.files, root), names(&walked.nested, root))
    }

    #[test]
    fn books_alone_in_the_order_of_their_names() {
        let tree = tree(&[
            ("b.pour", ""),
            ("a/z.pour", ""),
            ("a.pour", ""),
            ("notes.md", ""),
            (".hidden.pour", ""),
            (".git/x.pour", ""),
        ]);
        assert_eq!(found(tree.path(), &[]).0, ["a.pour", "a/z.pour", "b.pour"]);
    }

    #[test]
    fn ignore_files_count_outside_git_too() {
        let tree = tree(&[
            (".gitignore", "old/\n"),
            ("list/.ignore", "*.draft.pour\n"),
            ("old/a.pour", ""),
            ("list/b.pour", ""),
            ("list/c.draft.pour", ""),
        ]);
        assert_eq!(found(tree.path(), &[]).0, ["list/b.pour"]);
        let old = tree.path().join("old");
        let named = walk(Walk { from: &old, root: tree.path(), exclude: &[] });
        assert_eq!(names(&named.files, tree.path()), ["old/a.pour"]);
    }

    #[test]
    fn what_the_house_leaves_out_is_left_out() {
        let tree = tree(&[("archive/a.pour", ""), ("b.draft.pour", ""), ("c/archive.pour", "")]);
        assert_eq!(found(tree.path(), &["archive/", "*.draft.pour"]).0, ["c/archive.pour"]);
        let archive = tree.path().join("archive");
        let exclude = ["archive/".to_owned()];
        let named = walk(Walk { from: &archive, root: tree.path(), exclude: &exclude });
        assert_eq!(names(&named.files, tree.path()), ["archive/a.pour"]);
    }

    #[test]
    fn a_folder_with_its_own_settings_is_not_entered() {
        let tree = tree(&[
            ("washline.toml", ""),
            ("a.pour", ""),
            ("second/washline.toml", ""),
            ("second/b.pour", ""),
        ]);
        let (files, nested) = found(tree.path(), &[]);
        assert_eq!(files, ["a.pour"]);
        assert_eq!(nested, ["second"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_ring_of_links_is_no_trap() {
        let tree = tree(&[("a/b.pour", "")]);
        std::os::unix::fs::symlink(tree.path(), tree.path().join("a/up")).unwrap();
        assert_eq!(found(tree.path(), &[]).0, ["a/b.pour"]);
    }
}
