//! An ingredient: what it is made of and who says so; of a prep, what is in it.

use std::fmt::Write;

use washline_book::{Figure, Read, Record, Referent, Workspace};
use washline_measure::{number, spread};
use washline_mixture::Composition;
use washline_reference::{Datum, Ingredient, Trust};
use washline_syntax::{Key, LineKind};

use super::card::{self, escaped, said, same};
use super::table::{Row, joined, table};

/// What a name leads to.
pub(super) fn referent(workspace: &Workspace, means: Referent) -> Option<String> {
    match means {
        Referent::Entry(id) => Some(card::write(workspace, workspace.record(id)?)),
        Referent::Reference(id) => washline_reference::ingredient(id).map(ingredient),
    }
}

/// An ingredient of the reference, each value with its range and source.
pub(super) fn ingredient(known: &Ingredient) -> String {
    let mut out = format!("**{}** ({})", known.name, known.sort.id().replace('-', " "));
    let per = if known.liquid { "g/100 ml" } else { "g/100 g" };
    let values = [
        ("strength", known.abv, "% vol"),
        ("sugar", known.sugar, per),
        ("acid, as citric", known.acid, per),
        ("fat", known.fat, per),
        ("salt", known.salt, per),
        ("density", known.density, "g/ml"),
        ("pH", known.ph, ""),
    ];
    let rows: Vec<Row> = values
        .into_iter()
        .filter_map(|(label, datum, unit)| {
            let datum = datum?;
            let value = joined(&number(datum.value), unit);
            Some([label.to_owned(), value, spread(datum.low, datum.high), source(&datum)])
        })
        .collect();
    out.push_str(&table(&rows, "source"));
    let carries: Vec<String> = known.carries.iter().map(carried).collect();
    match (carries.is_empty(), known.vouches) {
        (false, _) => drop(write!(out, "\n\nallergens: {}", carries.join("; "))),
        (true, true) => out.push_str("\n\nallergens: none, it is a plain thing"),
        (true, false) => {
            out.push_str("\n\nallergens: none listed, which is unknown, not absent: read the label")
        }
    }
    for caution in known.cautions {
        let _ = write!(out, "\n\n⚠ {caution}");
    }
    if !known.cautions.is_empty() {
        out.push_str(" Local codes and licensed practice decide.");
    }
    out
}

fn carried(carries: &washline_reference::Carries) -> String {
    let detail =
        if carries.detail.is_empty() { String::new() } else { format!(" ({})", carries.detail) };
    let certain = if carries.certain { "" } else { " in some makers' bottles" };
    format!("{}{detail}{certain}", carries.allergen)
}

fn source(datum: &Datum) -> String {
    match datum.source.trust {
        Trust::Published => escaped(datum.source.text),
        Trust::CommonPractice => "common practice, no source".to_owned(),
        Trust::Memory => "from memory, unchecked".to_owned(),
    }
}

/// A bottle of the house: what it says, and what it is made of.
pub(super) fn entry(workspace: &Workspace, record: &Record) -> String {
    let mut out = format!("**{}** ({})", escaped(&record.name), record.kind.name());
    for (label, key) in
        [("kind", Key::Kind), ("pack", Key::Pack), ("cost", Key::Cost), ("keeps", Key::Keeps)]
    {
        if let Some(words) = said(record, key) {
            let _ = write!(out, "\n\n{label}: {words}");
        }
    }
    if let Some(makeup) = &record.makeup {
        out.push_str(&composition(&makeup.one, makeup.liquid));
    }
    let users = workspace.users(record.id).len();
    let _ = write!(out, "\n\nused by {users} of the workspace's entries");
    out
}

