//! A name leads nowhere, to two things, or to itself.

use washline_book::Record;
use washline_text::{Edit, FileId, Place};

use crate::{Context, Report, Rule};

pub(crate) mod ambiguous_name;
pub(crate) mod duplicate_entry;
pub(crate) mod prep_cycle;
pub(crate) mod unknown_glass;
pub(crate) mod unknown_ingredient;
pub(crate) mod unknown_technique;
pub(crate) mod unused_prep;
pub(crate) mod which_syrup;

pub(super) const ALL: &[&Rule] = &[
    &unknown_ingredient::RULE,
    &ambiguous_name::RULE,
    &duplicate_entry::RULE,
    &prep_cycle::RULE,
    &unused_prep::RULE,
    &unknown_glass::RULE,
    &unknown_technique::RULE,
    &which_syrup::RULE,
];

/// The same words wherever the workspace uses them, in order: what is told once.
type Uses<'a> = Vec<(&'a Record, Place)>;

/// The names of the entries among `uses`, each once.
fn users<'a>(uses: &Uses<'a>) -> Vec<&'a str> {
    let mut ids: Vec<_> = uses.iter().map(|(record, _)| (record.id, &*record.name)).collect();
    ids.dedup();
    ids.into_iter().map(|(_, name)| name).collect()
}

/// Points at the uses behind the first.
fn with_uses(mut report: Report, uses: &Uses<'_>) -> Report {
    const MOST: usize = 8;
    for (record, place) in uses.iter().skip(1).take(MOST) {
        report = report.related(*place, format!("here too, in {}", record.name));
    }
    report
}

/// One act that writes `text` at every use.
fn rewrite(uses: &Uses<'_>, text: &str) -> Vec<(FileId, Edit)> {
    let mut places: Vec<Place> = uses.iter().map(|(_, place)| *place).collect();
    places.sort_unstable_by_key(|place| (place.file, place.span.start));
    places.dedup();
    places.into_iter().map(|place| (place.file, Edit::new(place.span, text))).collect()
}

/// Whether an entry counts in checks over the whole workspace.
fn on_the_list(context: &Context<'_>) -> bool {
    !context.record.retired
}
