//! Amounts and units.

use washline_book::{Read, Record};
use washline_measure::{Ounce, Unit, UnitKind};
use washline_syntax::{Amount, Ingredient, LineKind, Placed};

use crate::Rule;
use crate::convert::{millilitres, pourable, trimmed};

pub(crate) mod ambiguous_ounce;
pub(crate) mod measures_disagree;
pub(crate) mod mixed_systems;
pub(crate) mod no_jigger;
pub(crate) mod off_house_unit;
pub(crate) mod part_without_size;
pub(crate) mod serves_disagree;
pub(crate) mod unlikely_amount;
pub(crate) mod unlikely_strength;
pub(crate) mod unlikely_time;
pub(crate) mod vague_amount;
pub(crate) mod wrong_kind_of_unit;

pub(super) const ALL: &[&Rule] = &[
    &measures_disagree::RULE,
    &wrong_kind_of_unit::RULE,
    &ambiguous_ounce::RULE,
    &off_house_unit::RULE,
    &mixed_systems::RULE,
    &no_jigger::RULE,
    &unlikely_amount::RULE,
    &unlikely_strength::RULE,
    &unlikely_time::RULE,
    &part_without_size::RULE,
    &serves_disagree::RULE,
    &vague_amount::RULE,
];

/// A line that says one measure with its unit.
#[derive(Clone, Copy)]
struct Measured<'a> {
    /// Its place among the lines read.
    at: usize,
    read: &'a Read,
    line: &'a Ingredient,
    placed: &'a Placed,
    unit: Unit,
}

impl Measured<'_> {
    /// Whether it is poured; else weighed or counted.
    fn liquid(&self) -> bool {
        self.read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid)
    }

    /// The amount as a card would write it in `unit`; `None` where it cannot be said so.
    fn written_in(&self, unit: Unit, ounce: Ounce) -> Option<String> {
        if let Some(one) = unit.grams() {
            let grams = self.read.g?.value / one.to_f64();
            return Some(format!("{} {}", trimmed(three_digits(grams)), unit.name()));
        }
        let exact = millilitres(&self.placed.measure, ounce);
        pourable(exact.or_else(|| Some(self.read.ml?.value))?, unit, ounce)
    }

    /// The unit of its bracket.
    fn second(&self) -> Option<Unit> {
        self.line.second.and_then(|second| second.measure.unit)
    }
}

/// The lines of an entry that say one measure with its unit; one that shares it among names is none.
fn measured(record: &Record) -> impl Iterator<Item = Measured<'_>> {
    record.reads.iter().enumerate().filter_map(|(at, read)| {
        let line = record.entry.lines.get(read.line as usize)?;
        let LineKind::Ingredient(line) = &line.what else { return None };
        if !line.shared.is_empty() {
            return None;
        }
        let Amount::Measures(sum) = &line.amount else { return None };
        let [placed] = sum.as_slice() else { return None };
        Some(Measured { at, read, line, placed, unit: placed.measure.unit? })
    })
}

/// The two systems of exact measures.
#[derive(Clone, Copy, PartialEq, Eq)]
enum System {
    Metric,
    Ounces,
}

/// The system that a unit is of; none for spoons, bar measures and counts, which stand beside both.
const fn system(unit: Unit) -> Option<System> {
    match unit {
        Unit::Tsp | Unit::Tbsp => None,
        Unit::Mg | Unit::G | Unit::Kg => Some(System::Metric),
        Unit::OzWt | Unit::Lb => Some(System::Ounces),
        _ => match unit.kind() {
            UnitKind::Metric => Some(System::Metric),
            UnitKind::Customary => Some(System::Ounces),
            _ => None,
        },
    }
}

/// What a scale shows of a kitchen's amount.
fn three_digits(value: f64) -> f64 {
    if value >= 100.0 { value.round() } else { (value * 10.0).round() / 10.0 }
}
