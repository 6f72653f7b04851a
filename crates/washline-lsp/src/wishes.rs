//! What the server wishes of the client: its settings, word of files, to be asked anew.
//!
//! The client may take its time: nobody waits for it.

use std::sync::Arc;

use serde_json::Value;
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
    if !session.switch(settings) {
        return;
    }
    let (client, terms) = (session.client.clone(), session.terms());
    tokio::spawn(async move {
        if terms.refreshes_lenses {
            let _ = client.code_lens_refresh().await;
        }
        if terms.refreshes_hints {
            let _ = client.inlay_hint_refresh().await;
        }
    });
}

/// Asks to be told when books and standards change on disk.
pub(crate) fn watch(session: &Arc<Session>) {
    let watcher = |glob: &str| FileSystemWatcher {
        glob_pattern: GlobPattern::String(glob.to_owned()),
        kind: None,
    };
    // Standards may start from a file of any name.
    let watchers = vec![watcher("**/*.pour"), watcher("**/*.toml")];
    let options = DidChangeWatchedFilesRegistrationOptions { watchers };
    let registration = Registration {
        id: "washline/files".to_owned(),
        method: "workspace/didChangeWatchedFiles".to_owned(),
        register_options: serde_json::to_value(options).ok(),
    };
    let client = session.client.clone();
    tokio::spawn(async move { client.register_capability(vec![registration]).await });
}
