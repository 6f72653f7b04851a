//! Writing a file whole or not at all.

use std::fmt;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

/// What a write did.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// The file holds the new text.
    Changed,
    /// It held it already and was not touched.
    Unchanged,
}

/// Why a file was not written. It then holds what it held, save where a copy is named.
#[derive(Debug)]
pub enum WriteError {
    /// The system says so.
    Io(io::Error),
    /// It no longer holds what the new text was made from.
    Moved,
    /// It may not be written.
    ReadOnly,
    /// Writing in place broke off; what the file held lies in the copy.
    Broken(io::Error, PathBuf),
}

impl fmt::Display for WriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Io(error) => write!(f, "{error}"),
            Self::Moved => f.write_str("it was changed by something else meanwhile"),
            Self::ReadOnly => f.write_str("it is read-only"),
            Self::Broken(error, copy) => {
                write!(f, "{error}; what it held is kept in {}", copy.display())
            }
        }
    }
}

impl std::error::Error for WriteError {}

impl From<io::Error> for WriteError {
    fn from(error: io::Error) -> Self {
        Self::Io(error)
    }
}

/// A file that is to hold a new text.
#[derive(Clone, Copy, Debug)]
pub struct Change<'a> {
    /// Where it lies.
    pub path: &'a Path,
    /// What it holds.
    pub old: &'a [u8],
    /// What it is to hold.
    pub new: &'a [u8],
}

/// Makes the file at `path`, which holds `old`, hold `new`.
///
/// The new text is written beside the file, flushed to the disk and put in its place in one
/// act, with the file's mode and owner. A link is followed to its file. A file that goes by
/// several names is written in place instead, so that it keeps them, with a copy beside it
/// until that is done.
///
/// # Errors
/// [`WriteError`]; the file then holds what it held.
pub fn replace(path: &Path, old: &[u8], new: &[u8]) -> Result<Written, WriteError> {
    match Staged::new(Change { path, old, new })? {
        Some(staged) => staged.commit().map(|()| Written::Changed),
        None => Ok(Written::Unchanged),
    }
}

/// Makes several files hold their new texts: all of them, or none. Each single file is written
/// as [`replace`] does it; all new texts lie on the disk before the first file is touched.
///
/// # Errors
/// The path that could not be written, and why. The files then hold what they held.
pub fn replace_all(changes: &[Change<'_>]) -> Result<(), (PathBuf, WriteError)> {
    let mut staged = Vec::new();
    for change in changes {
        match Staged::new(*change) {
            Ok(one) => staged.extend(one.map(|one| (change, one))),
            Err(error) => return Err((change.path.to_path_buf(), error)),
        }
    }
    let mut written: Vec<&Change<'_>> = Vec::new();
    for (change, one) in staged {
        if let Err(error) = one.commit() {
            for done in written {
                if let Err(back) = replace(done.path, done.new, done.old) {
                    return Err((done.path.to_path_buf(), back));
                }
            }
            return Err((change.path.to_path_buf(), error));
        }
        written.push(change);
    }
    Ok(())
}

/// A new text on the disk, beside the file whose place it is to take.
struct Staged<'a> {
    change: Change<'a>,
    /// The file itself, links followed.
    path: PathBuf,
    /// None for a file that has to be written in place.
    temp: Option<NamedTempFile>,
}

impl<'a> Staged<'a> {
    /// None where the file holds the new text already.
    fn new(change: Change<'a>) -> Result<Option<Self>, WriteError> {
        let path = fs::canonicalize(change.path)?;
        let metadata = fs::metadata(&path)?;
        if fs::read(&path)? != change.old {
            return Err(WriteError::Moved);
        }
        if change.old == change.new {
            return Ok(None);
        }
        if metadata.permissions().readonly() {
            return Err(WriteError::ReadOnly);
        }
        let temp = if several_names(&metadata) {
            None
        } else {
            let temp = beside(folder_of(&path), change.new)?;
            let kept = keep_owner(&temp, &metadata).is_ok();
            kept.then_some(temp)
        };
        if let Some(temp) = &temp {
            fs::set_permissions(temp.path(), metadata.permissions())?;
            temp.as_file().sync_all()?;
        }
        Ok(Some(Self { change, path, temp }))
    }

