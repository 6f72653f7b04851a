//! Figures as a table for people.

use std::fmt::Write;

use washline_book::{Figure, Read};
use washline_measure::{Exact, Interval, Unit};
use washline_mixture::Act;
use washline_reference::Market;
use washline_text::fold;

use super::card::role;
use super::{Card, Models};
use crate::escape::on_one_line;
use crate::grid::Grid;
use crate::number::{number, spread, within};

/// The figures of `cards`, one below the other; with `models`, both models of the water that
/// a stir or a shake brings.
#[must_use]
pub fn table(cards: &[Card<'_>], models: bool) -> String {
    let mut out = String::new();
    for (n, card) in cards.iter().enumerate() {
        if n > 0 {
            out.push('\n');
        }
        heading(card, &mut out);
        lines(card, &mut out);
        figures(card, &mut out);
        if models {
            water(card, &mut out);
        }
        remarks(card, &mut out);
    }
    out
}

fn heading(card: &Card<'_>, out: &mut String) {
    let record = card.record;
    let mut words = vec![record.kind.name().to_owned()];
    let families = card.families().join(" and ");
    if !families.is_empty() {
        let inferred = if record.families.inferred { " (inferred)" } else { "" };
        words.push(format!("{families}{inferred}"));
    }
    if record.serves != 1.0 {
        words.push(format!("{} serves, figures a serve", number(record.serves)));
    }
    words.push(format!("{}:{}", card.file, card.line()));
    let _ = writeln!(out, "{}: {}", on_one_line(&record.name), on_one_line(&words.join(", ")));
}

fn lines(card: &Card<'_>, out: &mut String) {
    if card.record.reads.is_empty() {
        return;
    }
    out.push('\n');
    let mut grid = Grid::default();
    grid.row().left("amount").left("ingredient").right("ml").right("g").left("");
    for read in &card.record.reads {
        let size = |estimate: Option<washline_measure::Estimate>| {
            estimate.map(|e| number(e.value)).unwrap_or_default()
        };
        let grid = grid.row().left(&amount(card, read)).left(&ingredient(card, read));
        let role = role(read.role);
        let role = if role == "poured" { "" } else { role };
        grid.right(&size(read.ml)).right(&size(read.g)).left(role);
    }
    grid.write(out);
}

/// The amount as it was read, with its second.
fn amount(card: &Card<'_>, read: &Read) -> String {
    let mut words = read.amount.clone();
    if let Some(unit) = read.unit {
        let _ = write!(words, " {}", unit_for(&read.amount, unit));
    }
    if let Some(second) = card.second(read) {
        let _ = write!(words, " ({second})");
    }
    words
}

/// The unit in the singular up to one, else in the plural.
fn unit_for(amount: &str, unit: Unit) -> &'static str {
    let most = amount.rsplit("..").next().unwrap_or(amount).trim_start_matches('~');
    let one = |part: &str| part.parse::<f64>().ok();
    let value = match most.split_once('/') {
        Some((over, under)) => one(over).zip(one(under)).map(|(over, under)| over / under),
        None => one(most),
    };
    let single = value.is_some_and(|value| value <= Exact::ONE.to_f64());
    if single { unit.name() } else { unit.plural() }
}

/// The name, and what it means where that goes by another.
fn ingredient(card: &Card<'_>, read: &Read) -> String {
    let mut words = read.name.clone();
    for other in card.others(read) {
        let _ = write!(words, " or {other}");
    }
    match card.resolved(read) {
        Some(meant) if fold(meant) != fold(&read.name) => {
            let _ = write!(words, " = {meant}");
        }
        Some(_) => {}
        None => words.push_str(" (unknown)"),
    }
    words
}

