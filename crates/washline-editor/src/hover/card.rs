//! An entry's figures, with how far they are known and where they stand in its family's bands.

use std::fmt::Write;

use washline_book::{Band, Figure, Record, Side, Standing, Workspace};
use washline_measure::{number, within};
use washline_syntax::{Key, Technique};
use washline_text::{Kind, fold};

use super::goods;
use super::table::{Row, joined, table};

/// The figures that a drink is talked of by.
const SHOWN: &[Figure] = &[
    Figure::Final,
    Figure::Abv,
    Figure::Sugar,
    Figure::Acid,
    Figure::Ratio,
    Figure::Brix,
    Figure::Dilution,
    Figure::ServeTemperature,
    Figure::GlassFill,
    Figure::Ethanol,
    Figure::Kcal,
    Figure::Cost,
];

/// All that is told of an entry.
pub(super) fn write(workspace: &Workspace, record: &Record) -> String {
    if record.kind == Kind::Stock {
        return goods::entry(workspace, record);
    }
    let mut out = heading(record);
    if record.kind == Kind::Prep {
        out.push_str(&goods::inside(record));
    }
    if record.unread {
        let why = crate::unread::why(record);
        out.push_str(&format!("\n\nNo figures: {}.", why));
    } else {
        out.push_str(&figures(workspace, record));
        drinks(workspace, record, &mut out);
    }
    allergens(workspace, record, &mut out);
    out
}

fn heading(record: &Record) -> String {
    let mut out = format!("**{}** ({}", escaped(&record.name), record.kind.name());
    for (n, family) in record.families.list.iter().enumerate() {
        let _ = write!(out, "{} {}", if n == 0 { "," } else { " and" }, escaped(&family.name));
    }
    if record.families.inferred && !record.families.list.is_empty() {
        out.push_str(", as its lines show");
    }
    if record.serves > 1.0 {
        let _ = write!(out, ", one of {} serves", number(record.serves));
    }
    out.push(')');
    out
}

fn figures(workspace: &Workspace, record: &Record) -> String {
    let settings = workspace.settings_of(record);
    let known = SHOWN.iter().filter_map(|figure| Some((*figure, record.figures.get(*figure)?)));
    let rows: Vec<Row> = known
        .map(|(figure, interval)| {
            let unit = match figure {
                Figure::Cost => record.figures.currency.as_deref().unwrap_or_default(),
                figure => figure.unit(),
            };
            let (value, range) = within(interval);
            let standing = record.standing(figure, settings);
            let band = standing.map(|(band, _, standing)| stands(&band, standing));
            let label = figure.label_of(record.kind).to_owned();
            [label, joined(&value, unit), range, band.unwrap_or_default()]
        })
        .collect();
    table(&rows, "its family")
}

/// `in 5 to 9`, `leaning above 5 to 9`, `out, above 5 to 9`
fn stands(band: &Band, standing: Standing) -> String {
    let words = band.words();
    let side = |side| match side {
        Side::Below => "below",
        Side::Above => "above",
    };
    match standing {
        Standing::Inside => format!("in: {words}"),
        Standing::Leaning(beyond) => format!("leaning {}: {words}", side(beyond)),
        Standing::Outside(beyond) => format!("out, {}: {words}", side(beyond)),
    }
}

fn drinks(workspace: &Workspace, record: &Record, out: &mut String) {
    let markets = workspace.settings_of(record).declared_markets();
    let all = washline_reference::Market::ALL.iter().zip(record.figures.standard_drinks);
    let mut words = Vec::new();
    for (market, drinks) in all {
        let Some(drinks) = drinks.filter(|drinks| drinks.value > 0.0) else { continue };
        if markets.contains(market) {
            words.push(format!("{} ({})", number(drinks.value), market.id()));
        }
    }
    if !words.is_empty() {
        let _ = write!(out, "\n\nstandard drinks: {}", words.join(", "));
    }
}

/// What it carries that one of the house's markets counts, and what nobody knows.
fn allergens(workspace: &Workspace, record: &Record, out: &mut String) {
    let sulphites = record.figures.sulphites_mg_per_l;
    let markets = workspace.settings_of(record).declared_markets();
    let mut sure: Vec<String> = Vec::new();
    let mut unsure: Vec<String> = Vec::new();
    for carried in &record.allergens.carried {
        if !markets.iter().any(|market| carried.counts_in(*market, sulphites)) {
            continue;
        }
        let from = carried.path.first().map_or("", |step| step.name.as_str());
        let detail = if carried.detail.is_empty() {
            String::new()
        } else {
            format!(" ({})", carried.detail)
        };
        let words = format!("{}{detail} from {}", carried.allergen, escaped(from));
        let into = if carried.certain { &mut sure } else { &mut unsure };
        if !into.contains(&words) {
            into.push(words);
        }
    }
    unsure.extend(record.allergens.unknown.iter().map(|unknown| escaped(&unknown.name)));
    unsure.dedup();
    let none = if record.allergens.vouched && unsure.is_empty() {
        "none known"
    } else {
        "none known, but not everything is vouched for"
    };
    let words = if sure.is_empty() { none.to_owned() } else { sure.join("; ") };
    let _ = write!(out, "\n\nallergens: {words}");
    if !unsure.is_empty() {
        let _ = write!(out, "\n\nunknown, read the label: {}", unsure.join("; "));
    }
    out.push_str("\n\nRead every label; local law says what must be declared.");
}

/// What `technique` does to this drink, where it is the one that waters it.
pub(super) fn mixed(record: &Record, technique: Technique) -> String {
    let mixes = record.method.mixes.iter().any(|mix| mix.technique == technique);
    let Some(water) = record.figures.get(Figure::Dilution).filter(|_| mixes && !record.unread)
    else {
        return String::new();
    };
    let (value, range) = within(water);
    let range = if range.is_empty() { range } else { format!(" ({range})") };
    let cold = record.figures.get(Figure::ServeTemperature);
    let cold = cold.map(|c| format!(", served at {} °C", within(c).0)).unwrap_or_default();
    format!("\n\nHere: {value} % water, of the pour{range}{cold}.")
}

/// Where a field's words are told as written.
pub(super) fn said(record: &Record, key: Key) -> Option<String> {
    record.field(key).map(|field| escaped(record.text(field.value_span)))
}

/// Text as Markdown shows it letter for letter, on one line.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_control() {
            out.push(' ');
            continue;
        }
        if matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '&' | '!') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

/// Whether two names are the same word.
pub(super) fn same(a: &str, b: &str) -> bool {
    fold(a) == fold(b)
}
