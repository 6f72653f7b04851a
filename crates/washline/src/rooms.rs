//! The workspaces of a run, read whole.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use washline_book::{Record, Settings, Workspace};
use washline_files::{Contents, NotUtf8, Walk, read_all, relative, shown, walk};
use washline_report::standards::SettingsFile;
use washline_text::FileId;

use crate::arguments::Paths;
use crate::failure::{self, Failure, Failures};
use crate::house::{self, House};
use crate::plan::{Asked, Plan, plan};
use crate::progress::Progress;
use crate::stdin;

/// A workspace with what is asked for in it.
#[derive(Debug)]
pub(crate) struct Room {
    /// Its files, entries and figures.
    pub workspace: Workspace,
    /// How outputs call its files, in its order.
    pub names: Vec<String>,
    /// Which of its files are asked for.
    pub asked: Vec<bool>,
    /// The file that standard input stands in for.
    pub typed: Option<FileId>,
    /// The files that set its standards.
    pub house: Vec<SettingsFile>,
    /// The files that are no UTF-8.
    pub damaged: Vec<(FileId, NotUtf8)>,
}

/// Reads every workspace that the paths lie in. What can't be read is told; none where there
/// is no sense in going on.
pub(crate) fn rooms(
    paths: &Paths,
    progress: &Progress,
    failures: &mut Failures,
) -> Option<Vec<Room>> {
    let Plan { here, mut roots, loose } = plan(paths, failures)?;
    let mut rooms = Vec::new();
    if let Some((contents, house)) = loose {
        rooms.extend(loose_room(contents, house.as_deref(), &here, failures));
    }
    // Outer roots come first, and may add inner ones.
    while let Some((root, asked)) = roots.pop_first() {
        let mut opener = Opener { root: &root, here: &here, inner: Vec::new(), failures };
        let room = opener.open(&asked, progress);
        for inner in opener.inner {
            let asked = roots.entry(inner.clone()).or_default();
            asked.house = true;
            asked.folders.insert(inner);
        }
        rooms.extend(room);
    }
    Some(rooms)
}

impl Room {
    /// The files that are asked for.
    pub(crate) fn asked_files(&self) -> usize {
        self.asked.iter().filter(|asked| **asked).count()
    }

    /// Whether a file is asked for.
    pub(crate) fn asks(&self, file: FileId) -> bool {
        self.asked.get(file.0 as usize).copied().unwrap_or(false)
    }

    /// The entries of the files that are asked for.
    pub(crate) fn records(&self) -> impl Iterator<Item = &Record> {
        self.workspace.records().iter().filter(|record| self.asks(record.file))
    }

    /// Whether a file is no UTF-8.
    pub(crate) fn is_damaged(&self, file: FileId) -> bool {
        self.damaged.iter().any(|(damaged, _)| *damaged == file)
    }

    fn of(files: Vec<Book>, house: House) -> Self {
        let mut room = Self {
            workspace: Workspace::new(Vec::new(), Settings::default()),
            names: Vec::new(),
            asked: Vec::new(),
            typed: None,
            house: house.files,
            damaged: Vec::new(),
        };
        let mut texts = Vec::new();
        for (n, book) in files.into_iter().enumerate() {
            texts.push((Arc::from(book.key), Arc::from(book.contents.readable())));
            room.names.push(book.name);
            room.asked.push(book.asked);
            let id = FileId(u32::try_from(n).unwrap_or(u32::MAX));
            if book.typed {
                room.typed = Some(id);
            }
            if let Contents::NotUtf8(not) = book.contents {
                room.damaged.push((id, not));
            }
        }
        room.workspace = Workspace::new(texts, house.settings);
        room
    }
}

/// A file of a workspace.
struct Book {
    /// Its path from the root, by which the house's folders know it.
    key: String,
    /// How outputs call it.
    name: String,
    contents: Contents,
    asked: bool,
    /// Whether it came in by standard input.
    typed: bool,
}

