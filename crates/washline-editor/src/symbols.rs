//! The outline of a file; entries of the workspace by name, tag or family in [`search`].

use washline_book::{Read, Record, Workspace};
use washline_measure::number;
use washline_syntax::{EntryKind, Key, LineKind, Located};
use washline_text::{FileId, Kind, Span};

use crate::cursor::{body, record_at, whole};

mod search;

pub use search::{FoundSymbol, workspace_symbols};

/// What a symbol stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SymbolKind {
    /// `book:`
    Book,
    /// `section:`
    Section,
    /// `drink:`
    Drink,
    /// `prep:`
    Prep,
    /// `stock:`
    Stock,
    /// An ingredient line.
    Ingredient,
}

/// A node of a file's outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Symbol {
    /// Its name; the heading's word where it has none.
    pub name: String,
    /// A few words about it; may be empty.
    pub detail: String,
    /// What it is.
    pub kind: SymbolKind,
    /// All of it: of a book or section, up to the next one.
    pub whole: Span,
    /// Its name, inside `whole`.
    pub name_span: Span,
    /// Whether it is retired.
    pub retired: bool,
    /// What it holds.
    pub children: Vec<Symbol>,
}

/// From so many entries in a file on, its outline leaves their lines out.
const LINES_BELOW: usize = 500;

/// The outline of `file`: books hold sections, both hold entries, entries their lines.
#[must_use]
pub fn document_symbols(workspace: &Workspace, file: FileId) -> Vec<Symbol> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let entries = source.document.entries();
    let lines = entries.len() < LINES_BELOW;
    let flat = entries.iter().filter_map(|located| {
        let record = record_at(workspace, file, located);
        symbol(located, record, lines)
    });
    nested(flat)
}

pub(crate) const fn kind(kind: Kind) -> SymbolKind {
    match kind {
        Kind::Drink => SymbolKind::Drink,
        Kind::Prep => SymbolKind::Prep,
        Kind::Stock => SymbolKind::Stock,
    }
}

fn symbol(located: &Located, record: Option<&Record>, lines: bool) -> Option<Symbol> {
    let entry = &located.entry;
    let kind = match entry.kind {
        EntryKind::Lead => return None,
        EntryKind::Book => SymbolKind::Book,
        EntryKind::Section => SymbolKind::Section,
        EntryKind::Drink => SymbolKind::Drink,
        EntryKind::Prep => SymbolKind::Prep,
        EntryKind::Stock => SymbolKind::Stock,
    };
    let heading = match &entry.lines.first()?.what {
        LineKind::Heading(heading) => heading,
        _ => return None,
    };
    let unnamed = heading.name.is_empty();
    let name_span = if unnamed { heading.key } else { heading.name };
    let children = record.filter(|_| lines).map(|record| ingredients(record, located.start));
    Some(Symbol {
        name: entry.text_of(name_span).to_owned(),
        detail: record.map(detail).unwrap_or_default(),
        kind,
        whole: whole_of(kind, located),
        name_span: name_span.shift(located.start),
        retired: record.is_some_and(|record| record.retired),
        children: children.unwrap_or_default(),
    })
}

fn whole_of(kind: SymbolKind, located: &Located) -> Span {
    match kind {
        SymbolKind::Book | SymbolKind::Section => whole(located),
        _ => body(located),
    }
}

/// A drink's families, what a prep makes, what a bottle is.
pub(crate) fn detail(record: &Record) -> String {
    let said = |key| record.field(key).map(|field| record.text(field.value_span).to_owned());
    let plain = match record.kind {
        Kind::Drink => {
            let names: Vec<&str> = record.families.list.iter().map(|f| f.name.as_str()).collect();
            names.join(" and ")
        }
        Kind::Prep => said(Key::Yields).unwrap_or_default(),
        Kind::Stock => said(Key::Kind).unwrap_or_default(),
    };
    if record.draft && plain.is_empty() { "draft".to_owned() } else { plain }
}

fn ingredients(record: &Record, start: u32) -> Vec<Symbol> {
    let line = |read: &Read| {
        let line = record.entry.lines.get(read.line as usize)?;
        let name = if read.name.is_empty() { record.text(line.content) } else { &read.name };
        let inside = line.content.start <= read.name_span.start && !read.name_span.is_empty();
        Some(Symbol {
            name: name.to_owned(),
            detail: amount(record, read),
            kind: SymbolKind::Ingredient,
            whole: line.content.shift(start),
            name_span: if inside { read.name_span } else { line.content }.shift(start),
            retired: false,
            children: Vec::new(),
        })
    };
    record.reads.iter().filter_map(line).collect()
}

