//! What is told between the lines: the other unit, a line's share of the sugar or the acid where
//! several lines bring it.

use washline_book::{Read, Record, Settings, Workspace};
use washline_measure::{Unit, UnitKind};
use washline_rules::pourable;
use washline_syntax::{Amount, Ingredient, LineKind};
use washline_text::{FileId, Span};

use crate::Switches;
use crate::cursor::{clamp_span, records_of};
use crate::hover::goods::{shares_of, totals};

/// A few words that an editor shows within a line, and that are none of its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The byte that they stand before.
    pub offset: u32,
    /// The words.
    pub label: String,
}

/// Less than this share of the sugar or the acid, %, is not worth a reader's eye.
const LEAST: f64 = 5.0;

/// The hints within `span` of `file`, in order.
#[must_use]
pub fn hints(workspace: &Workspace, file: FileId, span: Span, switches: &Switches) -> Vec<Hint> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let span = clamp_span(source.document.text(), span);
    let mut out = Vec::new();
    for record in records_of(workspace, file) {
        let end =
            record.start.saturating_add(u32::try_from(record.entry.text.len()).unwrap_or(u32::MAX));
        if record.start > span.end || end < span.start {
            continue;
        }
        if switches.other_unit {
            other_units(record, workspace.settings_of(record), &mut out);
        }
        if switches.shares {
            shares(record, &mut out);
        }
    }
    out.retain(|hint| span.start <= hint.offset && hint.offset <= span.end);
    out.sort_by_key(|hint| hint.offset);
    out
}

fn other_units(record: &Record, settings: &Settings, out: &mut Vec<Hint>) {
    for line in &record.entry.lines {
        let LineKind::Ingredient(ingredient) = &line.what else { continue };
        if let Some(label) = other_unit(ingredient, settings) {
            out.push(Hint { offset: record.start + ingredient.amount_span.end, label });
        }
    }
}

/// `3/4 oz` for `22.5 ml` that says nothing else: as a bar would pour it.
fn other_unit(line: &Ingredient, settings: &Settings) -> Option<String> {
    let Amount::Measures(measures) = &line.amount else { return None };
    let [said] = measures.as_slice() else { return None };
    let unit = said.measure.unit.filter(|_| line.second.is_none())?;
    let exactly = said.measure.quantity.most() == said.measure.quantity.middle();
    let other = match unit.kind() {
        UnitKind::Metric => {
            settings.second_unit.filter(|unit| *unit != Unit::Ml).unwrap_or(Unit::Oz)
        }
        UnitKind::Customary => Unit::Ml,
        UnitKind::Bar | UnitKind::Mass | UnitKind::Count | UnitKind::Part => return None,
    };
    let ml = said.measure.quantity.middle().to_f64() * unit.ml(settings.ounce)?.to_f64();
    (exactly && ml.is_finite()).then(|| pourable(ml, other, settings.ounce))?
}

fn shares(record: &Record, out: &mut Vec<Hint>) {
    let Some(totals) = totals(record) else { return };
    let of = |read: &Read| {
        let mut shares = shares_of(&totals, read);
        shares.retain(|(part, percent)| *part != "alcohol" && *percent >= LEAST);
        shares
    };
    let mut all: Vec<_> = record.reads.iter().map(|read| (read, of(read))).collect();
    let brought: Vec<&str> =
        all.iter().flat_map(|(_, shares)| shares).map(|share| share.0).collect();
    // What one line alone brings is seen without being told.
    let split = |part: &str| brought.iter().filter(|other| **other == part).count() > 1;
    for (_, shares) in &mut all {
        shares.retain(|(part, _)| split(part));
    }
    for (read, shares) in all {
        let told: Vec<String> =
            shares.iter().map(|(part, percent)| format!("{percent:.0} % of the {part}")).collect();
        let line = record.entry.lines.get(read.line as usize);
        if let Some(line) = line.filter(|_| !told.is_empty()) {
            let offset = record.start + line.content.end;
            out.push(Hint { offset, label: told.join(", ") });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn told(text: &str, switches: &Switches) -> Vec<(String, String)> {
        let (house, at) = House::at(text);
        let all = Span::new(0, u32::MAX);
        let hints = hints(&house.workspace, at.file, all, switches);
        let before =
            |offset: u32| house.text()[..offset as usize].lines().last().unwrap().to_owned();
        hints.into_iter().map(|hint| (before(hint.offset), hint.label)).collect()
    }

    const UNITS: Switches =
        Switches { other_unit: true, shares: false, figures: false, links: false };
    const SHARES: Switches =
        Switches { other_unit: false, shares: true, figures: false, links: false };

    #[test]
    fn an_amount_in_one_unit_is_told_in_the_other() {
        let text =
            "drink: A\n  22.5 ml gin\n  2 oz rum\n  15 ml (1/2 oz) vodka\n  2 dashes bitters\n";
        let expected = [("  22.5 ml", "3/4 oz"), ("  2 oz", "60 ml")];
        let expected = expected.map(|(at, label)| (at.to_owned(), label.to_owned()));
        assert_eq!(told(text, &UNITS), expected);
    }

    #[test]
    fn a_range_has_no_other_unit() {
        assert_eq!(told("drink: A\n  10-15 ml gin\n", &UNITS), []);
    }

    #[test]
    fn what_one_line_alone_brings_is_not_told() {
        let text = "drink: A\n  60 ml vodka\n  30 ml lemon juice\n  30 g sugar\n  - combine\n";
        assert_eq!(told(text, &SHARES), []);
    }

    #[test]
    fn lines_that_bring_it_together_tell_their_shares() {
        let text = "drink: A\n  60 ml vodka\n  30 ml lemon juice\n  30 ml lime juice\n  30 g sugar\n  - combine\n";
        let all = told(text, &SHARES);
        assert_eq!(all.len(), 2, "{all:?}");
        let percent = |hint: &(String, String)| {
            hint.1.strip_suffix(" % of the acid").unwrap().parse::<f64>().unwrap()
        };
        assert!(all[0].0.ends_with("lemon juice") && all[1].0.ends_with("lime juice"));
        assert!((percent(&all[0]) + percent(&all[1]) - 100.0).abs() <= 1.0, "{all:?}");
    }

    #[test]
    fn only_what_lies_in_the_span_is_told() {
        let (house, at) = House::at("drink: A\n  30 ml gin\ndrink: B\n  30 ml gin\n");
        let one = hints(&house.workspace, at.file, Span::new(0, 20), &UNITS);
        assert_eq!(one.len(), 1);
        let off = Switches { other_unit: false, shares: false, figures: true, links: true };
        assert!(hints(&house.workspace, at.file, Span::new(0, 90), &off).is_empty());
    }
}