fn loose_room(
    contents: Contents,
    house: Option<&Path>,
    here: &Path,
    failures: &mut Failures,
) -> Option<Room> {
    let house = match house {
        Some(house) => house::standards(house, here, failures)?,
        None => House::default(),
    };
    let (key, name) = (stdin::NAME.to_owned(), stdin::NAME.to_owned());
    Some(Room::of(vec![Book { key, name, contents, asked: true, typed: true }], house))
}

struct Opener<'a> {
    root: &'a Path,
    here: &'a Path,
    /// Roots found inside, below a folder that is asked for.
    inner: Vec<PathBuf>,
    failures: &'a mut Failures,
}

impl Opener<'_> {
    /// Reads the workspace; none where its standards can't be read.
    fn open(&mut self, asked: &Asked, progress: &Progress) -> Option<Room> {
        let house = match asked.house {
            true => house::standards(self.root, self.here, self.failures)?,
            false => House::default(),
        };
        let paths = self.books(asked, &house.settings.exclude);
        let mut books = self.read(paths, &asked.texts, progress);
        books.sort_by(|a, b| a.key.cmp(&b.key));
        Some(Room::of(books, house))
    }

    /// The paths of all its books, and whether each is asked for.
    fn books(&mut self, asked: &Asked, exclude: &[String]) -> BTreeMap<PathBuf, bool> {
        let mut books: BTreeMap<PathBuf, bool> = BTreeMap::new();
        if !asked.folders.contains(self.root) {
            let walked = walk(Walk { from: self.root, root: self.root, exclude });
            books.extend(walked.files.into_iter().map(|path| (path, false)));
        }
        for folder in &asked.folders {
            let walked = walk(Walk { from: folder, root: self.root, exclude });
            for error in walked.errors {
                self.failures.tell(&Failure::new(error));
            }
            if walked.files.is_empty() && walked.nested.is_empty() {
                let name = shown(folder, self.here);
                let name = if name.is_empty() { "this folder".to_owned() } else { name };
                self.failures.tell(&Failure::warning(format!("no .pour files below {name}")));
            }
            books.extend(walked.files.into_iter().map(|path| (path, true)));
            self.inner.extend(walked.nested);
        }
        books.extend(asked.files.iter().map(|path| (path.clone(), true)));
        books
    }

    fn read(
        &mut self,
        paths: BTreeMap<PathBuf, bool>,
        texts: &BTreeMap<PathBuf, Contents>,
        progress: &Progress,
    ) -> Vec<Book> {
        let replaced: BTreeSet<&PathBuf> = texts.keys().collect();
        let paths = paths.into_iter().filter(|(path, _)| !replaced.contains(path));
        let (paths, asked): (Vec<PathBuf>, Vec<bool>) = paths.unzip();
        progress.expect(paths.len());
        let contents = read_all(&paths, || progress.read());
        let mut books: Vec<Book> =
            texts.iter().map(|(path, contents)| self.typed(path, contents.clone())).collect();
        for ((path, asked), contents) in paths.iter().zip(asked).zip(contents) {
            match contents {
                Ok(contents) => books.push(self.book(path, contents, asked)),
                Err(error) => self.unread(path, asked, &error),
            }
        }
        books
    }

    fn book(&self, path: &Path, contents: Contents, asked: bool) -> Book {
        let name = shown(path, self.here);
        let key = relative(path, self.root).unwrap_or_else(|| name.clone());
        Book { key, name, contents, asked, typed: false }
    }

    fn typed(&self, path: &Path, contents: Contents) -> Book {
        Book { typed: true, ..self.book(path, contents, true) }
    }

    fn unread(&mut self, path: &Path, asked: bool, error: &washline_files::ReadError) {
        let name = shown(path, self.here);
        let failure = match error {
            washline_files::ReadError::Io(error) => failure::path(Path::new(&name), error),
            other => Failure::about(&name, other),
        };
        // What is only read for its names keeps nothing from being checked.
        self.failures.tell(&if asked { failure } else { failure.softened() });
    }
}