    fn commit(self) -> Result<(), WriteError> {
        let folder = folder_of(&self.path);
        let Some(temp) = self.temp else {
            return in_place(&self.path, folder, self.change.old, self.change.new);
        };
        temp.persist(&self.path).map_err(|error| error.error)?;
        sync_folder(folder);
        Ok(())
    }
}

fn folder_of(path: &Path) -> &Path {
    path.parent().unwrap_or(Path::new("."))
}

/// Makes `path` hold `text`, whether there is such a file yet or not. What is no ordinary file
/// (a pipe, a terminal) is simply written to.
///
/// # Errors
/// [`WriteError`]; a file then holds what it held.
pub fn put(path: &Path, text: &[u8]) -> Result<Written, WriteError> {
    match fs::metadata(path) {
        Ok(metadata) if metadata.is_file() => replace(path, &fs::read(path)?, text),
        Ok(_) => {
            OpenOptions::new().write(true).open(path)?.write_all(text)?;
            Ok(Written::Changed)
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
            let folder = folder.unwrap_or(Path::new("."));
            beside(folder, text)?.persist(path).map_err(|error| error.error)?;
            sync_folder(folder);
            Ok(Written::Changed)
        }
        Err(error) => Err(error.into()),
    }
}

/// A new file in `folder` that holds `text`, flushed to the disk.
fn beside(folder: &Path, text: &[u8]) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(".washline-").suffix(".tmp");
    let mut temp = new_mode(&mut builder).tempfile_in(folder)?;
    temp.write_all(text)?;
    temp.as_file().sync_all()?;
    Ok(temp)
}

fn in_place(path: &Path, folder: &Path, old: &[u8], new: &[u8]) -> Result<(), WriteError> {
    let copy = beside(folder, old)?;
    let Err(error) = overwrite(path, new) else { return Ok(()) };
    if overwrite(path, old).is_ok() {
        return Err(WriteError::Io(error));
    }
    match copy.keep() {
        Ok((_, copy)) => Err(WriteError::Broken(error, copy)),
        Err(kept) => Err(WriteError::Broken(error, kept.file.path().to_path_buf())),
    }
}

fn overwrite(path: &Path, text: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).truncate(true).open(path)?;
    file.write_all(text)?;
    file.sync_all()
}

/// New files have the mode that the user's mask gives them.
#[cfg(unix)]
fn new_mode<'a, 'p, 's>(builder: &'a mut Builder<'p, 's>) -> &'a mut Builder<'p, 's> {
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666))
}

#[cfg(not(unix))]
fn new_mode<'a, 'p, 's>(builder: &'a mut Builder<'p, 's>) -> &'a mut Builder<'p, 's> {
    builder
}

#[cfg(unix)]
fn several_names(metadata: &Metadata) -> bool {
    std::os::unix::fs::MetadataExt::nlink(metadata) > 1
}

#[cfg(not(unix))]
const fn several_names(_: &Metadata) -> bool {
    false
}

#[cfg(unix)]
fn keep_owner(temp: &NamedTempFile, metadata: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let now = temp.as_file().metadata()?;
    if (now.uid(), now.gid()) == (metadata.uid(), metadata.gid()) {
        return Ok(());
    }
    fchown(temp.as_file(), Some(metadata.uid()), Some(metadata.gid()))
}

#[cfg(not(unix))]
const fn keep_owner(_: &NamedTempFile, _: &Metadata) -> io::Result<()> {
    Ok(())
}

