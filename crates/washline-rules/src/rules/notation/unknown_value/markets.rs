//! The markets of a book.

use washline_book::Workspace;
use washline_reference::Market;
use washline_reference::nearest::closest;
use washline_syntax::{EntryKind, Key, LineKind, Value};
use washline_text::{FileId, Place, fold};

use super::{no_word, with_help};
use crate::{Report, Sink};

pub(super) fn find(workspace: &Workspace, id: FileId, sink: &mut Sink<'_>) {
    let Some(file) = workspace.file(id) else { return };
    let books = file.document.entries().iter().filter(|at| at.entry.kind == EntryKind::Book);
    for located in books {
        for line in &located.entry.lines {
            let LineKind::Field(field) = &line.what else { continue };
            let (Some(Key::Market), Value::Terms(terms)) = (field.key, &field.value) else {
                continue;
            };
            for span in terms {
                let word = span.text(&located.entry.text);
                let place = Place { file: id, span: span.shift(located.start) };
                market(word, place, sink);
            }
        }
    }
}

/// Countries and their short names, for the market whose law holds there.
const COUNTRIES: &[(&str, &str)] = &[
    ("gb", "uk"),
    ("britain", "uk"),
    ("great-britain", "uk"),
    ("united-kingdom", "uk"),
    ("usa", "us"),
    ("america", "us"),
    ("united-states", "us"),
    ("canada", "ca"),
    ("europe", "eu"),
    ("australia", "au-nz"),
    ("new-zealand", "au-nz"),
];

fn market(written: &str, place: Place, sink: &mut Sink<'_>) {
    let word = fold(written).replace(' ', "-");
    if Market::from_id(&word).is_some() {
        return;
    }
    let words: Vec<&str> = Market::ALL.iter().map(|market| market.id()).collect();
    let country = COUNTRIES.iter().find(|(country, _)| *country == word).map(|(_, id)| *id);
    let near = || closest(&word, words.iter().map(|name| (*name, ())), 1).first().map(|n| n.0);
    let meant = country.or_else(near).map(str::to_owned);
    let report = Report::file(place, no_word(written, Key::Market));
    sink.report(with_help(report, place, meant, &words));
}
