//! Allergens gained and lost.

use std::collections::BTreeSet;

use washline_book::{Carried, Record};

use crate::state::Item;
use crate::{AllergenChange, Allergens};

/// What differs; of an entry that has only one state, all that it carries is gained or lost.
pub(crate) fn compare(before: Option<&Item<'_>>, after: Option<&Item<'_>>) -> Allergens {
    let (old, new) = (carried(before), carried(after));
    let (unsure, doubtful) = (unknown(before), unknown(after));
    let lacks = |side: &[AllergenChange], one: &AllergenChange| {
        !side.iter().any(|other| {
            // What was sure and is only possible now is not news that calms.
            other.allergen == one.allergen
                && other.detail == one.detail
                && (!other.perhaps || one.perhaps)
        })
    };
    let minus =
        |one: &BTreeSet<String>, other: &BTreeSet<String>| one.difference(other).cloned().collect();
    Allergens {
        gained: new.iter().filter(|one| lacks(&old, one)).cloned().collect(),
        lost: old
            .iter()
            .filter(|one| {
                !new.iter()
                    .any(|other| other.allergen == one.allergen && other.detail == one.detail)
            })
            .cloned()
            .collect(),
        unknown: minus(&doubtful, &unsure),
        known: minus(&unsure, &doubtful),
    }
}

/// What counts in one of the house's markets, each kind once, what is sure before what may be.
fn carried(item: Option<&Item<'_>>) -> Vec<AllergenChange> {
    let Some(item) = item else { return Vec::new() };
    let record = item.record;
    let sulphites = record.figures.sulphites_mg_per_l;
    let markets = item.workspace.settings_of(record).declared_markets();
    let counts = |carried: &&Carried| markets.iter().any(|m| carried.counts_in(*m, sulphites));
    // What an entry only declares is its own word, and a field.
    let poured = |carried: &&Carried| carried.is_poured() || record.reads.is_empty();
    let mut out: Vec<AllergenChange> = Vec::new();
    let mut all: Vec<&Carried> =
        record.allergens.carried.iter().filter(counts).filter(poured).collect();
    all.sort_by_key(|carried| !carried.certain);
    for carried in all {
        let allergen = carried.allergen.id();
        if out.iter().any(|one| one.allergen == allergen && one.detail == carried.detail) {
            continue;
        }
        out.push(AllergenChange {
            allergen,
            detail: carried.detail.clone(),
            through: through(carried, record),
            perhaps: !carried.certain,
        });
    }
    out.sort();
    out
}

/// The way it comes; nothing where it is the entry's own word.
fn through(carried: &Carried, record: &Record) -> Vec<String> {
    let own = |name: &str| carried.path.len() == 1 && *name == *record.name;
    let names = carried.path.iter().map(|step| &step.name).filter(|name| !own(name));
    names.cloned().collect()
}

fn unknown(item: Option<&Item<'_>>) -> BTreeSet<String> {
    let unknown = item.into_iter().flat_map(|item| &item.record.allergens.unknown);
    unknown.map(|one| one.name.clone()).collect()
}
