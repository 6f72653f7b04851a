//! Figures as CSV: one row an entry.

use washline_book::Figure;
use washline_measure::{Interval, six_digits};
use washline_reference::Market;

use super::Card;

/// The figures of `cards`, with a header. Each figure has its value, its low and its high end.
/// Text that a spreadsheet would run as a formula has an apostrophe before it.
#[must_use]
pub fn csv(cards: &[Card<'_>]) -> String {
    sheet(&header(), cards.iter().map(row))
}

/// A header and rows of as many cells.
pub(super) fn sheet(header: &[String], rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // Writing into memory can't fail, and every row has as many cells as the header.
    let _ = writer.write_record(header);
    for row in rows {
        let _ = writer.write_record(row);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn header() -> Vec<String> {
    let mut cells: Vec<String> =
        ["entry", "kind", "family", "file", "line", "serves"].map(str::to_owned).into();
    let mut figure = |id: &str| {
        cells.extend([id.to_owned(), format!("{id}_low"), format!("{id}_high")]);
    };
    Figure::ALL.iter().for_each(|one| figure(one.id()));
    Market::ALL.iter().for_each(|market| figure(&format!("standard_drinks_{}", market.id())));
    let rest = ["currency", "allergens", "allergens_unknown", "not_counted"];
    cells.extend(rest.map(str::to_owned));
    cells
}

fn row(card: &Card<'_>) -> Vec<String> {
    let record = card.record;
    let mut cells = vec![
        text(&record.name),
        record.kind.name().to_owned(),
        text(&card.families().join(", ")),
        text(card.file),
        card.line().to_string(),
        number(record.serves),
    ];
    let mut figure = |interval: Option<Interval>| match interval.filter(|_| !record.unread) {
        Some(i) => cells.extend([i.value, i.low, i.high].map(number)),
        None => cells.extend([const { String::new() }; 3]),
    };
    Figure::ALL.iter().for_each(|one| figure(record.figures.get(*one)));
    record.figures.standard_drinks.into_iter().for_each(&mut figure);
    let allergens = card.allergens();
    let allergens: Vec<&str> = allergens.iter().map(|allergen| allergen.name).collect();
    let unknown: Vec<String> = card.unknown().into_iter().collect();
    cells.push(text(record.figures.currency.as_deref().unwrap_or_default()));
    cells.push(unique(allergens).join("; "));
    cells.push(text(&unknown.join("; ")));
    cells.push(text(&card.not_counted().join("; ")));
    cells
}

fn unique(mut names: Vec<&str>) -> Vec<&str> {
    names.dedup();
    names
}

/// A number at six significant digits.
pub(super) fn number(value: f64) -> String {
    six_digits(value).to_string()
}

/// Words; what a spreadsheet would run as a formula has an apostrophe before it.
pub(super) fn text(words: &str) -> String {
    if words.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        return format!("'{words}");
    }
    words.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::checks::{card, cards};

    #[test]
    fn every_row_has_a_cell_for_each_heading() {
        let two = format!("{}\n{}", card("  45 ml gin"), card("  45 ml no such thing"));
        cards(&two, |cards| {
            let written = csv(cards);
            let mut reader = csv::Reader::from_reader(written.as_bytes());
            let width = reader.headers().unwrap().len();
            let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
            assert_eq!(rows.iter().map(csv::StringRecord::len).collect::<Vec<_>>(), [width, width]);
            assert_eq!((rows[0].get(6), rows[1].get(6)), (Some("45"), Some("")));
        });
    }

    #[test]
    fn no_name_is_run_as_a_formula() {
        for name in ["=1+1", "+1", "-1", "@a", "\t=1"] {
            assert_eq!(text(name), format!("'{name}"));
        }
        assert_eq!(text("Quarry Lane"), "Quarry Lane");
    }
}
