//! Which files of a listing a walk of the same files on disk would show.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use ignore::gitignore::{Gitignore, GitignoreBuilder};

/// The names of ignore files, the one that is heard first.
pub const IGNORE_FILES: [&str; 2] = [".ignore", ".gitignore"];

/// The ignore files of a tree that is not on disk.
#[derive(Debug, Default)]
pub struct Visible {
    /// By the name of the file, then by the folder that it stands in.
    by_name: BTreeMap<&'static str, BTreeMap<PathBuf, Gitignore>>,
}

impl Visible {
    /// What `files` (path from the top, text) say; those that are no ignore files say nothing.
    #[must_use]
    pub fn of<'a>(files: impl Iterator<Item = (&'a Path, &'a str)>) -> Self {
        let mut visible = Self::default();
        for (path, text) in files {
            let name = path.file_name().unwrap_or_default();
            let Some(name) = IGNORE_FILES.into_iter().find(|known| name == *known) else {
                continue;
            };
            let folder = path.parent().unwrap_or(Path::new(""));
            let mut builder = GitignoreBuilder::new(rooted(folder));
            for line in text.lines() {
                // A line that is no pattern hides nothing, as in a walk.
                let _ = builder.add_line(None, line);
            }
            if let Ok(patterns) = builder.build() {
                visible.by_name.entry(name).or_default().insert(folder.to_path_buf(), patterns);
            }
        }
        visible
    }

    /// Whether the file at `path` from the top is shown: neither it nor a folder on the way is
    /// hidden or ignored.
    #[must_use]
    pub fn shows(&self, path: &Path) -> bool {
        let hidden = |part: &std::ffi::OsStr| part.to_string_lossy().starts_with('.');
        if path.iter().any(hidden) {
            return false;
        }
        let mut way: Vec<&Path> = path.ancestors().filter(|part| *part != Path::new("")).collect();
        way.reverse();
        let last = way.len().saturating_sub(1);
        !way.iter().enumerate().any(|(at, part)| self.ignores(part, at < last))
    }

    fn ignores(&self, path: &Path, folder: bool) -> bool {
        let full = rooted(path);
        for name in IGNORE_FILES {
            let Some(folders) = self.by_name.get(name) else { continue };
            for above in path.ancestors().skip(1) {
                let Some(patterns) = folders.get(above) else { continue };
                let found = patterns.matched(&full, folder);
                if !found.is_none() {
                    return found.is_ignore();
                }
            }
        }
        false
    }
}

fn rooted(path: &Path) -> PathBuf {
    Path::new("/").join(path)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Walk, relative, walk};

    /// A listing shows what a walk of the same files shows.
    #[test]
    fn it_shows_what_a_walk_shows() {
        let files = [
            (".gitignore", "old/\n*.draft.pour\n!kept.draft.pour\n/only-here.pour\n"),
            ("list/.gitignore", "!b.draft.pour\n"),
            ("list/.ignore", "c.pour\nsub\n"),
            ("a.pour", ""),
            ("a.draft.pour", ""),
            ("kept.draft.pour", ""),
            ("only-here.pour", ""),
            ("list/only-here.pour", ""),
            ("list/b.draft.pour", ""),
            ("list/c.pour", ""),
            ("list/sub/d.pour", ""),
            ("old/e.pour", ""),
            ("list/old/f.pour", ""),
            (".hidden/g.pour", ""),
            (".h.pour", ""),
        ];
        let folder = tempfile::tempdir().unwrap();
        for (path, text) in files {
            let path = folder.path().join(path);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }
        let walked = walk(Walk { from: folder.path(), root: folder.path(), exclude: &[] });
        let walked: Vec<_> =
            walked.files.iter().filter_map(|path| relative(path, folder.path())).collect();
        let visible = Visible::of(files.iter().map(|(path, text)| (Path::new(*path), *text)));
        let mut shown: Vec<_> = files
            .iter()
            .filter(|(path, _)| path.ends_with(".pour") && visible.shows(Path::new(path)))
            .map(|(path, _)| (*path).to_owned())
            .collect();
        shown.sort();
        assert_eq!(shown, walked);
        assert!(walked.contains(&"list/b.draft.pour".to_owned()));
    }
}
