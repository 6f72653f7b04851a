//! What a field may say, key by key.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use washline_measure::{Unit, UnitKind};
use washline_reference as reference;
use washline_reference::{Allergen, Market};
use washline_syntax::{EntryKind, Key, vocabulary};
use washline_text::{Kind, fold};

use super::ItemKind;
use super::fields;
use super::goods;
use super::offers::{Offers, Word};
use super::site::Place;
use super::usual::Usual;
use crate::Topic;

/// Offers what the value of `key` may go on with after `said`.
pub(super) fn offer(place: &Place<'_>, key: Key, said: &str, offers: &mut Offers) {
    match key {
        Key::Family => families(place, said, offers),
        Key::Glass | Key::Vessel if said.is_empty() => glasses(place, key, offers),
        Key::Glass => {
            for word in ["chilled", "frozen"].iter().filter(|word| !is_said(said, word)) {
                offers.word(Word::plain(word, "a cold glass"));
            }
        }
        Key::Keeps if !said.is_empty() => fields::places(place, key, offers),
        Key::Store => fields::places(place, key, offers),
        Key::Ice => words(place, key, said, offers, "a kind of ice", |word| {
            reference::ice(word).map(|ice| Topic::Ice(ice.name))
        }),
        Key::Serve => words(place, key, said, offers, "a way to serve it", |_| None),
        Key::Status => words(place, key, said, offers, "where the entry stands", |_| None),
        Key::Contains | Key::MayContain => {
            allergens(place, said, offers);
            if said.is_empty() {
                let detail = "states that it carries none: read every label first";
                offers.word(Word::plain("none", detail));
            }
        }
        Key::FreeFrom => {
            words(place, key, said, offers, "a claim: read every label first", |_| None);
            allergens(place, said, offers);
        }
        Key::Market => markets(said, offers),
        Key::Units => units(said, offers),
        Key::Kind => goods::kinds(offers),
        Key::Garnish => garnishes(place, said, offers),
        Key::VariantOf => drinks(place, offers),
        Key::Waive => waiver(said, offers),
        Key::Tags => tags(place, said, offers),
        _ if !said.is_empty() => fields::unit(place, key, offers),
        _ => {}
    }
}

/// Offers the books that the workspace has; other entries have names of their own.
pub(super) fn titles(place: &Place<'_>, kind: EntryKind, offers: &mut Offers) {
    if kind != EntryKind::Book {
        return;
    }
    let own = place.cursor.as_ref().map(|cursor| (place.file, cursor.located.start));
    let mut names = BTreeSet::new();
    for (file, source) in (0..).map(washline_text::FileId).zip(place.workspace.files()) {
        for located in source.document.entries() {
            let entry = &located.entry;
            if entry.kind == EntryKind::Book && Some((file, located.start)) != own {
                names.insert(entry.name.text(&entry.text));
            }
        }
    }
    for name in names.into_iter().filter(|name| !name.is_empty()) {
        offers.word(Word::plain(name, "a book of the workspace"));
    }
}

fn is_said(said: &str, word: &str) -> bool {
    let word = fold(word);
    said.split([',', ';']).any(|term| fold(term) == word)
}

fn words(
    place: &Place<'_>,
    key: Key,
    said: &str,
    offers: &mut Offers,
    detail: &str,
    topic: impl Fn(&str) -> Option<Topic>,
) {
    let all = vocabulary::values(key).iter().filter(|word| !is_said(said, word));
    for word in Usual::of(place, key).first(all, |word| word) {
        offers.word(Word { topic: topic(word), ..Word::plain(word, detail) });
    }
}

fn families(place: &Place<'_>, said: &str, offers: &mut Offers) {
    let settings = place.workspace.settings_in(place.file);
    let own = settings.families.keys().map(|name| (name.as_str(), "a family of the house"));
    let own = own.filter(|(name, _)| reference::family(name).is_none());
    let known = reference::families().iter().map(|family| (family.name, family.doc));
    let all = known.chain(own).filter(|(name, _)| !is_said(said, name));
    for (name, doc) in Usual::of(place, Key::Family).first(all, |(name, _)| name) {
        let topic = Some(Topic::Family(name.to_owned()));
        offers.word(Word { label: name, detail: doc.to_owned(), kind: ItemKind::Word, topic });
    }
    if said.is_empty() {
        offers.word(Word::plain("none", "no family: no bands"));
    }
}

/// Offers the glasses, each by the name that fits best; of those, as the house says it.
pub(super) fn glasses(place: &Place<'_>, key: Key, offers: &mut Offers) {
    let house = &place.workspace.settings_in(place.file).glasses;
    let usual = Usual::of(place, key);
    let names = |glass: &'static reference::Glass| {
        std::iter::once(glass.name).chain(glass.aliases.iter().copied())
    };
    let said = |glass: &'static reference::Glass| -> u32 {
        names(glass).map(|name| usual.times(name)).sum()
    };
    let mut all: Vec<&reference::Glass> = reference::glasses().iter().collect();
    all.sort_by_cached_key(|glass| Reverse(said(glass)));
    for glass in all {
        let fits = names(glass).filter_map(|name| Some((offers.fit(name)?, name)));
        let best = fits
            .min_by_key(|(distance, name)| (distance / 100, Reverse(usual.times(name)), *distance));
        let Some((_, label)) = best else { continue };
        let brim = house.get(&fold(glass.name)).copied().unwrap_or(glass.brim.value);
        let detail = format!("{} ml", washline_measure::number(brim));
        let topic = Some(Topic::Glass(glass.name));
        offers.word(Word { label, detail, kind: ItemKind::Word, topic });
    }
}

