//! The standards as a person reads them.

use std::fmt::Write;

use washline_book::Held;

use super::rows::{Row, rows, unset};
use super::{Origin, Standards};
use crate::escape;
use crate::grid::Grid;
use crate::number::{number, spread};

/// The standards as aligned text: every key, and of rules, families, glasses and techniques
/// those that a file speaks of; with `all` the others too.
#[must_use]
pub fn text(standards: &Standards<'_>, all: bool) -> String {
    let mut out = heading(standards);
    let mut table = None;
    let mut grid = Grid::default();
    let mut left = 0;
    for row in rows(standards) {
        if row.named && row.origin.is_none() && !all {
            left += 1;
            continue;
        }
        let (of, name) = split(&row.key);
        if table.as_deref() != Some(of) {
            grid.write(&mut out);
            grid = Grid::default();
            out.push('\n');
            if !of.is_empty() {
                let _ = writeln!(out, "{}", escape::on_one_line(of));
            }
            table = Some(of.to_owned());
        }
        let origin = row.origin.as_ref().map_or("built in".to_owned(), place);
        grid.row().left(name).left(&words(&row)).left(&origin);
    }
    grid.write(&mut out);
    if left > 0 {
        let _ = writeln!(
            out,
            "\n{left} more of rules, families, glasses and techniques hold as built in: --all lists them"
        );
    }
    out
}

fn heading(standards: &Standards<'_>) -> String {
    let name = match standards.name {
        "" | "." => "this folder",
        name => name,
    };
    let files: Vec<&str> = standards.files.iter().map(|file| file.name.as_str()).collect();
    let house = match files.split_first() {
        None => "there is no washline.toml above it".to_owned(),
        Some((first, [])) => first.to_string(),
        Some((first, rest)) => format!("{first}, which starts from {}", rest.join(", then ")),
    };
    format!("{}: {}\n", escape::on_one_line(name), escape::on_one_line(&house))
}

/// The table of a key, and its name there.
fn split(key: &str) -> (&str, &str) {
    match key.split_once('.') {
        Some(("families", rest)) => {
            let figure = rest.rfind('.').unwrap_or(rest.len());
            let at = "families.".len() + figure;
            (key.get(..at).unwrap_or(key), key.get(at + 1..).unwrap_or(""))
        }
        Some((table, name)) => (table, name),
        None => ("", key),
    }
}

fn place(origin: &Origin) -> String {
    format!("{}:{}", origin.file, origin.line)
}

fn words(row: &Row) -> String {
    match &row.value {
        Held::Nothing if row.key.starts_with("families.") => "no band".to_owned(),
        Held::Nothing => gist(unset(&row.key)).to_owned(),
        value => shown(value),
    }
}

/// The first clause: the rest stands on the reference page.
fn gist(words: &str) -> &str {
    let end = ["; ", ": "].iter().filter_map(|mark| words.find(mark)).min();
    end.and_then(|end| words.get(..end)).unwrap_or(words)
}

fn shown(value: &Held) -> String {
    let with = |number: String, unit: &str| match unit {
        "" => number,
        unit => format!("{number} {unit}"),
    };
    match value {
        Held::Nothing => String::new(),
        Held::Word(word) => word.clone(),
        Held::Flag(flag) => flag.to_string(),
        Held::Number(value, unit) => with(number(*value), unit),
        Held::Range([value, low, high], unit) => {
            format!("{}, {}", with(number(*value), unit), spread(*low, *high))
        }
        Held::Band(None, None, _) => "no band".to_owned(),
        Held::Band(low, high, unit) => {
            let band = washline_book::Band { low: *low, high: *high };
            with(band.words(), unit)
        }
        Held::List(pair) if pair.iter().all(|held| matches!(held, Held::List(_))) => {
            let pairs: Vec<String> = pair.iter().map(equal).collect();
            pairs.join(", ")
        }
        Held::List(values) => joined(values),
    }
}

/// `15, 25, 50 ml`: the unit once, where it is the same.
fn joined(values: &[Held]) -> String {
    let unit = match values.first() {
        Some(Held::Number(_, unit)) => unit,
        _ => "",
    };
    let bare: Vec<String> = values
        .iter()
        .map(|value| match value {
            Held::Number(value, own) if *own == unit => number(*value),
            value => shown(value),
        })
        .collect();
    let list = bare.join(", ");
    if unit.is_empty() { list } else { format!("{list} {unit}") }
}

/// `25 ml = 0.75 oz`
fn equal(pair: &Held) -> String {
    let Held::List(sides) = pair else { return shown(pair) };
    let sides: Vec<String> = sides.iter().map(shown).collect();
    sides.join(" = ")
}
