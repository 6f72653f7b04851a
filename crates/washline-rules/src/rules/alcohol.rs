//! Strength, and the law of it.

use washline_book::{Read, Record};

use crate::Rule;

pub(crate) mod caffeine_and_alcohol;
pub(crate) mod flame_near_spirit;
pub(crate) mod not_alcohol_free;
pub(crate) mod overproof;
pub(crate) mod strong_serve;
pub(crate) mod weak_for_its_name;

pub(super) const ALL: &[&Rule] = &[
    &strong_serve::RULE,
    &not_alcohol_free::RULE,
    &weak_for_its_name::RULE,
    &flame_near_spirit::RULE,
    &caffeine_and_alcohol::RULE,
    &overproof::RULE,
];

/// The counted lines that bring ethanol, by what they bring, most first.
fn strong_lines(record: &Record) -> Vec<&Read> {
    let strong = |read: &&Read| read.counted && read.composition.ethanol > 1e-6;
    let mut lines: Vec<&Read> = record.reads.iter().filter(strong).collect();
    lines.sort_by(|a, b| b.composition.ethanol.total_cmp(&a.composition.ethanol));
    lines
}
