//! The standards of each file: the house's, and what its book and its folder say.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use washline_measure::{Unit, UnitKind};
use washline_reference::Market;
use washline_syntax::{EntryKind, Field, Key, LineKind, Value};
use washline_text::{FileId, Place, Span, fold};

use crate::{Settings, SourceFile};

/// The standards of each file.
#[derive(Clone, Debug)]
pub(crate) struct Standards {
    house: Arc<Settings>,
    by_file: Arc<Vec<Arc<Settings>>>,
    by_book: Arc<FxHashMap<Arc<str>, Book>>,
}

/// What one book says under its heading, where the house is silent.
#[derive(Clone, Debug)]
struct Book {
    settings: Arc<Settings>,
    /// The key of the house's that each field stands for, the file of the field, and where it
    /// stands in the book's entry.
    said: Vec<(String, FileId, Span)>,
}

impl Standards {
    /// Reads what the books and folders say over the house's standards.
    pub(crate) fn new(files: &[Arc<SourceFile>], house: Arc<Settings>) -> Self {
        let by_book = books(files, &house);
        let mut folders: FxHashMap<(Option<&str>, &str), Arc<Settings>> = FxHashMap::default();
        let mut by_file = Vec::with_capacity(files.len());
        for file in files {
            let own = file.book.as_ref().and_then(|book| by_book.get(book));
            let own = own.map_or(&house, |book| &book.settings);
            // `washline.toml` beats the book: what it says of a folder too.
            let held = match house.folder_market(&file.name) {
                None => own.clone(),
                Some((folder, markets)) => folders
                    .entry((file.book.as_deref(), folder))
                    .or_insert_with(|| {
                        Arc::new(Settings { markets: markets.to_vec(), ..(**own).clone() })
                    })
                    .clone(),
            };
            by_file.push(held);
        }
        Self { house, by_file: Arc::new(by_file), by_book: Arc::new(by_book) }
    }

    /// The same house with other files.
    pub(crate) fn renewed(&self, files: &[Arc<SourceFile>]) -> Self {
        Self::new(files, self.house.clone())
    }

    /// The house's.
    pub(crate) const fn house(&self) -> &Arc<Settings> {
        &self.house
    }

    /// The standards that hold in `file`.
    pub(crate) fn of(&self, file: FileId) -> &Settings {
        self.by_file.get(file.0 as usize).unwrap_or(&self.house)
    }

    /// Where the book `name` says the key `key` of the house's.
    pub(crate) fn said(&self, files: &[Arc<SourceFile>], name: &str, key: &str) -> Option<Place> {
        let said = &self.by_book.get(name)?.said;
        let (_, file, span) = said.iter().find(|(of, ..)| of == key)?;
        let document = &files.get(file.0 as usize)?.document;
        let mut entries = document.entries().iter();
        let book = entries.find(|at| at.entry.kind == EntryKind::Book)?;
        Some(Place { file: *file, span: span.shift(book.start) })
    }
}

/// The standards of each named book: its fields hold where the house is silent.
fn books(files: &[Arc<SourceFile>], settings: &Arc<Settings>) -> FxHashMap<Arc<str>, Book> {
    let mut out: FxHashMap<Arc<str>, Book> = FxHashMap::default();
    for (n, file) in files.iter().enumerate() {
        let Some(name) = &file.book else { continue };
        let mut entries = file.frame.iter();
        let Some(entry) = entries.find(|entry| entry.kind == EntryKind::Book) else { continue };
        let file = FileId(u32::try_from(n).unwrap_or(u32::MAX));
        for line in &entry.lines {
            let LineKind::Field(field) = &line.what else { continue };
            let Value::Terms(terms) = &field.value else { continue };
            let words = terms.iter().map(|term: &Span| fold(term.text(&entry.text)));
            let place = (file, whole(terms));
            let fresh = || Book { settings: settings.clone(), said: Vec::new() };
            say(field, words, place, settings, || out.entry(name.clone()).or_insert_with(fresh));
        }
    }
    out
}

/// Takes over what one field says; `book` gives the book that it stands in.
fn say<'b>(
    field: &Field,
    words: impl Iterator<Item = String>,
    (file, span): (FileId, Span),
    house: &Settings,
    book: impl FnOnce() -> &'b mut Book,
) {
    match field.key {
        Some(Key::Market) if house.markets.is_empty() => {
            let markets: Vec<Market> =
                words.filter_map(|word| Market::from_id(&word.replace(' ', "-"))).collect();
            let book = book();
            Arc::make_mut(&mut book.settings).markets = markets;
            book.said.push(("market".to_owned(), file, span));
        }
        Some(Key::Units) if house.units.is_empty() => {
            let book = book();
            for unit in words.filter_map(|word| Unit::from_words(&word)) {
                let kind = if unit.kind() == UnitKind::Mass { "solid" } else { "liquid" };
                Arc::make_mut(&mut book.settings).units.insert(kind.to_owned(), unit);
                book.said.push((format!("units.{kind}"), file, span));
            }
        }
        _ => {}
    }
}

fn whole(terms: &[Span]) -> Span {
    let ends = terms.first().zip(terms.last());
    ends.map_or_else(Span::default, |(first, last)| first.cover(*last))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Known, Workspace, read_settings};

    fn workspace(files: &[(&str, &str)], settings: &str) -> Workspace {
        let known = Known { rules: &[], families: &[], techniques: &[] };
        let files = files.iter().map(|(name, text)| (Arc::from(*name), Arc::from(*text)));
        Workspace::new(files.collect(), read_settings(settings, &known).unwrap())
    }

    #[test]
    fn a_book_speaks_where_the_house_is_silent() {
        let text = "book: Winter\nmarket: uk\nunits: oz, g\n\ndrink: A\n  60 ml gin\n";
        let files = [("a.pour", text), ("b.pour", "drink: B\n  60 ml gin\n")];
        let silent = workspace(&files, "");
        assert_eq!(silent.settings_in(FileId(0)).markets, [Market::Uk]);
        assert_eq!(silent.settings_in(FileId(0)).units.get("solid"), Some(&Unit::G));
        assert!(silent.settings_in(FileId(1)).markets.is_empty());
        let place = silent.said_by_book(FileId(0), "units.liquid").unwrap();
        assert_eq!(silent.text(place), "oz, g");
        assert_eq!(silent.said_by_book(FileId(1), "market"), None);
        let spoken = workspace(&files, "market = 'us'");
        assert_eq!(spoken.settings_in(FileId(0)).markets, [Market::Us]);
        assert_eq!(spoken.said_by_book(FileId(0), "market"), None);
    }

    #[test]
    fn a_folders_market_holds_below_it() {
        let text = "book: Winter\nmarket: uk\n\ndrink: A\n  60 ml gin\n";
        let files = [("a.pour", text), ("abroad/spring/a.pour", text), ("abroad2/a.pour", text)];
        let toml = "[[folder]]\npath = 'abroad'\nmarket = 'us'\n\
                    [[folder]]\npath = 'abroad/spring'\nmarket = ['ca']\n";
        let workspace = workspace(&files, toml);
        let markets = [0, 1, 2].map(|n| workspace.settings_in(FileId(n)).markets.clone());
        assert_eq!(markets, [vec![Market::Uk], vec![Market::Ca], vec![Market::Uk]]);
        let records = workspace.records();
        assert_eq!(workspace.settings_of(&records[1]).markets, [Market::Ca]);
    }
}
