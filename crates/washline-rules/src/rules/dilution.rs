//! Water, ice, technique and glass.

use washline_syntax::Key;
use washline_text::fold;

use crate::{Context, Rule};

pub(crate) mod cold_glass;
pub(crate) mod curdles;
pub(crate) mod diluted_twice;
pub(crate) mod fine_strain;
pub(crate) mod freezes;
pub(crate) mod layers_sink;
pub(crate) mod low_wash_line;
pub(crate) mod no_dilution;
pub(crate) mod no_ice;
pub(crate) mod not_dissolved;
pub(crate) mod over_the_tin;
pub(crate) mod overflows_glass;
pub(crate) mod shaken_bubbles;
pub(crate) mod step_out_of_order;
pub(crate) mod two_ices;
pub(crate) mod unstrained;
pub(crate) mod warm_bubbles;
pub(crate) mod wrong_technique;

pub(super) const ALL: &[&Rule] = &[
    &no_dilution::RULE,
    &diluted_twice::RULE,
    &shaken_bubbles::RULE,
    &wrong_technique::RULE,
    &unstrained::RULE,
    &no_ice::RULE,
    &step_out_of_order::RULE,
    &two_ices::RULE,
    &fine_strain::RULE,
    &cold_glass::RULE,
    &overflows_glass::RULE,
    &low_wash_line::RULE,
    &over_the_tin::RULE,
    &layers_sink::RULE,
    &not_dissolved::RULE,
    &curdles::RULE,
    &freezes::RULE,
    &warm_bubbles::RULE,
];

/// Whether a drink is served up: it says so, or stands on no ice in a stemmed glass.
fn served_up(context: &Context<'_>) -> bool {
    let record = context.record;
    match record.terms(Key::Serve).next() {
        Some((word, _)) => fold(word) == "up",
        None => {
            let stemmed = record.glass.is_some_and(|(glass, _)| glass.stemmed);
            stemmed && record.method.served_over(&record.entry.text).is_none()
        }
    }
}
