//! Specs with a cursor in them, for tests.

use std::sync::Arc;

use washline_book::{Known, Settings, Workspace, read_settings};
use washline_text::{Edit, FileId, Place, Span, apply};

use crate::{Does, Edits, actions, resolve};

/// A workspace for a test: the texts of its files.
pub(crate) struct House {
    /// The files, read.
    pub workspace: Workspace,
    texts: Vec<String>,
}

/// Where the cursor stands.
#[derive(Clone, Copy, Debug)]
pub(crate) struct At {
    /// The file.
    pub file: FileId,
    /// The byte.
    pub offset: u32,
}

impl House {
    /// One file whose cursor is `|`.
    pub(crate) fn at(text: &str) -> (Self, At) {
        Self::of(&[text])
    }

    /// Several files; one of them holds the cursor `|`.
    pub(crate) fn of(files: &[&str]) -> (Self, At) {
        Self::under(files, "")
    }

    /// Several files under a `washline.toml`.
    pub(crate) fn under(files: &[&str], settings: &str) -> (Self, At) {
        let mut at = At { file: FileId(0), offset: 0 };
        let mut texts = Vec::new();
        for (file, text) in files.iter().enumerate() {
            if let Some(offset) = text.find('|') {
                at = At { file: FileId(file as u32), offset: offset as u32 };
            }
            texts.push(text.replacen('|', "", 1));
        }
        (Self::new(texts, settings), at)
    }

    fn new(texts: Vec<String>, settings: &str) -> Self {
        let settings = match settings {
            "" => Settings::default(),
            text => read(text),
        };
        let files = texts
            .iter()
            .enumerate()
            .map(|(at, text)| (Arc::from(format!("{at}.pour")), Arc::from(text.as_str())));
        Self { workspace: Workspace::new(files.collect(), settings), texts }
    }

    /// The text of the first file.
    pub(crate) fn text(&self) -> &str {
        &self.texts[0]
    }

    /// The words at a span of the first file.
    pub(crate) fn words(&self, span: Span) -> &str {
        span.text(self.text())
    }

    /// The words at a place.
    pub(crate) fn said(&self, place: Place) -> &str {
        place.span.text(&self.texts[place.file.0 as usize])
    }

    /// The texts after `edits`.
    pub(crate) fn after(&self, edits: &Edits) -> Vec<String> {
        let own = |file: usize| {
            let here = edits.iter().filter(move |(id, _)| id.0 as usize == file);
            here.map(|(_, edit)| edit.clone()).collect::<Vec<Edit>>()
        };
        self.texts.iter().enumerate().map(|(at, text)| apply(text, &own(at)).unwrap()).collect()
    }
}

/// The first file after the action of that title, offered where the cursor stands; none where it
/// is not offered.
pub(crate) fn after_action(text: &str, title: &str) -> Option<String> {
    let (house, at) = House::at(text);
    let actions = actions(&house.workspace, at.file, Span::at(at.offset), &[]);
    let action = actions.into_iter().find(|action| action.title == title)?;
    let Does::Deferred(act) = action.does else { return None };
    let edits = resolve(&house.workspace, at.file, &act)?;
    house.after(&edits).into_iter().next()
}

/// The settings that a text comes to.
pub(crate) fn read(text: &str) -> Settings {
    let rules: Vec<&str> = washline_rules::all().map(|rule| rule.name).collect();
    let families: Vec<&str> = washline_reference::families().iter().map(|f| f.name).collect();
    let known = Known { rules: &rules, families: &families, techniques: &[] };
    read_settings(text, &known).unwrap()
}
