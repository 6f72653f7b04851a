//! What the card leaves unsaid, and what its steps and lines do not share.

use washline_syntax::Key;
use washline_text::fold;

use crate::{Context, Rule};

pub(crate) mod garnish_disagrees;
pub(crate) mod never_used;
pub(crate) mod no_garnish_said;
pub(crate) mod no_glass_said;
pub(crate) mod no_method;
pub(crate) mod not_listed;

pub(super) const ALL: &[&Rule] = &[
    &not_listed::RULE,
    &never_used::RULE,
    &garnish_disagrees::RULE,
    &no_garnish_said::RULE,
    &no_glass_said::RULE,
    &no_method::RULE,
];

/// Whether a card is one that the next shift pours from: a drink that is no draft, not retired,
/// and no batch that another card pours.
fn asks(context: &Context<'_>) -> bool {
    let record = context.record;
    let batch = record
        .terms(Key::Serve)
        .any(|(word, _)| matches!(fold(word).as_str(), "bottled" | "bowl" | "draught"))
        || record.families.is("punch")
        || record.serves > 1.0 && record.method.acts.is_empty();
    context.is_drink()
        && !record.unread
        && !record.draft
        && !record.retired
        && !batch
        && !record.reads.is_empty()
}

/// Whether the house asks for a field of every drink: `required-field` tells that it is missing.
fn is_asked_by_house(context: &Context<'_>, key: Key) -> bool {
    context.settings.cards.drink_needs.contains(&key)
}
