//! A workspace as it was at one moment, with what was found in it.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use tower_lsp::lsp_types::{Location, TextEdit, Url};
use washline_book::Workspace;
use washline_rules::Checked;
use washline_text::{Edit, FileId, Finding, Place};

use crate::encoding::Ruler;
use crate::terms::Terms;

/// A workspace at one moment.
#[derive(Debug)]
pub(crate) struct Edition {
    /// Its files, entries and figures, and what was found in them and in earlier editions.
    pub checked: Checked,
    /// How the client calls its files, in its order.
    pub urls: Arc<[Url]>,
    /// What was agreed on with the client.
    pub terms: Terms,
    findings: Mutex<BTreeMap<FileId, Arc<[Finding]>>>,
}

impl Edition {
    pub(crate) const fn new(checked: Checked, urls: Arc<[Url]>, terms: Terms) -> Self {
        Self { checked, urls, terms, findings: Mutex::new(BTreeMap::new()) }
    }

    /// Its files, entries and figures.
    pub(crate) const fn workspace(&self) -> &Workspace {
        self.checked.workspace()
    }

    /// What the rules find in a file, waived findings left out. The rules run once, and only
    /// where something may be otherwise than in an earlier edition.
    pub(crate) fn findings(&self, file: FileId) -> Arc<[Finding]> {
        let mut known = self.findings.lock().unwrap_or_else(PoisonError::into_inner);
        let find =
            || self.checked.findings_of(file).into_iter().filter(|one| !one.waived).collect();
        known.entry(file).or_insert_with(find).clone()
    }

    /// How the client calls a file.
    pub(crate) fn url(&self, file: FileId) -> Option<&Url> {
        self.urls.get(file.0 as usize)
    }

    /// The measure of a file.
    pub(crate) fn ruler(&self, file: FileId) -> Option<Ruler<'_>> {
        let columns = self.terms.columns;
        let file = self.workspace().file(file)?;
        Some(Ruler { text: file.document.text(), index: &file.index, columns })
    }

    /// A place as the client knows it.
    pub(crate) fn location(&self, place: Place) -> Option<Location> {
        let range = self.ruler(place.file)?.range(place.span);
        Some(Location::new(self.url(place.file)?.clone(), range))
    }

    /// Edits by the file that they are of.
    pub(crate) fn text_edits(&self, edits: &[(FileId, Edit)]) -> BTreeMap<Url, Vec<TextEdit>> {
        let mut changes: BTreeMap<Url, Vec<TextEdit>> = BTreeMap::new();
        for (file, edit) in edits {
            if let (Some(url), Some(ruler)) = (self.url(*file), self.ruler(*file)) {
                let edit = TextEdit::new(ruler.range(edit.span), edit.text.clone());
                changes.entry(url.clone()).or_default().push(edit);
            }
        }
        changes
    }
}
