//! Standards that lie where the client watches nothing by itself: beyond its folders, or under a
//! name of their own.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use tokio::runtime::Handle;
use tower_lsp::lsp_types::notification::{DidChangeWatchedFiles, Notification};
use tower_lsp::lsp_types::{
    FileSystemWatcher, GlobPattern, OneOf, RelativePattern, Unregistration, Url,
};

use crate::desk::Desk;
use crate::session::Session;
use crate::wishes::watching;

/// What the client is asked to watch.
#[derive(Debug, Default)]
pub(crate) struct Beyond {
    files: BTreeSet<PathBuf>,
    /// How often it was asked.
    asked: u64,
}

impl Beyond {
    /// Asks the client to watch those of `standards` that it does not watch yet, and no longer
    /// those that are none now.
    pub(crate) fn watch(
        &mut self,
        standards: impl Iterator<Item = PathBuf>,
        desk: &Desk,
        session: &Arc<Session>,
        runtime: &Handle,
    ) {
        let is_watched = |path: &PathBuf| {
            path.extension().is_some_and(|ending| ending == "toml")
                && desk.folders.iter().any(|folder| path.starts_with(folder))
        };
        let files: BTreeSet<PathBuf> = standards.filter(|path| !is_watched(path)).collect();
        if files == self.files {
            return;
        }
        let gone = (!self.files.is_empty()).then(|| Unregistration {
            id: self.id(),
            method: DidChangeWatchedFiles::METHOD.to_owned(),
        });
        (self.files, self.asked) = (files, self.asked + 1);
        let watchers: Vec<FileSystemWatcher> =
            self.files.iter().filter_map(|file| watcher(file)).collect();
        let come = (!watchers.is_empty()).then(|| watching(self.id(), watchers));
        let client = session.client.clone();
        runtime.spawn(async move {
            if let Some(gone) = gone {
                let _ = client.unregister_capability(vec![gone]).await;
            }
            if let Some(come) = come {
                let _ = client.register_capability(vec![come]).await;
            }
        });
    }

    /// By which name the client knows what it was asked last.
    fn id(&self) -> String {
        format!("washline/standards/{}", self.asked)
    }
}

fn watcher(file: &Path) -> Option<FileSystemWatcher> {
    let folder = Url::from_file_path(file.parent()?).ok()?;
    let name = file.file_name()?.to_str()?;
    // A pattern can't name what it has signs for.
    let pattern = if name.contains(['*', '?', '{', '}', '[', ']', ',']) { "*" } else { name };
    Some(FileSystemWatcher {
        glob_pattern: GlobPattern::Relative(RelativePattern {
            base_uri: OneOf::Right(folder),
            pattern: pattern.to_owned(),
        }),
        kind: None,
    })
}
