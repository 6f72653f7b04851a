//! One workspace: the files below a root, as the client or else the disk has them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use tower_lsp::lsp_types::Url;
use washline_book::{Settings, Workspace};
use washline_files::{
    NoParent, Trouble, Walk, Wrong, absolute, read_all, relative, standards, walk,
};
use washline_rules::Checked;
use washline_text::FileId;

use crate::desk::{Desk, Sheet};
use crate::edition::Edition;
use crate::encoding::spelled;
use crate::library::{Home, Scan};
use crate::terms::Terms;

/// One workspace.
#[derive(Debug, Default)]
pub(crate) struct Room {
    /// Its files in the order of the workspace.
    books: Vec<Book>,
    files: BTreeMap<Url, FileId>,
    edition: Option<Arc<Edition>>,
    settings: Settings,
    terms: Terms,
    /// What is wrong in its standards; the last that could be read hold.
    pub troubles: Vec<Trouble>,
    /// The files of its standards, be it that one is missing.
    pub standards: Vec<PathBuf>,
}

/// A file of a workspace.
#[derive(Clone, Debug)]
struct Book {
    /// Its path from the root, by which the house's folders know it.
    key: Arc<str>,
    url: Url,
    path: Option<PathBuf>,
    text: Arc<str>,
}

impl Room {
    /// The place of a file in the workspace.
    pub(crate) fn file(&self, url: &Url) -> Option<FileId> {
        // What is not open is spelled as on disk, be it that the client spells it otherwise.
        self.files.get(url).or_else(|| self.files.get(&spelled(url))).copied()
    }

    /// Its files.
    pub(crate) fn files(&self) -> impl Iterator<Item = (&Url, FileId)> {
        self.files.iter().map(|(url, file)| (url, *file))
    }

    /// The workspace as it is now.
    pub(crate) fn edition(&self) -> Arc<Edition> {
        self.edition.clone().unwrap_or_else(|| {
            let nothing = Checked::new(Workspace::new(Vec::new(), Settings::default()));
            Arc::new(Edition::new(nothing, Arc::from([]), self.terms))
        })
    }

    /// Takes in texts that changed.
    pub(crate) fn write(&mut self, sheets: &[(&Url, &Sheet)]) {
        let Some(edition) = self.edition.take() else { return };
        let mut texts = Vec::new();
        for (url, sheet) in sheets {
            let Some(file) = self.files.get(*url).copied() else { continue };
            let Some(book) = self.books.get_mut(file.0 as usize) else { continue };
            if *book.text != *sheet.page.text {
                book.text = sheet.page.text.clone();
                texts.push((file, book.text.clone()));
            }
        }
        self.edition = Some(self.edited(edition, texts));
    }

    /// Gathers its files anew. What changed on disk since `level` is read again. The roots of
    /// other workspaces found on the way come back.
    pub(crate) fn gather(
        &mut self,
        home: &Home,
        open: &BTreeSet<&Url>,
        desk: &Desk,
        level: u64,
        scan: &dyn Scan,
    ) -> Vec<PathBuf> {
        let before = self.settings.clone();
        self.terms = desk.terms;
        let (root, house) = match home {
            Home::Root(root) => (Some(root.as_path()), desk.is_house(root)),
            Home::Loose(_) => {
                let root = desk.folders.iter().find(|folder| desk.is_house(folder));
                (root.map(PathBuf::as_path), root.is_some())
            }
        };
        self.learn(root.filter(|_| house), desk);
        let mut inner = Vec::new();
        let mut paths = BTreeSet::new();
        if let Home::Root(root) = home {
            let walked = walk(Walk { from: root, root, exclude: &self.settings.exclude });
            inner = walked.nested;
            paths.extend(walked.files.into_iter().filter(|path| {
                path.parent().is_none_or(|folder| folder == root || desk.root(folder).0 == root)
            }));
        }
        let books = self.read(home, paths, open, desk, level, scan);
        self.shelve(books, before != self.settings);
        inner
    }

    /// Reads the standards of the house at `root`.
    fn learn(&mut self, root: Option<&Path>, desk: &Desk) {
        let Some(root) = root else {
            self.settings = Settings::default();
            self.troubles.clear();
            self.standards.clear();
            return;
        };
        let stand_in = |path: &Path| desk.at(path).map(|sheet| sheet.page.text.clone());
        let read = standards(root, &washline_rules::known(), &stand_in);
        self.settings = read.settings.unwrap_or_else(|| std::mem::take(&mut self.settings));
        let wanted = read.troubles.iter().filter_map(missing);
        self.standards = read.files.into_iter().map(|file| file.path).chain(wanted).collect();
        self.troubles = read.troubles;
    }

