//! What goes into a drink: units, names, and what is said of them.

use std::collections::HashSet;
use std::sync::LazyLock;

use washline_book::{EntryId, Read, Record, Referent};
use washline_measure::{Unit, UnitKind};
use washline_reference as reference;
use washline_syntax::Key;
use washline_text::{Kind, fold};

use super::ItemKind;
use super::offers::{Comes, Offers, Word};
use super::site::Place;
use super::wanted::{Wanted, caution};
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

/// The names of ingredients: those that the workspace uses, the most used first, what the entry
/// has already behind them; then its other preps and stock, then what the reference knows. What
/// the amount is usually of comes before all others. A name that the house's own goods go by is
/// theirs alone.
pub(super) fn names(place: &Place<'_>, offers: &mut Offers) {
    let mut names = Names::new(place, offers);
    let wanted = Wanted::at(place);
    let mut used: Vec<(Referent, u32)> = place.workspace.pours().collect();
    let here: HashSet<Referent> = place.record().map(poured).unwrap_or_default();
    used.sort_by_key(|(means, times)| (here.contains(means), std::cmp::Reverse(*times), *means));
    if wanted != Wanted::Any {
        names.used(used.iter().filter(|(means, _)| wanted.is(place.workspace, *means)));
        names.others(wanted);
        names.known(wanted);
        names.offers.prefer_no_exact();
    }
    names.used(used.iter());
    names.others(Wanted::Any);
    names.known(Wanted::Any);
}

/// Names on their way to be offered, each once.
struct Names<'p, 'o> {
    place: &'p Place<'p>,
    offers: &'o mut Offers,
    /// The preps and stock of the workspace.
    goods: Vec<&'p Record>,
    /// The folded names that are the house's own, or were offered.
    taken: HashSet<String>,
    /// The entries that were offered.
    offered: HashSet<EntryId>,
}

impl<'p, 'o> Names<'p, 'o> {
    fn new(place: &'p Place<'p>, offers: &'o mut Offers) -> Self {
        let own = place.record().map(|record| record.id);
        let records = place.workspace.records().iter();
        let goods: Vec<&Record> = records.filter(|record| record.kind != Kind::Drink).collect();
        let taken = goods.iter().copied().flat_map(keys).collect();
        let mut names = Self { place, offers, goods, taken, offered: own.into_iter().collect() };
        names.leave_out_other_sides();
        names
    }

    /// `bourbon or` goes on with anything but bourbon.
    fn leave_out_other_sides(&mut self) {
        let line = fold(self.place.before);
        let Some((before, _)) = line.rsplit_once(" or ") else { return };
        let said = |key: &str| {
            before.split(" or ").any(|side| {
                let amount = side.strip_suffix(key);
                amount.is_some_and(|amount| amount.is_empty() || amount.ends_with(' '))
            })
        };
        for known in KNOWN.iter().filter(|known| known.names.iter().any(|(key, _)| said(key))) {
            self.taken.extend(known.names.iter().map(|(key, _)| key.clone()));
        }
        let entries = self.goods.iter().filter(|record| keys(record).any(|key| said(&key)));
        self.offered.extend(entries.map(|record| record.id));
    }

    /// What lines mean, and on how many of them.
    fn used<'u>(&mut self, used: impl Iterator<Item = &'u (Referent, u32)>) {
        for (means, times) in used {
            let detail =
                if *times == 1 { "on 1 line".to_owned() } else { format!("on {times} lines") };
            match *means {
                Referent::Reference(id) => {
                    let Some(known) = KNOWN.get(usize::from(id)) else { continue };
                    // By another name of it it is no likelier than others.
                    let fits = known.fits_by_its_own_name(self.offers);
                    if fits && !self.taken.contains(known.key()) {
                        known.offer(detail, &self.taken, self.offers);
                        self.taken.insert(known.key().to_owned());
                    }
                }
                Referent::Entry(id) if self.offered.insert(id) => {
                    let Some(record) = self.place.workspace.record(id) else { continue };
                    entry(record, detail, self.offers);
                }
                Referent::Entry(_) => {}
            }
        }
    }

    /// The preps and stock that no line uses, of what is wanted.
    fn others(&mut self, wanted: Wanted) {
        for record in &self.goods {
            let poured = !record.retired && !record.name.is_empty();
            let is = wanted == Wanted::Any
                || wanted.is(self.place.workspace, Referent::Entry(record.id));
            if poured && is && self.offered.insert(record.id) {
                entry(record, record.kind.name().to_owned(), self.offers);
            }
        }
    }

    /// What the reference knows of what is wanted, the nearest first.
    fn known(&mut self, wanted: Wanted) {
        let new = KNOWN.iter().filter(|known| wanted.of(known.ingredient));
        for key in reference_names(new, wanted, &self.taken, self.offers) {
            self.taken.insert(key.to_owned());
        }
    }
}

/// What the lines of an entry mean.
fn poured(record: &Record) -> HashSet<Referent> {
    record.reads.iter().flat_map(Read::referents).collect()
}