fn figures(card: &Card<'_>, out: &mut String) {
    let record = card.record;
    out.push('\n');
    if record.unread {
        out.push_str("  no figures: a line can't be read, or an ingredient is unknown\n");
        return;
    }
    let mut grid = Grid::default();
    for figure in Figure::ALL {
        let Some(interval) = record.figures.get(*figure) else { continue };
        let unit = match figure {
            Figure::Cost => record.figures.currency.as_deref().unwrap_or_default(),
            figure => figure.unit(),
        };
        one(&mut grid, figure.label_of(record.kind), interval, unit);
    }
    for (market, drinks) in Market::ALL.iter().zip(record.figures.standard_drinks) {
        let Some(interval) = drinks else { continue };
        one(&mut grid, &format!("standard drinks, {}", market.id()), interval, "");
    }
    grid.write(out);
}

fn one(grid: &mut Grid, label: &str, interval: Interval, unit: &str) {
    let (value, range) = within(interval);
    grid.row().left(label).right(&value).left(unit).left(&range);
}

fn water(card: &Card<'_>, out: &mut String) {
    let settings = card.workspace.settings_of(card.record);
    let Some(models) = Models::of(card.record, settings) else { return };
    let done = match models.act {
        Act::Stirred => "stir",
        Act::Shaken => "shake",
    };
    let percent = |share: f64| number(100.0 * share);
    let (low, high) = models.bounds;
    out.push('\n');
    let _ = writeln!(out, "  water gained by the {done}, % of the pour");
    let mut grid = Grid::default();
    grid.row().left("by the published formula").right(&percent(models.formula)).left("");
    let range = spread(100.0 * low, 100.0 * high);
    grid.row().left("by the heat balance").right(&percent(models.balance)).left(&range);
    grid.write(out);
    let _ = writeln!(out, "  the heat balance ends at {} °C", number(models.end_c));
}

fn remarks(card: &Card<'_>, out: &mut String) {
    let mut grid = Grid::default();
    let allergens: Vec<String> = card
        .allergens()
        .into_iter()
        .map(|allergen| {
            let detail = allergen.detail.map(|detail| format!(" ({detail})")).unwrap_or_default();
            format!("{}{detail} from {}", allergen.name, allergen.from.join(", "))
        })
        .collect();
    let unknown: Vec<String> = card.unknown().into_iter().collect();
    let allergens =
        match (allergens.is_empty(), card.record.allergens.vouched && unknown.is_empty()) {
            (false, _) => allergens.join("; "),
            (true, true) => "none known".to_owned(),
            (true, false) => "none known, but not everything is vouched for".to_owned(),
        };
    grid.row().left("allergens").left(&allergens);
    if !unknown.is_empty() {
        grid.row().left("unknown").left(&unknown.join("; "));
    }
    let not_counted = card.not_counted();
    if !not_counted.is_empty() {
        grid.row().left("not counted").left(&not_counted.join("; "));
    }
    out.push('\n');
    grid.write(out);
    out.push_str("  Read every label; local law says what must be declared.\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::checks::{card, cards};

    #[test]
    fn a_unit_is_plural_above_one() {
        let shown = ["1", "2", "1/2", "3/2", "10..15", "~1", "some"];
        let shown = shown.map(|amount| unit_for(amount, Unit::Dash));
        assert_eq!(shown, ["dash", "dashes", "dash", "dashes", "dashes", "dash", "dashes"]);
    }

    #[test]
    fn an_unknown_name_leaves_no_figures() {
        cards(&card("  45 ml no such thing"), |cards| {
            let table = table(cards, true);
            assert!(table.contains("  45 ml   no such thing (unknown)\n"), "{table}");
            assert!(table.contains("no figures: a line can't be read"), "{table}");
            assert!(table.contains("not everything is vouched for"), "{table}");
        });
    }

    #[test]
    fn both_models_of_the_water_stand_side_by_side() {
        cards(&card("  45 ml gin"), |cards| {
            let with = table(cards, true);
            assert!(
                with.contains("by the published formula") && with.contains("by the heat balance")
            );
            assert!(!table(cards, false).contains("by the heat balance"));
        });
    }
}