    fn read(
        &self,
        home: &Home,
        mut paths: BTreeSet<PathBuf>,
        open: &BTreeSet<&Url>,
        desk: &Desk,
        level: u64,
        scan: &dyn Scan,
    ) -> Vec<Book> {
        let mut books = Vec::new();
        for url in open {
            let Some(sheet) = desk.open.get(*url) else { continue };
            let path = sheet.path.clone();
            path.iter().for_each(|path| {
                paths.remove(path);
            });
            books.push(Book {
                key: key(home, path.as_deref(), url),
                url: (*url).clone(),
                path,
                text: sheet.page.text.clone(),
            });
        }
        let known: BTreeMap<&Path, &Book> =
            self.books.iter().filter_map(|book| Some((book.path.as_deref()?, book))).collect();
        // What changed may be a folder above.
        let changed = |path: &Path| desk.disk.get(path).is_some_and(|changed| *changed > level);
        let stale = |path: &Path| path.ancestors().any(changed);
        let (kept, unread): (Vec<PathBuf>, Vec<PathBuf>) =
            paths.into_iter().partition(|path| known.contains_key(path.as_path()) && !stale(path));
        books.extend(
            kept.iter().filter_map(|path| known.get(path.as_path())).map(|b| Book::clone(b)),
        );
        scan.expect(unread.len());
        let texts = read_all(&unread, || scan.read());
        for (path, contents) in unread.into_iter().zip(texts) {
            let (Ok(contents), Ok(url)) = (contents, Url::from_file_path(&path)) else { continue };
            books.push(Book {
                key: key(home, Some(&path), &url),
                url,
                text: contents.readable().into(),
                path: Some(path),
            });
        }
        books.sort_by(|a, b| a.key.cmp(&b.key));
        books
    }

    /// Makes the workspace of `books`; the one there is goes on where its files are the same.
    fn shelve(&mut self, books: Vec<Book>, anew: bool) {
        let same = |(old, new): (&Book, &Book)| old.key == new.key && old.url == new.url;
        let same =
            !anew && self.books.len() == books.len() && self.books.iter().zip(&books).all(same);
        let old = std::mem::replace(&mut self.books, books);
        if let Some(edition) = self.edition.as_ref().filter(|_| same) {
            let pairs = old.iter().zip(&self.books).enumerate();
            let other = pairs.filter(|(_, (old, new))| old.text != new.text);
            let texts = other.map(|(n, (_, new))| (id(n), new.text.clone())).collect();
            self.edition = Some(self.edited(edition.clone(), texts));
            return;
        }
        let urls = self.books.iter().map(|book| book.url.clone()).collect();
        let texts = self.books.iter().map(|book| (book.key.clone(), book.text.clone())).collect();
        let settings = self.settings.clone();
        let checked = match &self.edition {
            Some(edition) => edition.checked.next(edition.workspace().revised(texts, settings)),
            None => Checked::new(Workspace::new(texts, settings)),
        };
        self.files =
            self.books.iter().enumerate().map(|(n, book)| (book.url.clone(), id(n))).collect();
        self.edition = Some(Arc::new(Edition::new(checked, urls, self.terms)));
    }

    /// The edition with other texts in it.
    fn edited(&self, edition: Arc<Edition>, texts: Vec<(FileId, Arc<str>)>) -> Arc<Edition> {
        if texts.is_empty() {
            return edition;
        }
        let checked = edition.checked.next(edition.workspace().edit_many(texts));
        Arc::new(Edition::new(checked, edition.urls.clone(), self.terms))
    }
}

/// The file that standards would start from if it were there.
fn missing(trouble: &Trouble) -> Option<PathBuf> {
    match &trouble.what {
        Wrong::Extends(name, NoParent::Missing, _) => {
            absolute(Path::new(name), trouble.path.parent()?).ok()
        }
        _ => None,
    }
}

/// By which name a house knows a file.
fn key(home: &Home, path: Option<&Path>, url: &Url) -> Arc<str> {
    let key = match (home, path) {
        (Home::Root(root), Some(path)) => relative(path, root),
        _ => None,
    };
    key.map_or_else(|| Arc::from(url.as_str()), Arc::from)
}

fn id(n: usize) -> FileId {
    FileId(u32::try_from(n).unwrap_or(u32::MAX))
}
