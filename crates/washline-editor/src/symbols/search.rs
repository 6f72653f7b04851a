//! Entries, sections and books by a few letters of their names, entries by a tag or a family.

use washline_book::{Record, SourceFile, Workspace};
use washline_syntax::{EntryKind, Key};
use washline_text::{FileId, Place, Span, fold};

use super::{SymbolKind, kind};
use crate::cursor::body;
use crate::fuzzy::distance;

/// An entry found by a few letters of its name.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundSymbol {
    /// Its name, or the other name that was found.
    pub name: String,
    /// The book it belongs to, as its file writes it; empty where it names none.
    pub container: String,
    /// What it is.
    pub kind: SymbolKind,
    /// Where the name stands.
    pub place: Place,
    /// Where all of it stands.
    pub whole: Place,
    /// Whether it is retired.
    pub retired: bool,
}

/// The most entries that a search gives.
const MOST_FOUND: usize = 200;

/// The entries, sections and books whose names fit what was typed, best first; all that fit no
/// better by name. Behind `#` stands the start of a tag or a family: `#sour`.
#[must_use]
pub fn workspace_symbols(workspace: &Workspace, query: &str) -> Vec<FoundSymbol> {
    if let Some(word) = query.trim().strip_prefix('#') {
        return marked(workspace, &fold(word));
    }
    let typed = fold(query);
    let mut found: Vec<(u32, &Record, &str, Span)> = Vec::new();
    for record in workspace.records() {
        let own = distance(&typed, &record.key).map(|far| (far, &*record.name, record.entry.name));
        let others = record.terms(Key::Also).filter_map(|(name, span)| {
            // Another name stands behind the entry's own.
            Some((distance(&typed, &fold(name))?.saturating_add(1), name, span))
        });
        let others = others.filter(|_| !typed.is_empty());
        if let Some((far, name, span)) = own.into_iter().chain(others).min_by_key(|hit| hit.0) {
            found.push((far, record, name, span));
        }
    }
    found.sort_by(|a, b| (a.0, a.2, a.1.id).cmp(&(b.0, b.2, b.1.id)));
    found.truncate(MOST_FOUND);
    let entries = found.into_iter();
    let entries = entries.filter_map(|hit| Some((hit.0, told(workspace, hit.1, hit.2, hit.3)?)));
    let mut all: Vec<(u32, FoundSymbol)> = entries.chain(parts(workspace, &typed)).collect();
    all.sort_by_key(|(far, _)| *far);
    all.truncate(MOST_FOUND);
    all.into_iter().map(|(_, symbol)| symbol).collect()
}

/// The entries with a tag or of a family that begins with `word`, which a client that looks
/// through what it is told finds beside the name.
fn marked(workspace: &Workspace, word: &str) -> Vec<FoundSymbol> {
    let mut out = Vec::new();
    for record in workspace.records() {
        let mut marks = record.terms(Key::Tags).chain(record.terms(Key::Family));
        let Some((mark, _)) = marks.find(|(mark, _)| fold(mark).starts_with(word)) else {
            continue;
        };
        if let Some(symbol) = told(workspace, record, &record.name, record.entry.name) {
            out.push(FoundSymbol { container: format!("#{mark}"), ..symbol });
        }
    }
    out.sort_by(|a, b| a.name.cmp(&b.name));
    out.truncate(MOST_FOUND);
    out
}

/// The books and sections whose names fit what was typed.
fn parts(workspace: &Workspace, typed: &str) -> Vec<(u32, FoundSymbol)> {
    if typed.is_empty() {
        return Vec::new();
    }
    let mut out = Vec::new();
    for (file, source) in (0..).map(FileId).zip(workspace.files()) {
        for located in source.document.entries() {
            let (kind, container) = match located.entry.kind {
                EntryKind::Book => (SymbolKind::Book, ""),
                EntryKind::Section => (SymbolKind::Section, book(source)),
                _ => continue,
            };
            let entry = &located.entry;
            let Some(far) = distance(typed, &fold(entry.name_text())) else { continue };
            let place = |span: Span| Place { file, span: span.shift(located.start) };
            let symbol = FoundSymbol {
                name: entry.name_text().to_owned(),
                container: container.to_owned(),
                kind,
                place: place(entry.name),
                whole: Place { file, span: body(located) },
                retired: false,
            };
            out.push((far, symbol));
        }
    }
    out
}

fn told(workspace: &Workspace, record: &Record, name: &str, span: Span) -> Option<FoundSymbol> {
    let file = workspace.file(record.file)?;
    let len = u32::try_from(record.entry.text.len()).unwrap_or(u32::MAX);
    Some(FoundSymbol {
        name: if name.is_empty() { record.kind.name().to_owned() } else { name.to_owned() },
        container: book(file).to_owned(),
        kind: kind(record.kind),
        place: if span.is_empty() { record.name_place() } else { record.place(span) },
        whole: record.place(Span::new(0, len)),
        retired: record.retired,
    })
}

/// The name of a file's first book, as written.
fn book(file: &SourceFile) -> &str {
    if file.book.is_none() {
        return "";
    }
    let mut entries = file.document.entries().iter().map(|located| &located.entry);
    entries.find(|entry| entry.kind == EntryKind::Book).map_or("", |entry| entry.name_text())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    const FILE: &str = "book: The Copper Heron\nsection: Shaken\ndrink: Quarry Lane\n  family: sour\n  60 ml gin\n\nprep: Honey Syrup\n  yields: 700 ml\n  status: retired\nsection: Stirred\ndrink:\n";

    #[test]
    fn entries_are_found_by_a_few_letters() {
        let (house, _) = House::of(&[FILE, "stock: Orchard Row\n  also: pear brandy\n"]);
        let names = |query: &str| {
            let found = workspace_symbols(&house.workspace, query);
            let said = found.iter().inspect(|symbol| {
                assert!(symbol.name == "drink" || house.said(symbol.place) == symbol.name);
            });
            said.map(|symbol| symbol.name.clone()).collect::<Vec<_>>()
        };
        assert_eq!(names("honey"), ["Honey Syrup"]);
        assert_eq!(names("QL"), ["Quarry Lane"]);
        assert_eq!(names("brandy"), ["pear brandy"]);
        assert_eq!(names("no such thing"), [""; 0]);
        assert_eq!(names("").len(), 4);
        assert_eq!(names("heron"), ["The Copper Heron"]);
        assert_eq!(names("shak"), ["Shaken"]);
    }

    #[test]
    fn entries_are_found_by_tag_and_family() {
        let (house, _) =
            House::of(&[FILE, "drink: Abbey\n  tags: spring, Sour-ish\n  30 ml gin\n"]);
        let found = |query: &str| -> Vec<(String, String)> {
            let all = workspace_symbols(&house.workspace, query).into_iter();
            all.map(|symbol| (symbol.name, symbol.container)).collect()
        };
        let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
        assert_eq!(found("#sour"), [pair("Abbey", "#Sour-ish"), pair("Quarry Lane", "#sour")]);
        assert_eq!(found("#spring"), [pair("Abbey", "#spring")]);
        assert_eq!(found("#no such"), []);
    }
}
