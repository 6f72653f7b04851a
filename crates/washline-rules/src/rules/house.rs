//! What the house asks in its `washline.toml`, and what the law asks of how it pours.

use crate::{Context, Rule};

pub(crate) mod expected_by_house;
pub(crate) mod field_order;
pub(crate) mod line_order;
mod mend;
pub(crate) mod naming;
pub(crate) mod pour_cost;
pub(crate) mod required_field;
pub(crate) mod too_dear;
pub(crate) mod too_many_touches;
pub(crate) mod unlawful_measure;

pub(super) const ALL: &[&Rule] = &[
    &field_order::RULE,
    &line_order::RULE,
    &naming::RULE,
    &required_field::RULE,
    &expected_by_house::RULE,
    &too_dear::RULE,
    &pour_cost::RULE,
    &too_many_touches::RULE,
    &unlawful_measure::RULE,
];

/// Whether the entry is a drink that the bar pours today.
fn is_poured(context: &Context<'_>) -> bool {
    context.is_drink() && !context.record.retired
}

/// Money with its currency: `4.50 EUR`.
fn money(amount: f64, currency: Option<&str>) -> String {
    match currency {
        Some(currency) => format!("{amount:.2} {currency}"),
        None => format!("{amount:.2}"),
    }
}
