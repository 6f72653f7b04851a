//! The files of a repository at one point: a tree, the index, the disk.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use washline_files::git::{GitError, Object, ObjectId, Repository, Tracked};
use washline_files::{
    Contents, EXTENSION, IGNORE_FILES, SETTINGS, Visible, Walk, read, read_all, relative, walk,
};

use crate::failure::{self, Failure, Failures};

/// Where a state is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Point {
    /// There is none: before the first commit.
    Nothing,
    /// A tree.
    Tree(ObjectId),
    /// What is staged.
    Index,
    /// The working tree.
    Disk,
}

/// The books of one state and its files of standards, by their paths from the top, with `/`.
#[derive(Debug, Default)]
pub(super) struct Snapshot {
    /// The books that a walk shows.
    pub books: BTreeMap<String, Arc<Contents>>,
    /// The folders that hold a `washline.toml`.
    pub houses: BTreeSet<String>,
    /// Files of standards; of the disk those that were asked for are read then.
    tomls: BTreeMap<String, Arc<Contents>>,
    /// The top of a state on disk.
    disk: Option<PathBuf>,
}

impl Snapshot {
    /// The text of a file of standards; none where there is no such file.
    pub(super) fn toml(&self, path: &str) -> Option<Arc<Contents>> {
        let Some(top) = &self.disk else { return self.tomls.get(path).cloned() };
        let full = top.join(path);
        let file = full.symlink_metadata().is_ok_and(|metadata| metadata.is_file());
        if !file {
            return None;
        }
        read(&full).ok().map(Arc::new)
    }
}

/// Takes snapshots of one repository.
pub(super) struct Snapshots<'a> {
    pub repository: &'a Repository,
    pub failures: &'a mut Failures,
}

impl Snapshots<'_> {
    /// Both states; an object that both hold is read once.
    pub(super) fn take(&mut self, points: &[Point; 2]) -> Result<[Snapshot; 2], GitError> {
        let [old, new] = [self.listed(&points[0])?, self.listed(&points[1])?];
        let mut wanted: Vec<ObjectId> =
            old.iter().chain(&new).flatten().map(|file| file.id.clone()).collect();
        wanted.sort_unstable();
        wanted.dedup();
        let objects = self.repository.read(&wanted)?;
        let objects = wanted.into_iter().zip(objects.into_iter().map(Arc::new)).collect();
        Ok([self.snapshot(old, &objects), self.snapshot(new, &objects)])
    }

    /// The files of interest; none for the disk, which is walked.
    fn listed(&mut self, point: &Point) -> Result<Option<Vec<Tracked>>, GitError> {
        let mut files = match point {
            Point::Nothing => Vec::new(),
            Point::Disk => return Ok(None),
            Point::Tree(tree) => self.repository.files(tree)?,
            Point::Index => {
                let staged = self.repository.staged()?;
                for path in staged.unmerged.iter().filter(|path| is_book(path)) {
                    let name = path.to_string_lossy();
                    let failure = Failure::about(&name, "not merged yet: our version is shown");
                    let failure = failure.help("resolve it, then `git add` it").softened();
                    self.failures.tell(&failure);
                }
                staged.files
            }
        };
        files.retain(|file| is_book(&file.path) || is_toml(&file.path) || ignores(&file.path));
        Ok(Some(files))
    }

    fn snapshot(
        &mut self,
        files: Option<Vec<Tracked>>,
        objects: &HashMap<ObjectId, Arc<Object>>,
    ) -> Snapshot {
        match files {
            Some(files) => self.stored(&files, objects),
            None => self.on_disk(),
        }
    }

    fn stored(&mut self, files: &[Tracked], objects: &HashMap<ObjectId, Arc<Object>>) -> Snapshot {
        let mut texts: Vec<(&Path, Arc<Contents>)> = Vec::new();
        for file in files {
            match objects.get(&file.id).map(|object| &**object) {
                Some(Object::Contents(contents)) => {
                    texts.push((&file.path, Arc::new(contents.clone())));
                }
                Some(Object::TooLarge) => self.left_out(&file.path, "it is larger than 64 MB"),
                Some(Object::Missing) | None => {
                    self.left_out(&file.path, "git has left it at the remote: `git fetch` it");
                }
            }
        }
        let rules = texts.iter().filter(|(path, _)| ignores(path));
        let visible = Visible::of(rules.map(|(path, contents)| (*path, contents.readable())));
        let mut snapshot = Snapshot::default();
        for (path, contents) in texts {
            let name = slashed(path);
            if is_toml(path) {
                if path.file_name().is_some_and(|name| name == SETTINGS) && visible.shows(path) {
                    snapshot.houses.insert(folder_of(&name).to_owned());
                }
                snapshot.tomls.insert(name, contents);
            } else if is_book(path) && visible.shows(path) {
                snapshot.books.insert(name, contents);
            }
        }
        snapshot
    }

    /// The working tree as a check walks it, other repositories inside left out.
    fn on_disk(&mut self) -> Snapshot {
        let top = self.repository.top();
        let mut snapshot = Snapshot { disk: Some(top.to_path_buf()), ..Snapshot::default() };
        let mut open = vec![top.to_path_buf()];
        let mut books: Vec<PathBuf> = Vec::new();
        while let Some(folder) = open.pop() {
            if folder != *top && folder.join(".git").exists() {
                continue;
            }
            if folder.join(SETTINGS).is_file() {
                snapshot.houses.insert(relative(&folder, top).unwrap_or_default());
            }
            let walked = walk(Walk { from: &folder, root: &folder, exclude: &[] });
            books.extend(walked.files);
            open.extend(walked.nested);
            for error in walked.errors {
                self.failures.tell(&Failure::new(error));
            }
        }
        let mut foreign: HashMap<PathBuf, bool> = HashMap::new();
        books.retain(|book| !lies_in_another(book, top, &mut foreign));
        for (path, contents) in books.iter().zip(read_all(&books, || ())) {
            let name = relative(path, top).unwrap_or_default();
            match contents {
                Ok(contents) => {
                    snapshot.books.insert(name, Arc::new(contents));
                }
                Err(washline_files::ReadError::Io(error)) => {
                    self.failures.tell(&failure::path(Path::new(&name), &error));
                }
                Err(error) => self.failures.tell(&Failure::about(&name, error)),
            }
        }
        snapshot
    }

    fn left_out(&mut self, path: &Path, why: &str) {
        let failure = Failure::about(&path.to_string_lossy(), format!("left out: {why}"));
        self.failures.tell(&failure);
    }
}

/// Whether a file on disk lies in a repository inside this one.
fn lies_in_another(file: &Path, top: &Path, known: &mut HashMap<PathBuf, bool>) -> bool {
    let Some(folder) = file.parent() else { return false };
    if folder == top || !folder.starts_with(top) {
        return false;
    }
    if let Some(known) = known.get(folder) {
        return *known;
    }
    let foreign = folder.join(".git").exists() || lies_in_another(folder, top, known);
    known.insert(folder.to_path_buf(), foreign);
    foreign
}

fn is_book(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case(EXTENSION))
}

fn is_toml(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == "toml")
}

fn ignores(path: &Path) -> bool {
    path.file_name().is_some_and(|name| IGNORE_FILES.iter().any(|known| name == *known))
}

fn slashed(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

/// The folder of a path with `/`; empty at the top.
pub(super) fn folder_of(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(folder, _)| folder)
}