/// Of a prep: what it makes, how long it keeps, what goes in, what comes out.
pub(super) fn inside(record: &Record) -> String {
    let mut out = String::new();
    for (label, key) in [("yields", Key::Yields), ("keeps", Key::Keeps), ("store", Key::Store)] {
        if let Some(words) = said(record, key) {
            let _ = write!(out, "\n\n{label}: {words}");
        }
    }
    let lines = record.entry.lines.iter();
    let poured = lines.filter(|line| matches!(line.what, LineKind::Ingredient(_)));
    let words: Vec<String> = poured
        .map(|line| record.text(line.content).split_whitespace().collect::<Vec<_>>().join(" "))
        .map(|line| format!("- {}", escaped(&line)))
        .collect();
    if !words.is_empty() {
        let _ = write!(out, "\n\n{}", words.join("\n"));
    }
    if let Some(makeup) = &record.makeup {
        out.push_str(&composition(&makeup.one, makeup.liquid));
    }
    out
}

/// What a hundred millilitres or grams hold.
fn composition(one: &Composition, liquid: bool) -> String {
    let per = if liquid { "g/100 ml" } else { "g/100 g" };
    let mut words = Vec::new();
    if one.abv_percent() > 0.05 {
        words.push(format!("{} % vol", number(one.abv_percent())));
    }
    for (grams, what) in
        [(one.sugar, "sugar"), (one.acid, "acid"), (one.salt, "salt"), (one.fat, "fat")]
    {
        if grams > 0.0005 {
            words.push(format!("{what} {} {per}", number(100.0 * grams)));
        }
    }
    if one.mass() > 0.0 && one.sugar > 0.0005 {
        words.push(format!("{} Brix by its sugar", number(100.0 * one.sugar / one.mass())));
    }
    if liquid && one.mass() > 0.0 {
        words.push(format!("density {} g/ml", number(one.mass())));
    }
    if words.is_empty() { String::new() } else { format!("\n\nmade of: {}", words.join(" · ")) }
}

/// How a line was read, where the words do not say it, and what it brings to the drink.
pub(super) fn on_line(record: &Record, read: &Read) -> String {
    let mut out = String::new();
    let known = read.ingredient().filter(|known| !same(known.name, &read.name));
    if let Some(known) = known {
        let _ =
            write!(out, "\n\non this line: `{}` is {}", read.name.replace('`', "'"), known.name);
    }
    let shares = shares(record, read);
    if !shares.is_empty() {
        let _ = write!(out, "\n\nit brings {}", shares.join(", "));
    }
    out
}

/// One part of a composition, g.
type Part = fn(&Composition) -> f64;

/// The parts that a line is asked its share of, each with what is too little to speak of, g.
const PARTS: [(&str, Part, f64); 3] =
    [("sugar", |c| c.sugar, 0.5), ("acid", |c| c.acid, 0.05), ("alcohol", |c| c.ethanol, 0.5)];

/// What all counted lines bring of each of the parts, g; none where the entry has no figures.
pub(crate) fn totals(record: &Record) -> Option<[f64; 3]> {
    if record.unread || record.figures.get(Figure::Poured).is_none() {
        return None;
    }
    let counted = || record.reads.iter().filter(|read| read.counted);
    Some(PARTS.map(|(_, part, _)| counted().map(|read| part(&read.composition)).sum()))
}

/// The part and the percentage of it that a line brings, for what it brings much of.
pub(crate) fn shares_of(totals: &[f64; 3], read: &Read) -> Vec<(&'static str, f64)> {
    let share = |((name, part, least), all): (&(&'static str, Part, f64), &f64)| {
        let percent = 100.0 * part(&read.composition) / all;
        (*all > *least && percent >= 0.5 && percent.is_finite()).then_some((*name, percent))
    };
    if !read.counted {
        return Vec::new();
    }
    PARTS.iter().zip(totals).filter_map(share).collect()
}

/// `61 % of the sugar`, for what a line brings much of.
pub(crate) fn shares(record: &Record, read: &Read) -> Vec<String> {
    let shares = totals(record).map(|totals| shares_of(&totals, read)).unwrap_or_default();
    shares.into_iter().map(|(name, percent)| format!("{percent:.0} % of the {name}")).collect()
}
