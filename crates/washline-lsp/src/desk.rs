//! What the client has told: the texts it holds open, its folders, what changed on disk.
//!
//! Taking a copy is cheap: it shares everything. Every change moves the stamp, so that who
//! works from a copy can see whether it is still the newest.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use tower_lsp::lsp_types::{TextDocumentContentChangeEvent, Url};
use washline_files::SETTINGS;
use washline_text::{Columns, Common, LineIndex};

use crate::encoding::Ruler;
use crate::terms::Terms;

/// What the client has told so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Desk {
    /// What was agreed on.
    pub terms: Terms,
    /// Moves with every change.
    pub stamp: u64,
    /// The stamp of the last change of what files there are, or of a house's standards.
    pub arranged: u64,
    /// The stamp of the last text that was closed.
    pub closed: u64,
    /// The folders of the workspace.
    pub folders: Arc<BTreeSet<PathBuf>>,
    /// The texts that are open.
    pub open: Arc<BTreeMap<Url, Sheet>>,
    /// Paths that changed on disk, and when.
    pub disk: Arc<BTreeMap<PathBuf, u64>>,
}

/// A text that is open.
#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    /// The client's own count of its changes.
    pub version: i32,
    /// The stamp of its last change.
    pub stamp: u64,
    /// What it holds.
    pub page: Arc<Page>,
    /// Where it lies on disk, or will.
    pub path: Option<PathBuf>,
}

/// A text and where its lines start.
#[derive(Debug)]
pub(crate) struct Page {
    /// The text.
    pub text: Arc<str>,
    index: OnceLock<LineIndex>,
}

impl Page {
    fn new(text: String) -> Arc<Self> {
        Arc::new(Self { text: text.into(), index: OnceLock::new() })
    }

    /// The page that a change makes of this one.
    fn changed(&self, change: TextDocumentContentChangeEvent, columns: Columns) -> Arc<Self> {
        let Some(range) = change.range else { return Self::new(change.text) };
        let ruler = self.ruler(columns);
        let span = ruler.span(range);
        let before = self.text.get(..span.start as usize).unwrap_or_default();
        let after = self.text.get(span.end as usize..).unwrap_or_default();
        let text = [before, &change.text, after].concat();
        let common = Common { head: before.len(), tail: after.len() };
        let index = ruler.index.edited(&text, common);
        Arc::new(Self { text: text.into(), index: index.into() })
    }

    /// Its measure.
    pub(crate) fn ruler(&self, columns: Columns) -> Ruler<'_> {
        let index = self.index.get_or_init(|| LineIndex::new(&self.text));
        Ruler { text: &self.text, index, columns }
    }
}

impl Sheet {
    /// Whether it holds standards and no specs.
    pub(crate) fn is_standards(&self) -> bool {
        self.path.as_deref().and_then(Path::extension).is_some_and(|ending| ending == "toml")
    }
}

impl Desk {
    /// Opens a text; one that is open already is laid aside.
    pub(crate) fn open(&mut self, url: Url, version: i32, text: String) {
        self.stamp += 1;
        let path = url.to_file_path().ok();
        let sheet = Sheet { version, stamp: self.stamp, page: Page::new(text), path };
        self.arranged = if sheet.is_standards() { self.stamp } else { self.arranged };
        Arc::make_mut(&mut self.open).insert(url, sheet);
    }

    /// Changes a text, part by part, each part as the ones before left it.
    pub(crate) fn change(
        &mut self,
        url: &Url,
        version: i32,
        changes: Vec<TextDocumentContentChangeEvent>,
    ) {
        let columns = self.terms.columns;
        let Some(sheet) = Arc::make_mut(&mut self.open).get_mut(url) else { return };
        for change in changes {
            sheet.page = sheet.page.changed(change, columns);
        }
        self.stamp += 1;
        sheet.version = version;
        sheet.stamp = self.stamp;
        if sheet.is_standards() {
            self.arranged = self.stamp;
        }
    }

    /// Closes a text: what is on disk counts again.
    pub(crate) fn close(&mut self, url: &Url) {
        let Some(sheet) = Arc::make_mut(&mut self.open).remove(url) else { return };
        self.stamp += 1;
        self.closed = self.stamp;
        if let Some(path) = &sheet.path {
            Arc::make_mut(&mut self.disk).insert(path.clone(), self.stamp);
        }
        if sheet.is_standards() {
            self.arranged = self.stamp;
        }
    }

    /// Paths changed on disk, came or went.
    pub(crate) fn changed_on_disk(&mut self, paths: impl IntoIterator<Item = PathBuf>) {
        self.stamp += 1;
        self.arranged = self.stamp;
        Arc::make_mut(&mut self.disk).extend(paths.into_iter().map(|path| (path, self.stamp)));
    }

    /// Folders come and go.
    pub(crate) fn refold(
        &mut self,
        come: impl IntoIterator<Item = PathBuf>,
        gone: impl IntoIterator<Item = PathBuf>,
    ) {
        self.stamp += 1;
        self.arranged = self.stamp;
        let folders = Arc::make_mut(&mut self.folders);
        gone.into_iter().for_each(|folder| {
            folders.remove(&folder);
        });
        folders.extend(come);
    }

    /// The text that is open for a path.
    pub(crate) fn at(&self, path: &Path) -> Option<&Sheet> {
        let url = Url::from_file_path(path).ok()?;
        // Clients spell paths in more ways than one.
        let other = || self.open.values().find(|sheet| sheet.path.as_deref() == Some(path));
        self.open.get(&url).or_else(other)
    }

    /// The root of the workspace that a file of the folder `folder` belongs to, and whether
    /// that is a house: the nearest `washline.toml` upward, not above the client's own folder.
    pub(crate) fn root<'a>(&'a self, folder: &'a Path) -> (&'a Path, bool) {
        let ceiling = self.folders.iter().filter(|own| folder.starts_with(own));
        let ceiling = ceiling.max_by_key(|own| own.as_os_str().len());
        let within = |above: &&Path| ceiling.is_none_or(|ceiling| above.starts_with(ceiling));
        let house = folder.ancestors().take_while(within).find(|above| self.is_house(above));
        match house {
            Some(house) => (house, true),
            None => (ceiling.map_or(folder, PathBuf::as_path), false),
        }
    }

    /// Whether a folder has standards of its own, on disk or unsaved.
    pub(crate) fn is_house(&self, folder: &Path) -> bool {
        let path = folder.join(SETTINGS);
        path.is_file() || self.open.values().any(|sheet| sheet.path.as_deref() == Some(&path))
    }
}
