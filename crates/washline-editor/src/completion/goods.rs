//! What goes into a drink: units, names, and what is said of them.

use std::collections::{BTreeMap, BTreeSet};

use washline_book::{Record, Referent, Workspace};
use washline_measure::{Unit, UnitKind};
use washline_reference as reference;
use washline_syntax::Key;
use washline_text::{Kind, fold};

use super::ItemKind;
use super::offers::{Offers, Word};
use super::site::Place;
use crate::Topic;

/// The units, those that a bar measures in first; plural where the number is above one.
pub(super) fn units(offers: &mut Offers) {
    let mut all: Vec<Unit> = Unit::ALL.to_vec();
    let place = |unit: &Unit| COMMON.iter().position(|common| common == unit);
    all.sort_by_key(|unit| place(unit).unwrap_or(COMMON.len()));
    for one in all {
        let label = if offers.plural() { one.plural() } else { one.name() };
        unit(one, label, offers);
    }
}

/// Common practice, no source.
const COMMON: &[Unit] =
    &[Unit::Ml, Unit::Oz, Unit::Dash, Unit::Bsp, Unit::G, Unit::Part, Unit::Leaf];

/// Offers one unit, spelt as `label`.
pub(super) fn unit(unit: Unit, label: &str, offers: &mut Offers) {
    let detail = match unit.kind() {
        UnitKind::Metric | UnitKind::Customary => "volume",
        UnitKind::Bar => "bar measure",
        UnitKind::Mass => "mass",
        UnitKind::Count => "count",
        UnitKind::Part => "share of the drink",
    };
    let topic = Some(Topic::Unit(unit));
    offers.word(Word { label, detail: detail.to_owned(), kind: ItemKind::Unit, topic });
}

/// The names of ingredients: those that the workspace uses, the most used first, then its other
/// preps and stock, then what the reference knows.
pub(super) fn names(place: &Place<'_>, offers: &mut Offers) {
    let workspace = place.workspace;
    let own = place.record().map(|record| record.id);
    let mut used: Vec<(Referent, usize)> = uses(workspace).into_iter().collect();
    used.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    let mut named = BTreeSet::new();
    for (means, times) in used {
        let detail = if times == 1 { "on 1 line".to_owned() } else { format!("on {times} lines") };
        match means {
            Referent::Reference(id) => {
                let Some(known) = reference::ingredient(id) else { continue };
                named.insert(fold(known.name));
                ingredient(known, detail, offers);
            }
            Referent::Entry(id) if Some(id) != own => {
                let Some(record) = workspace.record(id) else { continue };
                named.insert(record.key.to_string());
                entry(record, detail, offers);
            }
            Referent::Entry(_) => {}
        }
    }
    let goods = workspace.records().iter().filter(|record| record.kind != Kind::Drink);
    let goods = goods.filter(|record| !record.retired && Some(record.id) != own);
    for record in goods.filter(|record| !record.name.is_empty()) {
        if named.insert(record.key.to_string()) {
            entry(record, record.kind.name().to_owned(), offers);
        }
    }
    reference_names(&named, offers);
}

/// The names that the reference knows, save those that were offered, the nearest first.
pub(super) fn reference_names(offered: &BTreeSet<String>, offers: &mut Offers) {
    let new = reference::ingredients().iter().filter(|known| !offered.contains(&fold(known.name)));
    let mut new: Vec<_> =
        new.map(|known| (offers.fit(known.name).unwrap_or(u32::MAX), known)).collect();
    new.sort_by_key(|(distance, _)| *distance);
    for (_, known) in new {
        ingredient(known, known.sort.id().replace('-', " "), offers);
    }
}

/// Words that may stand behind the comma: what the line is for, and the state it is in.
pub(super) fn qualifiers(offers: &mut Offers) {
    for (word, detail) in QUALIFIERS {
        offers.word(Word::plain(word, detail));
    }
}

const QUALIFIERS: &[(&str, &str)] = &[
    ("fresh", "as it is"),
    ("chilled", "from the fridge"),
    ("frozen", "from the freezer"),
    ("hot", "poured hot"),
    ("pasteurised", "as the label says"),
    ("clarified", "without its solids"),
    ("optional", "counts for allergens, not for figures"),
    ("on the side", "counts for allergens and cost"),
    ("to top", "fills the glass to its wash line"),
    ("to float", "poured on top, not mixed in"),
    ("for the rinse", "coats the glass"),
    ("for the rim", "on the rim of the glass"),
    ("to mist", "sprayed over the glass"),
    ("for garnish", "a garnish"),
    ("to taste", "as much as is liked"),
];

fn uses(workspace: &Workspace) -> BTreeMap<Referent, usize> {
    let mut times = BTreeMap::new();
    for read in workspace.records().iter().flat_map(|record| &record.reads) {
        for means in read.referents() {
            *times.entry(means).or_default() += 1;
        }
    }
    times
}

/// Offers an ingredient by its name or, where that fits better, by another name of it.
fn ingredient(known: &'static reference::Ingredient, detail: String, offers: &mut Offers) {
    let aliases = known.aliases.iter().copied();
    let Some(label) = best(std::iter::once(known.name).chain(aliases), offers) else { return };
    let topic = Some(Topic::Ingredient(known.id));
    offers.word(Word { label, detail, kind: ItemKind::Ingredient, topic });
}

fn entry(record: &Record, detail: String, offers: &mut Offers) {
    let others = record.terms(Key::Also).map(|(name, _)| name);
    let Some(label) = best(std::iter::once(&*record.name).chain(others), offers) else { return };
    let topic = Some(Topic::of(record));
    offers.word(Word { label, detail, kind: ItemKind::Prepared, topic });
}

fn best<'n>(names: impl Iterator<Item = &'n str>, offers: &Offers) -> Option<&'n str> {
    let fits = names.filter_map(|name| Some((offers.fit(name)? / 100, name)));
    fits.min_by_key(|(distance, _)| *distance).map(|(_, name)| name)
}
