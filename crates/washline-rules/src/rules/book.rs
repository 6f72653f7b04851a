//! The book as a whole: what one card alone does not show.

use std::collections::BTreeSet;

use washline_book::Record;
use washline_text::fold;

use crate::{Context, Rule};

pub(crate) mod garnish_has_no_prep;
pub(crate) mod glass_of_two_sizes;
pub(crate) mod menu_disagrees;
pub(crate) mod near_duplicate;
pub(crate) mod retired_in_use;
pub(crate) mod section_without_drinks;
pub(crate) mod two_currencies;
pub(crate) mod unused_stock;
pub(crate) mod variant_drift;

pub(super) const ALL: &[&Rule] = &[
    &near_duplicate::RULE,
    &section_without_drinks::RULE,
    &variant_drift::RULE,
    &menu_disagrees::RULE,
    &garnish_has_no_prep::RULE,
    &retired_in_use::RULE,
    &unused_stock::RULE,
    &two_currencies::RULE,
    &glass_of_two_sizes::RULE,
];

/// What the bar works with today: neither retired nor a draft.
fn in_use(record: &Record) -> bool {
    !record.retired && !record.draft
}

fn is_drink_in_use(context: &Context<'_>) -> bool {
    context.is_drink() && in_use(context.record)
}

/// The words of a text, folded.
fn words(text: &str) -> BTreeSet<String> {
    let folded = fold(text);
    let words = folded.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_owned).collect()
}
