//! One run of `git`, with everything switched off that a repository or the environment could
//! make it run.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use super::GitError;

/// The index that `git commit` has made ready for its hooks: with `-a` or with paths it is not
/// the usual one.
const INDEX: &str = "GIT_INDEX_FILE";

/// What every run is told before its own arguments.
const QUIET: [&str; 16] = [
    "--no-pager",
    "--no-optional-locks",
    "--no-replace-objects",
    "--literal-pathspecs",
    "-c",
    "core.fsmonitor=false",
    "-c",
    "core.hooksPath=/dev/null",
    "-c",
    "core.untrackedCache=false",
    "-c",
    "protocol.allow=never",
    "-c",
    "core.quotePath=false",
    "-c",
    "gc.auto=0",
];

/// Git, run in one folder.
#[derive(Clone, Copy, Debug)]
pub(super) struct Git<'a> {
    folder: &'a Path,
    index: bool,
}

impl<'a> Git<'a> {
    pub(super) const fn at(folder: &'a Path) -> Self {
        Self { folder, index: false }
    }

    /// With the index that a commit under way has named.
    pub(super) const fn with_index(self) -> Self {
        Self { index: true, ..self }
    }

    /// What it writes.
    pub(super) fn run(self, arguments: &[&str]) -> Result<Vec<u8>, GitError> {
        let output = self.command(arguments).output().map_err(GitError::of_start)?;
        if output.status.success() {
            return Ok(output.stdout);
        }
        let stderr = String::from_utf8_lossy(&output.stderr).trim().to_owned();
        Err(GitError::Failed { what: arguments.join(" "), stderr })
    }

    /// The command, standard input and output open to be piped.
    pub(super) fn command(self, arguments: &[&str]) -> Command {
        let mut command = Command::new("git");
        for (name, _) in env::vars_os() {
            let own = self.index && name == INDEX;
            if name.to_string_lossy().starts_with("GIT_") && !own {
                command.env_remove(name);
            }
        }
        command
            .env("GIT_TERMINAL_PROMPT", "0")
            .env("GIT_NO_LAZY_FETCH", "1")
            .env("LC_ALL", "C")
            .current_dir(self.folder)
            .args(QUIET)
            .args(arguments)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        command
    }
}

/// The line that git answered with.
pub(super) fn said(output: &[u8]) -> String {
    String::from_utf8_lossy(output).trim_end_matches(['\n', '\r']).to_owned()
}

/// A path as git writes it.
pub(super) fn path(text: &str) -> PathBuf {
    PathBuf::from(text)
}
