//! A workspace as it was at one moment, with what was found in it.

use std::collections::{BTreeMap, HashMap};
use std::sync::{Arc, OnceLock};

use tower_lsp::lsp_types::{Location, TextEdit, Url, WorkspaceEdit};
use washline_book::Workspace;
use washline_text::{Edit, FileId, Finding, Place};

use crate::encoding::Ruler;
use crate::terms::Terms;

/// A workspace at one moment.
#[derive(Debug)]
pub(crate) struct Edition {
    /// Its files, entries and figures.
    pub workspace: Arc<Workspace>,
    /// How the client calls its files, in its order.
    pub urls: Arc<[Url]>,
    /// What was agreed on with the client.
    pub terms: Terms,
    findings: OnceLock<BTreeMap<FileId, Vec<Finding>>>,
}

impl Edition {
    pub(crate) const fn new(workspace: Arc<Workspace>, urls: Arc<[Url]>, terms: Terms) -> Self {
        Self { workspace, urls, terms, findings: OnceLock::new() }
    }

    /// What the rules find in a file, waived findings left out. The rules run once.
    pub(crate) fn findings(&self, file: FileId) -> &[Finding] {
        self.found().get(&file).map_or(&[], Vec::as_slice)
    }

    fn found(&self) -> &BTreeMap<FileId, Vec<Finding>> {
        self.findings.get_or_init(|| {
            let mut by_file: BTreeMap<FileId, Vec<Finding>> = BTreeMap::new();
            for finding in washline_rules::check(&self.workspace) {
                if !finding.waived {
                    by_file.entry(finding.place.file).or_default().push(finding);
                }
            }
            by_file
        })
    }

    /// How the client calls a file.
    pub(crate) fn url(&self, file: FileId) -> Option<&Url> {
        self.urls.get(file.0 as usize)
    }

    /// The measure of a file.
    pub(crate) fn ruler(&self, file: FileId) -> Option<Ruler<'_>> {
        let columns = self.terms.columns;
        let file = self.workspace.file(file)?;
        Some(Ruler { text: file.document.text(), index: &file.index, columns })
    }

    /// A place as the client knows it.
    pub(crate) fn location(&self, place: Place) -> Option<Location> {
        let range = self.ruler(place.file)?.range(place.span);
        Some(Location::new(self.url(place.file)?.clone(), range))
    }

    /// Edits of several files as a single act of the client.
    pub(crate) fn workspace_edit(&self, edits: &[(FileId, Edit)]) -> WorkspaceEdit {
        let mut changes: HashMap<Url, Vec<TextEdit>> = HashMap::new();
        for (file, edit) in edits {
            if let (Some(url), Some(ruler)) = (self.url(*file), self.ruler(*file)) {
                let edit = TextEdit::new(ruler.range(edit.span), edit.text.clone());
                changes.entry(url.clone()).or_default().push(edit);
            }
        }
        WorkspaceEdit::new(changes)
    }
}