/// The amount as the card has it: `2 dashes`; of lines written as one, what each comes to.
fn amount(record: &Record, read: &Read) -> String {
    let line = record.entry.lines.get(read.line as usize);
    match line.map(|line| &line.what) {
        Some(LineKind::Ingredient(line)) if line.shared.is_empty() => {
            record.text(line.amount_span).trim().to_owned()
        }
        _ => read.ml.map(|ml| format!("{} ml", number(ml.value))).unwrap_or_default(),
    }
}

/// Books take in the sections behind them, and sections the entries behind them.
fn nested(flat: impl Iterator<Item = Symbol>) -> Vec<Symbol> {
    let mut top: Vec<Symbol> = Vec::new();
    // The open book and section, outermost first.
    let mut open: Vec<Symbol> = Vec::new();
    for symbol in flat {
        let level = depth(symbol.kind);
        while open.last().is_some_and(|last| depth(last.kind) >= level) {
            close(&mut open, &mut top);
        }
        if level < ENTRIES {
            open.push(symbol);
            continue;
        }
        match open.last_mut() {
            Some(holder) => holder.children.push(symbol),
            None => top.push(symbol),
        }
    }
    while !open.is_empty() {
        close(&mut open, &mut top);
    }
    top
}

fn close(open: &mut Vec<Symbol>, top: &mut Vec<Symbol>) {
    let Some(mut done) = open.pop() else { return };
    if let Some(last) = done.children.last() {
        done.whole = done.whole.cover(last.whole);
    }
    match open.last_mut() {
        Some(holder) => holder.children.push(done),
        None => top.push(done),
    }
}

const fn depth(kind: SymbolKind) -> u8 {
    match kind {
        SymbolKind::Book => 0,
        SymbolKind::Section => 1,
        _ => ENTRIES,
    }
}

/// How deep entries stand.
const ENTRIES: u8 = 2;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    const FILE: &str = "book: The Copper Heron\nsection: Shaken\ndrink: Quarry Lane\n  family: sour\n  60 ml gin\n\nprep: Honey Syrup\n  yields: 700 ml\n  status: retired\nsection: Stirred\ndrink:\n";

    fn outline(symbols: &[Symbol], indent: usize, out: &mut String) {
        for symbol in symbols {
            let retired = if symbol.retired { " (retired)" } else { "" };
            let detail = if symbol.detail.is_empty() { "" } else { ": " };
            let name = &symbol.name;
            let blank = "  ".repeat(indent);
            out.push_str(&format!("{blank}{name}{detail}{}{retired}\n", symbol.detail));
            outline(&symbol.children, indent + 1, out);
        }
    }

    #[test]
    fn books_hold_sections_and_sections_hold_entries() {
        let (house, at) = House::at(FILE);
        let mut out = String::new();
        outline(&document_symbols(&house.workspace, at.file), 0, &mut out);
        assert_eq!(
            out,
            "The Copper Heron\n  Shaken\n    Quarry Lane: sour\n      gin: 60 ml\n    Honey Syrup: 700 ml (retired)\n  Stirred\n    drink\n"
        );
    }

    #[test]
    fn a_symbol_holds_its_name_and_its_children() {
        fn holds(symbol: &Symbol) {
            let inside =
                |inner: Span| symbol.whole.start <= inner.start && inner.end <= symbol.whole.end;
            assert!(inside(symbol.name_span), "{symbol:?}");
            for child in &symbol.children {
                assert!(inside(child.whole), "{symbol:?}");
                holds(child);
            }
        }
        let (house, at) = House::at(FILE);
        document_symbols(&house.workspace, at.file).iter().for_each(holds);
    }

    #[test]
    fn lines_are_left_out_of_a_large_file() {
        let text = "drink: A\n  60 ml gin\n".repeat(LINES_BELOW);
        let (house, at) = House::at(&text);
        let symbols = document_symbols(&house.workspace, at.file);
        assert_eq!(symbols.len(), LINES_BELOW);
        assert!(symbols.iter().all(|symbol| symbol.children.is_empty()));
    }

    #[test]
    fn an_outline_has_the_amounts_of_the_card() {
        let (house, at) = House::at("drink: A\n  2 dashes bitters\n  10 g salt\n  1 egg white\n");
        let all = document_symbols(&house.workspace, at.file);
        let details: Vec<_> = all[0].children.iter().map(|line| line.detail.as_str()).collect();
        assert_eq!(details, ["2 dashes", "10 g", "1"]);
    }
}
