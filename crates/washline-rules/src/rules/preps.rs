//! House preparations: how long, how much, how strong.

use washline_book::{Record, Shelf};
use washline_measure::{Unit, UnitKind};

use crate::convert::trimmed;
use crate::words::number;
use crate::{Context, Rule};

pub(crate) mod bitters_scaled;
pub(crate) mod kept_too_long;
pub(crate) mod milk_into_punch;
pub(crate) mod no_keeping_time;
pub(crate) mod no_yield;
pub(crate) mod not_labelled;
pub(crate) mod short_life_chain;
pub(crate) mod stale_citrus;
pub(crate) mod strength_of_syrup;
pub(crate) mod where_kept;
pub(crate) mod yield_disagrees;

pub(super) const ALL: &[&Rule] = &[
    &no_keeping_time::RULE,
    &kept_too_long::RULE,
    &stale_citrus::RULE,
    &short_life_chain::RULE,
    &where_kept::RULE,
    &no_yield::RULE,
    &yield_disagrees::RULE,
    &strength_of_syrup::RULE,
    &bitters_scaled::RULE,
    &milk_into_punch::RULE,
    &not_labelled::RULE,
];

/// A time as a label has it: `36 hours`, `5 days`, `3 weeks`, `6 months`.
fn time(hours: f64) -> String {
    let one = |count: f64, unit: &str| {
        let count = number(count.round());
        let s = if count == "1" { "" } else { "s" };
        format!("{count} {unit}{s}")
    };
    let days = hours / 24.0;
    if hours < 47.5 {
        one(hours, "hour")
    } else if days < 13.5 {
        one(days, "day")
    } else if days < 62.0 {
        one(days / 7.0, "week")
    } else {
        one(days / 30.4, "month")
    }
}

/// A shelf as people say it.
const fn on(shelf: Shelf) -> &'static str {
    match shelf {
        Shelf::Freezer => "in the freezer",
        Shelf::Fridge => "in the fridge",
        Shelf::Room => "at room temperature",
    }
}

/// What the prep comes to by its lines, in `unit`, as a jug and a scale are read.
fn whole_in(context: &Context<'_>, record: &Record, unit: Unit) -> Option<String> {
    let makes = record.makes.as_ref()?;
    let by_mass = unit.kind() == UnitKind::Mass;
    let one = if by_mass { unit.grams()? } else { unit.ml(context.settings.ounce)? };
    let whole = if by_mass { makes.g } else { makes.ml };
    let count = whole.value / one.to_f64();
    let count = match unit {
        Unit::Ml | Unit::G if count >= 100.0 => (count / 5.0).round() * 5.0,
        Unit::Ml | Unit::G => count.round(),
        _ => count,
    };
    Some(format!("{} {}", trimmed(count), unit.name()))
}
