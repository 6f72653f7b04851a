//! Paths as the run keeps them and as outputs name them.

use std::io;
use std::path::{Component, Path, PathBuf};

/// `path` made absolute from the folder `from`, without `.` and `..`. A link on the way keeps
/// the name it was given by, save before a `..`, where only the disk knows what is meant.
///
/// # Errors
/// Where a folder before a `..` is missing or may not be entered.
pub fn absolute(path: &Path, from: &Path) -> io::Result<PathBuf> {
    let mut out = PathBuf::new();
    for part in from.join(path).components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                out = out.canonicalize()?;
                out.pop();
            }
            part => out.push(part),
        }
    }
    Ok(out)
}

/// `path` as outputs name it: relative to `folder` with `/`, and absolute only outside it.
#[must_use]
pub fn shown(path: &Path, folder: &Path) -> String {
    relative(path, folder).unwrap_or_else(|| slashed(path))
}

/// `path` from `folder` on, with `/`; none where it does not lie in it.
#[must_use]
pub fn relative(path: &Path, folder: &Path) -> Option<String> {
    path.strip_prefix(folder).ok().map(slashed)
}

#[cfg(not(windows))]
fn slashed(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

#[cfg(windows)]
fn slashed(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_relative_inside_the_folder_alone() {
        let shown = |path| shown(Path::new(path), Path::new("/bar/books"));
        assert_eq!(shown("/bar/books/list/shaken.pour"), "list/shaken.pour");
        assert_eq!(shown("/bar/other.pour"), "/bar/other.pour");
        assert_eq!(shown("/bar/books-old/a.pour"), "/bar/books-old/a.pour");
    }

    #[test]
    fn dots_are_taken_out() {
        let folder = tempfile::tempdir().unwrap();
        let from = folder.path().canonicalize().unwrap();
        std::fs::create_dir(from.join("list")).unwrap();
        assert_eq!(
            absolute(Path::new("./list/./a.pour"), &from).unwrap(),
            from.join("list/a.pour")
        );
        assert_eq!(absolute(Path::new("list/../a.pour"), &from).unwrap(), from.join("a.pour"));
        assert_eq!(absolute(Path::new("."), &from).unwrap(), from);
        assert!(absolute(Path::new("none/../a.pour"), &from).is_err());
    }

    #[cfg(unix)]
    #[test]
    fn a_link_keeps_its_own_name() {
        let folder = tempfile::tempdir().unwrap();
        let from = folder.path().canonicalize().unwrap();
        std::fs::create_dir_all(from.join("far/away")).unwrap();
        std::os::unix::fs::symlink(from.join("far/away"), from.join("near")).unwrap();
        assert_eq!(absolute(Path::new("near/a.pour"), &from).unwrap(), from.join("near/a.pour"));
        assert_eq!(absolute(Path::new("near/../a"), &from).unwrap(), from.join("far/a"));
    }
}