/// The kinds of the reference.
pub(super) fn kinds(offers: &mut Offers) {
    reference_names(KNOWN.iter(), Wanted::Any, &HashSet::default(), offers);
}

/// Offers the names of `known`, the usual and the nearest first, save those whose own name is `taken`; another
/// that is taken is not what they are offered by. Their own names.
fn reference_names<'k>(
    known: impl Iterator<Item = &'k Known>,
    wanted: Wanted,
    taken: &HashSet<String>,
    offers: &mut Offers,
) -> Vec<&'k str> {
    let new = known.filter(|known| !taken.contains(known.key()));
    let mut new: Vec<_> =
        new.map(|known| (offers.fit_folded(known.key()).unwrap_or(u32::MAX), known)).collect();
    new.sort_by_key(|(distance, known)| {
        let rank = wanted.rank(known.ingredient);
        (distance / 100, rank, *distance)
    });
    for (_, known) in &new {
        let sort = known.ingredient.sort.id().replace('-', " ");
        let detail = caution(known.ingredient).map_or(sort, str::to_owned);
        known.offer(detail, taken, offers);
    }
    new.into_iter().map(|(_, known)| known.key()).collect()
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

/// An ingredient of the reference, with each name of it folded.
struct Known {
    ingredient: &'static reference::Ingredient,
    names: Vec<(String, &'static str)>,
}

/// All of them by their numbers, folded once.
static KNOWN: LazyLock<Vec<Known>> = LazyLock::new(|| {
    let known = |ingredient: &'static reference::Ingredient| {
        let names = std::iter::once(ingredient.name).chain(ingredient.aliases.iter().copied());
        Known { ingredient, names: names.map(|name| (fold(name), name)).collect() }
    };
    reference::ingredients().iter().map(known).collect()
});

impl Known {
    /// Its own name, folded.
    fn key(&self) -> &str {
        self.names.first().map_or("", |(key, _)| key)
    }

    /// Whether none of its other names fits better.
    fn fits_by_its_own_name(&self, offers: &Offers) -> bool {
        let class = |key: &str| offers.fit_folded(key).map(|distance| distance / 100);
        let own = class(self.key());
        own.is_some() && self.names.iter().filter_map(|(key, _)| class(key)).min() == own
    }

    /// Offers it by its name or, where that fits better, by another name of it that is not `taken`.
    fn offer(&self, detail: String, taken: &HashSet<String>, offers: &mut Offers) {
        let free = self.names.iter().filter(|(key, _)| !taken.contains(key));
        let names = free.map(|(key, name)| (key.as_str(), *name));
        let Some(label) = best(names, offers) else { return };
        let topic = Some(Topic::Ingredient(self.ingredient.id));
        let word = Word { label, detail, kind: ItemKind::Ingredient, topic };
        offers.name(word, comes(self.ingredient));
    }
}

/// By the piece where one has a size.
fn comes(ingredient: &reference::Ingredient) -> Comes {
    match ingredient.size(None) {
        Some(_) => Comes::Whole,
        None if ingredient.liquid => Comes::Poured,
        None => Comes::Weighed,
    }
}

/// What an entry's names fold to.
fn keys(record: &Record) -> impl Iterator<Item = String> + '_ {
    let others = record.terms(Key::Also).map(|(name, _)| fold(name));
    std::iter::once(record.key.to_string()).chain(others)
}

fn entry(record: &Record, detail: String, offers: &mut Offers) {
    let others: Vec<(String, &str)> =
        record.terms(Key::Also).map(|(name, _)| (fold(name), name)).collect();
    let others = others.iter().map(|(key, name)| (key.as_str(), *name));
    let names = std::iter::once((&*record.key, &*record.name)).chain(others);
    let Some(label) = best(names, offers) else { return };
    let topic = Some(Topic::of(record));
    let liquid = record.makeup.as_ref().is_none_or(|makeup| makeup.liquid);
    let comes = if liquid { Comes::Poured } else { Comes::Weighed };
    offers.name(Word { label, detail, kind: ItemKind::Prepared, topic }, comes);
}

/// Of names, each behind what it folds to, the one that fits best.
fn best<'n, 'k>(
    names: impl Iterator<Item = (&'k str, &'n str)>,
    offers: &Offers,
) -> Option<&'n str> {
    let fits = names.filter_map(|(key, name)| Some((offers.fit_folded(key)? / 100, name)));
    fits.min_by_key(|(distance, _)| *distance).map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use crate::completion::tests::labels;

    #[test]
    fn a_choice_is_between_different_things() {
        let all = labels("drink: A\n  30 ml bourbon or b|\n");
        assert!(all.iter().any(|label| label == "brandy"), "{all:?}");
        assert!(!all.iter().any(|label| label == "bourbon"), "{all:?}");
        let text = "prep: Red Tea\n  300 ml water\n\ndrink: A\n  30 ml red tea or r|\n";
        assert!(!labels(text).iter().any(|label| label == "Red Tea"));
    }
}
