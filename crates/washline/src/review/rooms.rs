//! The workspaces of one state.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use washline_book::{Settings, Workspace};
use washline_files::{Contents, Excluded};
use washline_review::Standard;
use washline_syntax::conflict_sides;
use washline_text::{FileId, Finding};

use super::snapshot::{Snapshot, folder_of};
use super::{from_top, standards};
use crate::failure::{Failure, Failures};

/// The rule that marks of a merge break.
const MERGE_CONFLICT: &str = "merge-conflict";

/// A workspace of one state. A file with a merge in it is read as our side of it.
pub(crate) struct Room {
    /// Its folder, from the top of the repository.
    pub root: String,
    pub workspace: Workspace,
    pub names: Vec<String>,
    pub asked: Vec<bool>,
    pub standards: Vec<Standard>,
    /// Files that hold a merge, each with its text and the two sides of it.
    pub merges: Vec<Merge>,
    settings: Settings,
}

/// A file in which a merge has left both versions.
pub(crate) struct Merge {
    pub file: FileId,
    pub text: Arc<str>,
    pub theirs: Arc<str>,
}

impl Room {
    /// Every finding; of a file with a merge in it, what stands in our side, and the merge.
    pub(crate) fn findings(&self) -> Vec<Finding> {
        let mut findings = washline_rules::check(&self.workspace);
        if self.merges.is_empty() {
            return findings;
        }
        let texts = self.texts(|merge| merge.text.clone());
        let as_it_stands = self.workspace.revised(texts, self.settings.clone());
        let merges = washline_rules::check(&as_it_stands);
        findings.extend(merges.into_iter().filter(|finding| finding.rule == MERGE_CONFLICT));
        findings
    }

    /// The workspace with their side of every merge.
    pub(crate) fn theirs(&self) -> Workspace {
        self.workspace.revised(self.texts(|merge| merge.theirs.clone()), self.settings.clone())
    }

    /// The text of a file, as outputs call it.
    pub(crate) fn text(&self, name: &str) -> Option<&str> {
        let at = self.names.iter().position(|known| known == name)?;
        Some(self.workspace.files().get(at)?.document.text())
    }

    /// The files that are asked for, with their texts.
    pub(crate) fn asked_texts(&self) -> impl Iterator<Item = (&str, &str)> {
        let files = self.names.iter().zip(self.workspace.files()).zip(&self.asked);
        files
            .filter(|(_, asked)| **asked)
            .map(|((name, file), _)| (name.as_str(), &**file.document.text()))
    }

    fn texts(&self, of: impl Fn(&Merge) -> Arc<str>) -> Vec<(Arc<str>, Arc<str>)> {
        let files = self.workspace.files().iter().enumerate();
        files
            .map(|(at, file)| {
                let merge = self.merges.iter().find(|merge| merge.file.0 as usize == at);
                let text = merge.map_or_else(|| file.document.text().clone(), &of);
                (file.name.clone(), text)
            })
            .collect()
    }
}

/// What is asked for: paths from the top of the repository.
#[derive(Debug)]
pub(super) struct Asked(Vec<String>);

impl Asked {
    /// The `paths`; all below `here` where there are none. None where one lies outside of the
    /// repository, which is told.
    pub(super) fn of(
        paths: &[PathBuf],
        top: &Path,
        here: &Path,
        failures: &mut Failures,
    ) -> Option<Self> {
        let all = [PathBuf::from(".")];
        let paths = if paths.is_empty() { &all } else { paths };
        let mut asked = Vec::new();
        for path in paths {
            let Some(path) = from_top(path, top, here) else {
                let name = path.to_string_lossy();
                failures.tell(&Failure::about(&name, "it lies outside of the repository"));
                return None;
            };
            asked.push(path);
        }
        Some(Self(asked))
    }

    fn holds(&self, path: &str) -> bool {
        self.0.iter().any(|asked| lies_in(path, asked))
    }

    /// Tells of paths below which neither state has a book.
    pub(super) fn tell_unknown(&self, before: &[Room], after: &[Room], failures: &mut Failures) {
        for asked in &self.0 {
            let any = before.iter().chain(after).any(|room| {
                room.workspace.files().iter().any(|file| {
                    let path = match room.root.as_str() {
                        "" => file.name.to_string(),
                        root => format!("{root}/{}", file.name),
                    };
                    lies_in(&path, asked)
                })
            });
            if !any {
                let name = if asked.is_empty() { "this folder" } else { asked };
                let failure = Failure::warning(format!("no .pour files below {name} in either"));
                failures.tell(&failure);
            }
        }
    }
}

/// Whether `path` is `folder`, or lies below it.
fn lies_in(path: &str, folder: &str) -> bool {
    folder.is_empty()
        || path == folder
        || path.strip_prefix(folder).is_some_and(|rest| rest.starts_with('/'))
}

