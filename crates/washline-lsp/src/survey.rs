//! What is wrong in all files of the workspace's books, against what a client has of it.

use std::collections::BTreeMap;

use serde::Serialize;
use tower_lsp::lsp_types::Url;

use crate::answers::findings::Found;
use crate::desk::Desk;
use crate::diagnostics::{print, result_id};
use crate::encoding::spelled;
use crate::library::View;

/// Files and the prints of what is wrong in them.
#[derive(Debug, Default)]
pub(crate) struct Survey(BTreeMap<Url, Surveyed>);

/// A file.
#[derive(Debug)]
struct Surveyed {
    view: View,
    /// The version that is open.
    version: Option<i32>,
    result: String,
}

/// The results that a client has, by file, and how it calls the file.
#[derive(Debug, Default)]
pub(crate) struct Known(BTreeMap<Url, (Url, String)>);

/// What a client is told.
#[derive(Debug, Default, Serialize)]
pub(crate) struct Report {
    items: Vec<Item>,
}

/// What it is told of a file.
#[derive(Debug, Serialize)]
struct Item {
    uri: Url,
    version: Option<i32>,
    #[serde(flatten)]
    found: Found,
}

impl Known {
    /// The results of files as a client calls them.
    pub(crate) fn of(results: impl IntoIterator<Item = (Url, String)>) -> Self {
        Self(results.into_iter().map(|(url, result)| (spelled(&url), (url, result))).collect())
    }

    fn result(&self, file: &Url) -> Option<&str> {
        self.0.get(file).map(|(_, result)| result.as_str())
    }
}

impl Survey {
    /// Looks through the books below the workspace's folders and through all that is open; none
    /// where `goes_on` says no in between.
    pub(crate) fn of(
        files: Vec<(Url, View)>,
        desk: &Desk,
        goes_on: impl Fn() -> bool,
    ) -> Option<Self> {
        let mut survey = BTreeMap::new();
        for (url, view) in files {
            if !goes_on() {
                return None;
            }
            let version = desk.open.get(&url).map(|sheet| sheet.version);
            let result = result_id(print(&view));
            survey.insert(spelled(&url), Surveyed { view, version, result });
        }
        Some(Self(survey))
    }

    /// Whether a client that has `known` has not all.
    pub(crate) fn has_news(&self, known: &Known) -> bool {
        let is_new = |(url, file): (&Url, &Surveyed)| known.result(url) != Some(&file.result);
        self.0.iter().any(is_new) || self.gone(known).next().is_some()
    }

    /// What a client that has `known` is told.
    pub(crate) fn report(&self, known: &Known) -> Report {
        let gone = self.gone(known).map(|url| Item {
            uri: url.clone(),
            version: None,
            found: Found::NOTHING,
        });
        let here = self.0.iter().filter_map(|(url, file)| {
            let found = Found::of(&file.view, file.result.clone(), known.result(url));
            Some(Item { uri: file.view.url()?.clone(), version: file.version, found })
        });
        Report { items: here.chain(gone).collect() }
    }

    /// The files that are no more.
    fn gone<'a>(&'a self, known: &'a Known) -> impl Iterator<Item = &'a Url> {
        known.0.iter().filter(|(file, _)| !self.0.contains_key(*file)).map(|(_, (url, _))| url)
    }
}
