//! What the tests of the figures' outputs stand on.

use super::Card;
use crate::checks::workspace;

/// A stirred drink of `lines`.
pub(super) fn card(lines: &str) -> String {
    format!("drink: Lantern Row\n  contains: none\n{lines}\n  - stir with ice, strain\n")
}

/// What `with` makes of the drinks and preps in `text`.
pub(super) fn cards<T>(text: &str, with: impl FnOnce(&[Card<'_>]) -> T) -> T {
    let workspace = workspace(&[("a.pour", text)]);
    let records = workspace.records().iter();
    let cards: Vec<Card<'_>> =
        records.map(|record| Card { workspace: &workspace, record, file: "a.pour" }).collect();
    with(&cards)
}
