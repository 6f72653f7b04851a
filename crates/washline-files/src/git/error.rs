//! What can go wrong when git is asked: what, why, and what to do.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// Why git could not answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GitError {
    /// There is no `git` to run.
    NoGit,
    /// It could not be started.
    Start(String),
    /// The folder lies in no repository.
    NoRepository(PathBuf),
    /// The repository has no working tree.
    Bare(PathBuf),
    /// Git does not trust who owns the folder.
    Untrusted(PathBuf),
    /// A name that no revision has.
    NoRevisionName(String),
    /// Nothing goes by this name.
    UnknownRevision {
        /// The name.
        revision: String,
        /// Whether the clone has only a part of the history.
        shallow: bool,
    },
    /// Nothing was committed yet.
    NoCommit,
    /// Two revisions that come from no common one, as far as is known here.
    NoMergeBase {
        /// One.
        one: String,
        /// The other.
        other: String,
        /// Whether the clone has only a part of the history.
        shallow: bool,
    },
    /// Git says something else.
    Failed {
        /// What it was asked.
        what: String,
        /// What it said.
        stderr: String,
    },
}

impl GitError {
    pub(super) fn of_start(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound => Self::NoGit,
            _ => Self::Start(error.to_string()),
        }
    }

    /// What to do.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::NoGit => "install git, or put the folder that holds it on the PATH".to_owned(),
            Self::Start(_) | Self::Failed { .. } => {
                "run the same git command by hand to see what it needs".to_owned()
            }
            Self::NoRepository(_) => {
                "run it inside the repository of the book; `git init` makes one".to_owned()
            }
            Self::Bare(_) => "run it in a clone that has its files checked out".to_owned(),
            Self::Untrusted(folder) => format!(
                "if you trust it: git config --global --add safe.directory '{}'",
                folder.display()
            ),
            Self::NoRevisionName(revision) if revision.is_empty() => {
                "name a commit, a branch or a tag".to_owned()
            }
            Self::NoRevisionName(_) => {
                "name a commit, a branch or a tag; a name never begins with `-`".to_owned()
            }
            Self::UnknownRevision { shallow: true, .. } | Self::NoMergeBase { shallow: true, .. } => {
                "fetch the rest: `git fetch --unshallow`, or in a workflow's checkout `fetch-depth: 0`"
                    .to_owned()
            }
            Self::UnknownRevision { revision, .. } if revision.contains("..") => {
                "name the two revisions one after the other, with a blank between".to_owned()
            }
            Self::UnknownRevision { .. } => {
                "`git branch --all` and `git tag` list the names; a branch of the remote is `origin/NAME`"
                    .to_owned()
            }
            Self::NoCommit => {
                "commit once first; `review --staged` compares a first commit with nothing"
                    .to_owned()
            }
            Self::NoMergeBase { .. } => "name the revision to compare with itself".to_owned(),
        }
    }
}

impl fmt::Display for GitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoGit => {
                f.write_str("git is not installed: revisions are read by the `git` command")
            }
            Self::Start(why) => write!(f, "git could not be started: {why}"),
            // The folder is the one that the run is in: its path would say no more.
            Self::NoRepository(_) => f.write_str(
                "this folder is in no git repository: there are no revisions to compare",
            ),
            Self::Bare(_) => f.write_str("this is a bare repository: it has no files to look at"),
            Self::Untrusted(_) => {
                f.write_str("git does not read this repository: it belongs to another user")
            }
            Self::NoRevisionName(revision) if revision.is_empty() => {
                f.write_str("the name of a revision is empty")
            }
            Self::NoRevisionName(revision) => write!(f, "`{revision}` is no name of a revision"),
            Self::UnknownRevision { revision, shallow: true } => write!(
                f,
                "there is no revision `{revision}` in this clone: it is shallow, older history was left out"
            ),
            Self::UnknownRevision { revision, .. } => {
                write!(f, "there is no revision `{revision}` in this repository")
            }
            Self::NoCommit => {
                f.write_str("nothing was committed yet: there is nothing to compare with")
            }
            Self::NoMergeBase { one, other, shallow: true } => write!(
                f,
                "`{one}` and `{other}` have no common commit in this clone: it is shallow, older history was left out"
            ),
            Self::NoMergeBase { one, other, .. } => {
                write!(f, "`{one}` and `{other}` have no commit in common")
            }
            Self::Failed { what, stderr } => write!(f, "`git {what}` failed: {stderr}"),
        }
    }
}

impl std::error::Error for GitError {}

/// Why a repository could not be opened, by what git said.
pub(super) fn of_opening(folder: &Path, stderr: String) -> GitError {
    let folder = folder.to_path_buf();
    if stderr.contains("dubious ownership") {
        return GitError::Untrusted(folder);
    }
    if stderr.contains("must be run in a work tree") {
        return GitError::Bare(folder);
    }
    if stderr.contains("not a git repository") {
        return GitError::NoRepository(folder);
    }
    GitError::Failed { what: "rev-parse --show-toplevel".to_owned(), stderr }
}
