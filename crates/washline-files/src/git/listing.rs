//! The files of a tree, and those of the index.

use std::collections::BTreeMap;
use std::path::PathBuf;

use super::command::path;
use super::{GitError, ObjectId, Repository};

/// An ordinary file that git knows, by its path from the top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tracked {
    /// Its path from the top of the working tree, with `/`.
    pub path: PathBuf,
    /// What it holds.
    pub id: ObjectId,
}

/// What is staged.
#[derive(Clone, Debug, Default)]
pub struct Staged {
    /// The files; of one that is not merged yet, our version, else theirs.
    pub files: Vec<Tracked>,
    /// Those that are not merged yet.
    pub unmerged: Vec<PathBuf>,
}

impl Repository {
    /// The ordinary files of a tree. Links and other repositories inside are left out.
    ///
    /// # Errors
    /// Where git can't read the tree.
    pub fn files(&self, tree: &ObjectId) -> Result<Vec<Tracked>, GitError> {
        let output = self.git().run(&["ls-tree", "-r", "-z", "--full-tree", &tree.0])?;
        Ok(records(&output).filter_map(|record| of_tree(&record)).collect())
    }

    /// The ordinary files of the index: what the next commit would hold.
    ///
    /// # Errors
    /// Where git can't read the index.
    pub fn staged(&self) -> Result<Staged, GitError> {
        let output = self.git().with_index().run(&["ls-files", "--stage", "-z", "--full-name"])?;
        let mut staged = Staged::default();
        let mut unmerged: BTreeMap<PathBuf, (u8, ObjectId)> = BTreeMap::new();
        for (stage, file) in records(&output).filter_map(|record| of_index(&record)) {
            if stage == 0 {
                staged.files.push(file);
                continue;
            }
            // Ours (2), else theirs (3), else what both come from (1).
            let rank = |stage: u8| [9, 2, 0, 1].get(usize::from(stage)).copied().unwrap_or(9);
            match unmerged.get(&file.path) {
                Some((known, _)) if rank(*known) <= rank(stage) => {}
                _ => {
                    unmerged.insert(file.path, (stage, file.id));
                }
            }
        }
        for (path, (_, id)) in unmerged {
            staged.unmerged.push(path.clone());
            staged.files.push(Tracked { path, id });
        }
        Ok(staged)
    }
}

/// The records of an output with `-z`.
fn records(output: &[u8]) -> impl Iterator<Item = String> + '_ {
    let records = output.split(|byte| *byte == 0).filter(|record| !record.is_empty());
    records.map(|record| String::from_utf8_lossy(record).into_owned())
}

/// `100644 blob ID<TAB>PATH`
fn of_tree(record: &str) -> Option<Tracked> {
    let (head, name) = record.split_once('\t')?;
    let mut words = head.split(' ');
    let (mode, _, id) = (words.next()?, words.next()?, words.next()?);
    is_ordinary(mode).then(|| Tracked { path: path(name), id: ObjectId(id.to_owned()) })
}

/// `100644 ID STAGE<TAB>PATH`
fn of_index(record: &str) -> Option<(u8, Tracked)> {
    let (head, name) = record.split_once('\t')?;
    let mut words = head.split(' ');
    let (mode, id, stage) = (words.next()?, words.next()?, words.next()?);
    let file = Tracked { path: path(name), id: ObjectId(id.to_owned()) };
    is_ordinary(mode).then_some((stage.parse().ok()?, file))
}

fn is_ordinary(mode: &str) -> bool {
    mode.starts_with("100")
}
