//! The line can't be read, or only with a doubt.

use std::collections::BTreeMap;

use washline_text::{FileId, Finding};

use crate::Rule;

pub(crate) mod bare_proportion;
pub(crate) mod clashing_values;
pub(crate) mod decimal_comma;
pub(crate) mod doubtful_fraction;
pub(crate) mod duplicate_field;
pub(crate) mod empty_step;
pub(crate) mod empty_value;
pub(crate) mod hidden_character;
pub(crate) mod merge_conflict;
pub(crate) mod misplaced_line;
pub(crate) mod missing_name;
pub(crate) mod missing_unit;
pub(crate) mod mixed_script;
pub(crate) mod not_utf8;
pub(crate) mod second_ingredient;
pub(crate) mod shared_amount;
pub(crate) mod syntax;
pub(crate) mod turned_line;
pub(crate) mod unknown_entry;
pub(crate) mod unknown_field;
pub(crate) mod unknown_unit;
pub(crate) mod unknown_value;
pub(crate) mod unreadable_amount;
pub(crate) mod wrong_bullet;

pub(super) const ALL: &[&Rule] = &[
    &syntax::RULE,
    &misplaced_line::RULE,
    &merge_conflict::RULE,
    &unknown_field::RULE,
    &duplicate_field::RULE,
    &empty_value::RULE,
    &unknown_value::RULE,
    &unknown_entry::RULE,
    &clashing_values::RULE,
    &unreadable_amount::RULE,
    &decimal_comma::RULE,
    &doubtful_fraction::RULE,
    &missing_unit::RULE,
    &unknown_unit::RULE,
    &bare_proportion::RULE,
    &second_ingredient::RULE,
    &shared_amount::RULE,
    &turned_line::RULE,
    &missing_name::RULE,
    &empty_step::RULE,
    &wrong_bullet::RULE,
    &hidden_character::RULE,
    &mixed_script::RULE,
    &not_utf8::RULE,
];

/// Rules whose finding says already why the name under it is not known.
const SPOIL: &[&Rule] =
    &[&hidden_character::RULE, &mixed_script::RULE, &unknown_unit::RULE, &missing_name::RULE];

/// Takes out what says again, of a name, that it is not known where its spelling was told:
/// one cause is one finding.
pub(crate) fn say_once(findings: &mut Vec<Finding>) {
    let spoil = |finding: &&Finding| SPOIL.iter().any(|rule| rule.name == finding.rule);
    let spoilt: BTreeMap<(FileId, u32), u32> = findings
        .iter()
        .filter(spoil)
        .map(|finding| ((finding.place.file, finding.place.span.start), finding.place.span.end))
        .collect();
    if spoilt.is_empty() {
        return;
    }
    findings.retain(|finding| {
        let (file, span) = (finding.place.file, finding.place.span);
        let before = spoilt.range((file, 0)..(file, span.end.max(span.start + 1))).next_back();
        finding.rule != "unknown-ingredient" || before.is_none_or(|(_, end)| *end <= span.start)
    });
}