/// Makes workspaces of a snapshot.
pub(super) struct Opener<'a> {
    pub top: &'a Path,
    pub here: &'a Path,
    pub asked: &'a Asked,
}

impl Opener<'_> {
    /// The workspaces of `snapshot`, which outputs call `side`: one for each folder with
    /// standards of its own, and one at the top. What `known` has read of a file is not read
    /// again. None where standards can't be read.
    pub(super) fn open(
        &self,
        snapshot: &Snapshot,
        side: &str,
        known: &[Room],
        failures: &mut Failures,
    ) -> Option<Vec<Room>> {
        let mut roots: Vec<(String, Settings, Vec<Standard>)> = Vec::new();
        for folder in &snapshot.houses {
            let outer = roots.iter().filter(|(root, ..)| lies_in(folder, root));
            let mut hidden =
                outer.map(|(root, settings, _)| leaves_out(settings, root, &format!("{folder}/x")));
            if hidden.any(|hidden| hidden) {
                continue;
            }
            let (settings, files) = standards::read(snapshot, folder, side, failures)?;
            roots.push((folder.clone(), settings, files));
        }
        if !snapshot.houses.contains("") {
            roots.push((String::new(), Settings::default(), Vec::new()));
        }
        let mut books: BTreeMap<&str, Vec<(&String, &Arc<Contents>)>> = BTreeMap::new();
        for (path, contents) in &snapshot.books {
            let nearest = roots
                .iter()
                .filter(|(root, ..)| lies_in(folder_of(path), root))
                .max_by_key(|(root, ..)| root.len());
            let Some((root, settings, _)) = nearest else { continue };
            if !leaves_out(settings, root, path) && !in_hidden_house(snapshot, &roots, path) {
                books.entry(root).or_default().push((path, contents));
            }
        }
        let mut rooms: Vec<Room> = roots
            .iter()
            .map(|(root, settings, files)| {
                let books = books.remove(root.as_str()).unwrap_or_default();
                let standards = files.clone();
                self.room(root, settings, standards, &books, side, known, failures)
            })
            .collect();
        rooms.sort_by(|a, b| a.root.cmp(&b.root));
        Some(rooms)
    }

    #[expect(clippy::too_many_arguments, reason = "what one workspace is made of")]
    fn room(
        &self,
        root: &str,
        settings: &Settings,
        standards: Vec<Standard>,
        books: &[(&String, &Arc<Contents>)],
        side: &str,
        known: &[Room],
        failures: &mut Failures,
    ) -> Room {
        let (mut texts, mut names, mut asked, mut merges) =
            (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for (path, contents) in books {
            let name = self.name(path);
            let text: Arc<str> = match &***contents {
                Contents::Text(text) => Arc::from(text.as_str()),
                Contents::NotUtf8(not) => {
                    let why = format!("left out, at {side}: {}", not.message());
                    failures.tell(&Failure::about(&name, why).help("save the file as UTF-8"));
                    continue;
                }
            };
            let file = FileId(u32::try_from(texts.len()).unwrap_or(u32::MAX));
            let text = match conflict_sides(&text) {
                Some([ours, theirs]) => {
                    merges.push(Merge { file, text, theirs: theirs.into() });
                    ours.into()
                }
                None => text,
            };
            let key = path.strip_prefix(root).unwrap_or(path).trim_start_matches('/');
            texts.push((Arc::from(key), text));
            names.push(name);
            asked.push(self.asked.holds(path));
        }
        let same = known.iter().find(|room| room.root == root);
        let workspace = match same {
            Some(room) => room.workspace.revised(texts, settings.clone()),
            None => Workspace::new(texts, settings.clone()),
        };
        let (root, settings) = (root.to_owned(), settings.clone());
        Room { root, workspace, names, asked, standards, merges, settings }
    }

    /// How outputs call a file: from the working directory on, or from the top.
    fn name(&self, path: &str) -> String {
        let full = self.top.join(path);
        washline_files::relative(&full, self.here).unwrap_or_else(|| path.to_owned())
    }
}

/// Whether the house at `root` leaves out the file at `path`.
fn leaves_out(settings: &Settings, root: &str, path: &str) -> bool {
    let below = path.strip_prefix(root).unwrap_or(path).trim_start_matches('/');
    Excluded::new(Path::new(""), &settings.exclude).holds(Path::new(below))
}

/// Whether a house that an outer one leaves out holds the file.
fn in_hidden_house(
    snapshot: &Snapshot,
    roots: &[(String, Settings, Vec<Standard>)],
    path: &str,
) -> bool {
    let mut houses = snapshot.houses.iter().filter(|house| lies_in(folder_of(path), house));
    houses.any(|house| !roots.iter().any(|(root, ..)| root == house))
}
