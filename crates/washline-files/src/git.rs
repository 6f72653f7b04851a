//! Git objects, read by the `git` command.
//!
//! Nothing that a repository configures is run: no hook, no filter, no text conversion, no file
//! monitor, no remote. Objects come as they are stored, by one `cat-file --batch`.

use std::path::{Path, PathBuf};

mod batch;
mod command;
mod error;
mod listing;

pub use batch::{MOST_BLOB_BYTES, Object};
pub use error::GitError;
pub use listing::{Staged, Tracked};

use command::{Git, said};

/// The name of an object, as git writes it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ObjectId(String);

impl ObjectId {
    /// Its digits.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// A repository with a working tree.
#[derive(Clone, Debug)]
pub struct Repository {
    top: PathBuf,
}

impl Repository {
    /// The repository that `folder` lies in.
    ///
    /// # Errors
    /// Where git is missing, the folder lies in no repository, in a bare one, or in one that
    /// git does not trust.
    pub fn open(folder: &Path) -> Result<Self, GitError> {
        let git = Git::at(folder);
        match git.run(&["rev-parse", "--show-toplevel"]) {
            Ok(top) => Ok(Self { top: command::path(&said(&top)) }),
            Err(GitError::Failed { stderr, .. }) => Err(error::of_opening(folder, stderr)),
            Err(error) => Err(error),
        }
    }

    /// The top folder of its working tree, as git names it.
    #[must_use]
    pub fn top(&self) -> &Path {
        &self.top
    }

    /// Whether it has a commit yet at `HEAD`.
    #[must_use]
    pub fn has_commit(&self) -> bool {
        self.object("HEAD", "commit").is_ok()
    }

    /// The tree of `revision`, in any of git's spellings.
    ///
    /// # Errors
    /// Where nothing goes by that name, which in a shallow clone may be for want of history.
    pub fn tree(&self, revision: &str) -> Result<ObjectId, GitError> {
        self.object(revision, "tree")
    }

    /// The newest commit that both revisions come from.
    ///
    /// # Errors
    /// Where a revision is unknown, or the two have none in common here.
    pub fn merge_base(&self, one: &str, other: &str) -> Result<ObjectId, GitError> {
        let (a, b) = (self.object(one, "commit")?, self.object(other, "commit")?);
        match self.git().run(&["merge-base", "--", &a.0, &b.0]) {
            Ok(id) => Ok(ObjectId(said(&id))),
            Err(GitError::Failed { .. }) => Err(GitError::NoMergeBase {
                one: one.to_owned(),
                other: other.to_owned(),
                shallow: self.is_shallow(),
            }),
            Err(error) => Err(error),
        }
    }

    fn object(&self, revision: &str, kind: &str) -> Result<ObjectId, GitError> {
        if revision.is_empty() || revision.starts_with('-') || revision.contains(['\0', '\n']) {
            return Err(GitError::NoRevisionName(revision.to_owned()));
        }
        let peeled = format!("{revision}^{{{kind}}}");
        let verify = ["rev-parse", "--quiet", "--verify", "--end-of-options", &peeled];
        match self.git().run(&verify) {
            Ok(id) => Ok(ObjectId(said(&id))),
            Err(GitError::Failed { .. }) => Err(self.unknown(revision)),
            Err(error) => Err(error),
        }
    }

    fn unknown(&self, revision: &str) -> GitError {
        let head = ["rev-parse", "--quiet", "--verify", "--end-of-options", "HEAD"];
        if self.git().run(&head).is_err() {
            return GitError::NoCommit;
        }
        GitError::UnknownRevision { revision: revision.to_owned(), shallow: self.is_shallow() }
    }

    /// Whether its history was cut off when it was cloned.
    fn is_shallow(&self) -> bool {
        let asked = self.git().run(&["rev-parse", "--is-shallow-repository"]);
        asked.is_ok_and(|answer| said(&answer) == "true")
    }

    fn git(&self) -> Git<'_> {
        Git::at(&self.top)
    }
}