/// Flushes the folder's list of names; where the system can't, the rename stands all the same.
fn sync_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(text: &str) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("list.pour");
        fs::write(&path, text).unwrap();
        (folder, path)
    }

    fn alone(folder: &tempfile::TempDir, names: usize) {
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), names, "nothing is left beside");
    }

    #[test]
    fn the_new_text_stands_in_its_place() {
        let (folder, path) = file("old\r\n");
        assert_eq!(replace(&path, b"old\r\n", b"new\r\n").unwrap(), Written::Changed);
        assert_eq!(fs::read(&path).unwrap(), b"new\r\n");
        alone(&folder, 1);
    }

    #[test]
    fn equal_text_is_not_touched() {
        let (folder, path) = file("same");
        let then = std::time::SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(1_000_000);
        File::options().write(true).open(&path).unwrap().set_modified(then).unwrap();
        assert_eq!(replace(&path, b"same", b"same").unwrap(), Written::Unchanged);
        assert_eq!(fs::metadata(&path).unwrap().modified().unwrap(), then);
        alone(&folder, 1);
    }

    #[test]
    fn what_changed_meanwhile_is_kept() {
        let (folder, path) = file("theirs");
        assert!(matches!(replace(&path, b"old", b"new"), Err(WriteError::Moved)));
        assert_eq!(fs::read(&path).unwrap(), b"theirs");
        alone(&folder, 1);
    }

    #[test]
    fn read_only_is_respected() {
        let (folder, path) = file("old");
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        assert!(matches!(replace(&path, b"old", b"new"), Err(WriteError::ReadOnly)));
        assert_eq!(fs::read(&path).unwrap(), b"old");
        alone(&folder, 1);
    }

    #[test]
    fn several_files_are_written_all_or_none() {
        let (folder, path) = file("old");
        let second = folder.path().join("second.pour");
        fs::write(&second, "theirs").unwrap();
        let change = |path, old| Change { path, old, new: b"new" };
        let (moved, why) =
            replace_all(&[change(&path, b"old"), change(&second, b"old")]).unwrap_err();
        assert!(moved == second && matches!(why, WriteError::Moved));
        assert_eq!(fs::read(&path).unwrap(), b"old");
        replace_all(&[change(&path, b"old"), change(&second, b"theirs")]).unwrap();
        assert_eq!(
            (fs::read(&path).unwrap(), fs::read(&second).unwrap()),
            (b"new".into(), b"new".into())
        );
        alone(&folder, 2);
    }

    #[test]
    fn a_missing_file_is_not_made() {
        let (folder, path) = file("");
        fs::remove_file(&path).unwrap();
        assert!(matches!(replace(&path, b"", b"new"), Err(WriteError::Io(_))));
        alone(&folder, 0);
    }

    #[test]
    fn a_new_file_is_made_and_an_old_one_replaced() {
        let (folder, path) = file("old");
        let new = folder.path().join("new.json");
        assert_eq!(put(&new, b"1").unwrap(), Written::Changed);
        assert_eq!(put(&new, b"1").unwrap(), Written::Unchanged);
        assert_eq!(put(&path, b"2").unwrap(), Written::Changed);
        assert_eq!((fs::read(&new).unwrap(), fs::read(&path).unwrap()), (b"1".into(), b"2".into()));
        assert!(put(&folder.path().join("none/new.json"), b"1").is_err());
        alone(&folder, 2);
    }

    #[cfg(unix)]
    mod unix {
        use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};

        use super::*;

        #[test]
        fn the_mode_is_kept() {
            let (_folder, path) = file("old");
            fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
            replace(&path, b"old", b"new").unwrap();
            assert_eq!(fs::metadata(&path).unwrap().mode() & 0o777, 0o640);
        }

        #[test]
        fn a_link_stays_a_link() {
            let (folder, path) = file("old");
            let link = folder.path().join("link.pour");
            symlink("list.pour", &link).unwrap();
            replace(&link, b"old", b"new").unwrap();
            assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
            assert_eq!(fs::read(&path).unwrap(), b"new");
            alone(&folder, 2);
        }

        #[test]
        fn a_second_name_stays_the_same_file() {
            let (folder, path) = file("old and longer");
            let second = folder.path().join("second.pour");
            fs::hard_link(&path, &second).unwrap();
            replace(&path, b"old and longer", b"new").unwrap();
            assert_eq!(fs::read(&second).unwrap(), b"new");
            assert_eq!(fs::metadata(&path).unwrap().nlink(), 2);
            alone(&folder, 2);
        }
    }
}
