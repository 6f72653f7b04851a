//! From paths to workspaces: which roots there are, and what is asked for below each.

use std::collections::{BTreeMap, BTreeSet};
use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use washline_files::{Contents, absolute, settings_folder};

use crate::arguments::Paths;
use crate::failure::{self, Failure, Failures};
use crate::stdin;

/// What a run was asked to look at.
#[derive(Debug)]
pub(crate) struct Plan {
    /// The working directory.
    pub here: PathBuf,
    /// The workspaces, outer ones first.
    pub roots: BTreeMap<PathBuf, Asked>,
    /// Standard input that stands in for no file, with the folder whose standards hold.
    pub loose: Option<(Contents, Option<PathBuf>)>,
}

/// What was asked for in one workspace.
#[derive(Debug, Default)]
pub(crate) struct Asked {
    /// Whether it has a `washline.toml`.
    pub house: bool,
    /// Folders of books.
    pub folders: BTreeSet<PathBuf>,
    /// Books by name.
    pub files: BTreeSet<PathBuf>,
    /// Text that stands in for a file.
    pub texts: BTreeMap<PathBuf, Contents>,
}

/// Sorts the paths into workspaces. A path that is missing is told and left out.
pub(crate) fn plan(paths: &Paths, failures: &mut Failures) -> Option<Plan> {
    let here = match env::current_dir() {
        Ok(here) => here,
        Err(error) => {
            failures.tell(&Failure::about("the working directory", error));
            return None;
        }
    };
    let mut plan = Plan { here, roots: BTreeMap::new(), loose: None };
    if paths.name.is_some() && !paths.paths.iter().any(|path| is_stdin(path)) {
        failures.tell(&Failure::new("--name says what standard input is: give `-` as a path"));
        return None;
    }
    let mut stdin_read = false;
    for path in &paths.paths {
        if !is_stdin(path) {
            plan.add(path, failures);
        } else if !stdin_read {
            stdin_read = true;
            let contents = stdin::read(failures)?;
            plan.add_stdin(contents, paths.name.as_deref(), failures);
        }
    }
    plan.fold();
    Some(plan)
}

fn is_stdin(path: &Path) -> bool {
    path.as_os_str() == "-"
}

impl Plan {
    fn add(&mut self, path: &Path, failures: &mut Failures) {
        let found = absolute(path, &self.here).and_then(|full| Ok((fs::metadata(&full)?, full)));
        match found {
            Ok((metadata, full)) if metadata.is_dir() => {
                self.asked(&full).folders.insert(full);
            }
            Ok((_, full)) => {
                self.asked(parent(&full)).files.insert(full);
            }
            Err(error) => failures.tell(&failure::path(path, &error)),
        }
    }

    fn add_stdin(&mut self, contents: Contents, name: Option<&Path>, failures: &mut Failures) {
        let Some(name) = name else {
            let house = settings_folder(&self.here).map(Path::to_path_buf);
            self.loose = Some((contents, house));
            return;
        };
        match absolute(name, &self.here) {
            Ok(full) => {
                self.asked(parent(&full)).texts.insert(full, contents);
            }
            Err(error) => failures.tell(&failure::path(name, &error)),
        }
    }

    /// The workspace that `folder` belongs to.
    fn asked(&mut self, folder: &Path) -> &mut Asked {
        let root = settings_folder(folder);
        let asked = self.roots.entry(root.unwrap_or(folder).to_path_buf()).or_default();
        asked.house = root.is_some();
        asked
    }

    /// A folder without standards that lies in another without any is no workspace of its own.
    fn fold(&mut self) {
        let bare: Vec<PathBuf> = self
            .roots
            .iter()
            .filter(|(_, asked)| !asked.house)
            .map(|(root, _)| root.clone())
            .collect();
        for inner in &bare {
            let mut above = inner.ancestors().skip(1);
            let Some(outer) = above.find(|above| bare.iter().any(|root| root == above)) else {
                continue;
            };
            if let Some(asked) = self.roots.remove(inner)
                && let Some(whole) = self.roots.get_mut(outermost(outer, &bare))
            {
                whole.folders.extend(asked.folders);
                whole.files.extend(asked.files);
                whole.texts.extend(asked.texts);
            }
        }
    }
}

/// The highest of `roots` that `folder` lies in.
fn outermost<'a>(folder: &'a Path, roots: &[PathBuf]) -> &'a Path {
    folder
        .ancestors()
        .filter(|above| roots.iter().any(|root| root == above))
        .last()
        .unwrap_or(folder)
}

fn parent(file: &Path) -> &Path {
    file.parent().unwrap_or(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The roots of `paths` in a tree of empty files, each with the folders and files asked for.
    fn roots(tree: &[&str], paths: &[&str]) -> Vec<(String, Vec<String>)> {
        let folder = tempfile::tempdir().unwrap();
        let here = folder.path().canonicalize().unwrap();
        for file in tree {
            let file = here.join(file);
            fs::create_dir_all(parent(&file)).unwrap();
            fs::write(file, "").unwrap();
        }
        let mut plan = Plan { here: here.clone(), roots: BTreeMap::new(), loose: None };
        let mut failures = Failures::new(crate::arguments::Color::Never, false);
        paths.iter().for_each(|path| plan.add(Path::new(path), &mut failures));
        plan.fold();
        let name = |path: &PathBuf| washline_files::shown(path, &here);
        let roots = plan.roots.iter();
        roots
            .map(|(root, a)| (name(root), a.folders.iter().chain(&a.files).map(name).collect()))
            .collect()
    }

    fn root(name: &str, asked: &[&str]) -> (String, Vec<String>) {
        (name.to_owned(), asked.iter().map(|&path| path.to_owned()).collect())
    }

    #[test]
    fn the_root_is_the_nearest_house_or_the_own_folder() {
        let tree = ["house/washline.toml", "house/list/a.pour", "b/c.pour"];
        let paths = ["house/list", "b/c.pour"];
        assert_eq!(
            roots(&tree, &paths),
            [root("b", &["b/c.pour"]), root("house", &["house/list"])]
        );
    }

    #[test]
    fn a_bare_folder_in_a_bare_folder_is_part_of_it() {
        let tree = ["a/b/c/d.pour", "a/house/washline.toml", "a/house/e.pour"];
        let paths = ["a/b/c/d.pour", "a/b", "a", "a/house/e.pour"];
        let whole = root("a", &["a", "a/b", "a/b/c/d.pour"]);
        assert_eq!(roots(&tree, &paths), [whole, root("a/house", &["a/house/e.pour"])]);
    }
}