/// By the words of the house's first market, where the notation reads them; first what the
/// lines are known to carry.
fn allergens(place: &Place<'_>, said: &str, offers: &mut Offers) {
    let settings = place.workspace.settings_in(place.file);
    let market = settings.declared_markets().first().copied();
    let carried = place.record().map_or(&[][..], |record| &record.allergens.carried);
    let from = |allergen: Allergen| {
        let carried = carried.iter().find(|carried| carried.allergen == allergen)?;
        carried.path.first().map(|step| step.name.as_str())
    };
    let is_listed = |allergen: Allergen| {
        let named = |term: &str| washline_book::allergens_named_by(&fold(term));
        said.split([',', ';']).any(|term| named(term).iter().any(|(one, _)| *one == allergen))
    };
    let mut all: Vec<Allergen> = Allergen::ALL.to_vec();
    all.retain(|allergen| !is_listed(*allergen));
    all.sort_by_key(|allergen| from(*allergen).is_none());
    for allergen in all {
        let term = market.map(|market| market.term(allergen));
        let read = |term: &&str| reference::allergen_from_word(&fold(term)).is_some();
        let label = term.filter(read).unwrap_or(allergen.id());
        let known = from(allergen).map(|name| format!("from {name}"));
        let detail = known.unwrap_or_else(|| "an allergen".to_owned());
        let topic = Some(Topic::Allergen(allergen));
        offers.word(Word { label, detail, kind: ItemKind::Word, topic });
    }
}

fn markets(said: &str, offers: &mut Offers) {
    for market in Market::ALL.iter().filter(|market| !is_said(said, market.id())) {
        offers.word(Word::plain(market.id(), "a market"));
    }
}

fn units(said: &str, offers: &mut Offers) {
    let written = |unit: &&Unit| unit.kind() != UnitKind::Count && !is_said(said, unit.name());
    for unit in Unit::ALL.iter().filter(written) {
        goods::unit(*unit, unit.name(), offers);
    }
}

fn drinks(place: &Place<'_>, offers: &mut Offers) {
    let own = place.record().map(|record| record.id);
    let records = place.workspace.records().iter();
    let mut drinks: Vec<_> = records
        .filter(|record| record.kind == Kind::Drink && Some(record.id) != own)
        .filter(|record| !record.name.is_empty())
        .collect();
    drinks.sort_by_key(|record| record.file != place.file);
    for drink in drinks {
        let topic = Some(Topic::of(drink));
        let detail = crate::lenses::title(drink).unwrap_or_else(|| "a drink".to_owned());
        offers.word(Word { label: &drink.name, detail, kind: ItemKind::Drink, topic });
    }
}

/// `waive: RULE, RULE because REASON`
fn waiver(said: &str, offers: &mut Offers) {
    let done = said.trim_end();
    if done.split_whitespace().any(|word| word.eq_ignore_ascii_case("because")) {
        return;
    }
    if !done.is_empty() && !done.ends_with(',') {
        offers.text(Word::plain("because", "the reason follows"), "because ".to_owned());
        return;
    }
    let may = |rule: &&washline_rules::Rule| washline_rules::is_waivable(rule.name);
    for rule in washline_rules::all().filter(may).filter(|rule| !is_said(said, rule.name)) {
        let topic = Some(Topic::rule(rule));
        let detail = rule.why.to_owned();
        offers.word(Word { label: rule.name, detail, kind: ItemKind::Rule, topic });
    }
}

/// The garnishes that the house's drinks have, then some that any bar has.
fn garnishes(place: &Place<'_>, said: &str, offers: &mut Offers) {
    let usual = Usual::of(place, Key::Garnish);
    for (garnish, times) in usual.all().filter(|(garnish, _)| !is_said(said, garnish)) {
        let detail =
            if times == 1 { "on 1 drink".to_owned() } else { format!("on {times} drinks") };
        offers.word(Word::plain(garnish, &detail));
    }
    for garnish in GARNISHES.iter().filter(|one| usual.times(one) == 0 && !is_said(said, one)) {
        offers.word(Word::plain(garnish, "a garnish"));
    }
    if said.is_empty() && usual.times("none") == 0 {
        offers.word(Word::plain("none", "states that it has none"));
    }
}

/// Common practice, no source.
const GARNISHES: &[&str] = &[
    "lemon twist",
    "orange twist",
    "grapefruit twist",
    "lime wheel",
    "lime wedge",
    "lemon wedge",
    "lemon wheel",
    "orange slice",
    "cocktail cherry",
    "green olive",
    "mint sprig",
    "cucumber ribbon",
    "pineapple wedge",
    "grated nutmeg",
    "coffee beans",
    "orange peel, flamed",
];

/// The tags that other entries have.
fn tags(place: &Place<'_>, said: &str, offers: &mut Offers) {
    let own = place.record().map(|record| record.id);
    let others = place.workspace.records().iter().filter(|record| Some(record.id) != own);
    let tags: BTreeSet<&str> =
        others.flat_map(|record| record.terms(Key::Tags)).map(|(tag, _)| tag).collect();
    for tag in tags.into_iter().filter(|tag| !is_said(said, tag)) {
        offers.word(Word::plain(tag, "a tag of other entries"));
    }
}
