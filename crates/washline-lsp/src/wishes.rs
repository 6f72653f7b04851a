//! What the server wishes of the client: its settings, word of files, to be asked anew.
//!
//! The client may take its time: nobody waits for it.

use std::sync::Arc;

use serde_json::Value;
use tower_lsp::lsp_types::notification::{
    DidChangeConfiguration, DidChangeWatchedFiles, Notification,
};
use tower_lsp::lsp_types::{
    ConfigurationItem, DidChangeWatchedFilesRegistrationOptions, FileSystemWatcher, GlobPattern,
    Registration,
};

use crate::session::Session;

/// Asks for the settings.
pub(crate) fn settings(session: &Arc<Session>) {
    let session = session.clone();
    tokio::spawn(async move {
        let section = Some("washline".to_owned());
        let items = vec![ConfigurationItem { scope_uri: None, section }];
        for settings in session.client.configuration(items).await.unwrap_or_default() {
            take(&session, &settings);
        }
    });
}

/// Takes in settings; a client that can asks anew for what hangs on them.
pub(crate) fn take(session: &Arc<Session>, settings: &Value) {
    if session.switch(settings) {
        tokio::spawn(figures_anew(session.clone()));
    }
}

/// Has the client ask anew for the figures that stand beside its texts.
async fn figures_anew(session: Arc<Session>) {
    let terms = session.terms();
    if terms.refreshes_lenses {
        let _ = session.client.code_lens_refresh().await;
    }
    if terms.refreshes_hints {
        let _ = session.client.inlay_hint_refresh().await;
    }
}

/// Has the client ask anew for all that other files have a part in.
pub(crate) async fn all_anew(session: Arc<Session>) {
    if session.terms().refreshes_tokens {
        let _ = session.client.semantic_tokens_refresh().await;
    }
    figures_anew(session).await;
}

/// Asks to be told when settings change, and books and standards on disk, of a client that can.
pub(crate) fn watch(session: &Arc<Session>) {
    let (terms, mut wishes) = (session.terms(), Vec::new());
    if terms.watches {
        let watcher = |glob: &str| FileSystemWatcher {
            glob_pattern: GlobPattern::String(glob.to_owned()),
            kind: None,
        };
        // Standards may start from a file of any name.
        let watchers = vec![watcher("**/*.pour"), watcher("**/*.toml")];
        wishes.push(watching("washline/files".to_owned(), watchers));
    }
    if terms.tells_settings {
        wishes.push(Registration {
            id: "washline/settings".to_owned(),
            method: DidChangeConfiguration::METHOD.to_owned(),
            register_options: Some(serde_json::json!({"section": "washline"})),
        });
    }
    let client = session.client.clone();
    tokio::spawn(async move {
        // One that is refused takes no other with it.
        for wish in wishes {
            let _ = client.register_capability(vec![wish]).await;
        }
    });
}

/// The wish to be told when files change on disk.
pub(crate) fn watching(id: String, watchers: Vec<FileSystemWatcher>) -> Registration {
    let options = DidChangeWatchedFilesRegistrationOptions { watchers };
    Registration {
        id,
        method: DidChangeWatchedFiles::METHOD.to_owned(),
        register_options: serde_json::to_value(options).ok(),
    }
}
