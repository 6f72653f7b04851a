//! What a drink must declare.

use std::collections::BTreeSet;

use washline_book::{AllergenStep, Carried, Read, Record, Referent, Settings};
use washline_reference::{Allergen, Market, Trait};
use washline_syntax::{Key, Technique};
use washline_text::{Kind, Place, fold};

use crate::{Context, Report, Rule};

pub(crate) mod allergen_unknown;
pub(crate) mod broken_claim;
pub(crate) mod declared_not_present;
mod mend;
pub(crate) mod raw_egg;
pub(crate) mod read_the_label;
pub(crate) mod undeclared_allergen;
pub(crate) mod unpasteurised;

pub(super) const ALL: &[&Rule] = &[
    &undeclared_allergen::RULE,
    &read_the_label::RULE,
    &declared_not_present::RULE,
    &allergen_unknown::RULE,
    &broken_claim::RULE,
    &raw_egg::RULE,
    &unpasteurised::RULE,
];

/// An allergen and which kind of it; the kind is empty for the general word.
type Named = (Allergen, &'static str);

/// Whether a market of the house asks to declare what is carried.
fn is_asked(context: &Context<'_>, carried: &Carried) -> bool {
    let mg = context.record.figures.sulphites_mg_per_l;
    context.settings.declared_markets().iter().any(|market| carried.counts_in(*market, mg))
}

/// What the drink carries always, that a market of the house asks for.
fn carried<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a Carried> {
    let context = *context;
    let poured = context.record.allergens.carried.iter().filter(|c| c.certain && c.is_poured());
    poured.filter(move |c| is_asked(&context, c))
}

/// What `of` says of each, each thing once, in order.
fn each(carried: &[&Carried], of: impl Fn(&Carried) -> String) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for words in carried.iter().map(|carried| of(carried)) {
        if !out.contains(&words) {
            out.push(words);
        }
    }
    out
}

/// Kinds that are wheat by another name: the United States list them as wheat.
const WHEATS: &[&str] = &["spelt", "kamut", "durum", "semolina", "triticale"];

/// Whether the words listed speak of what is carried: the general word of every kind of it,
/// and any word of a kind that nobody knows.
fn is_listed(listed: &[Named], allergen: Allergen, kind: &str) -> bool {
    listed.iter().any(|(said, said_kind)| {
        let same = said_kind.is_empty() || kind.is_empty() || *said_kind == kind;
        *said == allergen && (same || (*said_kind == "wheat" && WHEATS.contains(&kind)))
    })
}

/// The allergens that a field of the entry lists, words that name none left out.
fn named(record: &Record, key: Key) -> Vec<Named> {
    let listed = washline_book::allergens_listed(record, key);
    listed.into_iter().filter_map(|(named, _)| named).collect()
}

/// The house's word for an allergen: its first market's that asks for it.
fn term(settings: &Settings, allergen: Allergen) -> &'static str {
    let asking = settings.markets.iter().find(|market| market.declares(allergen));
    asking.map_or(allergen.id(), |market| market.term(allergen))
}

/// What to write in `contains:`. Every market wants the nut named, so a nut that is known is.
fn word(settings: &Settings, carried: &Carried) -> String {
    if carried.allergen == Allergen::Nuts && !carried.detail.is_empty() {
        return carried.detail.clone();
    }
    term(settings, carried.allergen).to_owned()
}

/// The allergen with its kind: `nuts (almond)`.
fn said(settings: &Settings, carried: &Carried) -> String {
    let term = term(settings, carried.allergen);
    if carried.detail.is_empty() || carried.detail == term {
        return term.to_owned();
    }
    format!("{term} ({})", carried.detail)
}

/// The way it came: `Brown Butter Rum → butter`.
fn way(path: &[AllergenStep]) -> String {
    let mut names: Vec<&str> = path.iter().map(|step| step.name.as_str()).collect();
    names.dedup_by_key(|name| fold(name));
    names.join(" → ")
}

/// Points at each line on the way from the entry's own down to what carries it.
fn with_way(mut report: Report, context: &Context<'_>, path: &[AllergenStep]) -> Report {
    let mut record = Some(context.record);
    for step in path {
        let Some(on) = record else { break };
        report = match step.read {
            Some(at) => {
                let place = Context { record: on, ..*context }.read_place(at);
                report.related(place, format!("{}, in {}", step.name, on.name))
            }
            // What a bottle's own entry says, or the reference of its kind.
            None => report.related(on.name_place(), format!("as {} says", on.name)),
        };
        record = step.entry.and_then(|id| context.workspace.record(id));
    }
    report
}

/// A market as people say it.
const fn market_name(market: Market) -> &'static str {
    match market {
        Market::Eu => "the EU",
        Market::Uk => "the UK",
        Market::Us => "the US",
        Market::Ca => "Canada",
        Market::AuNz => "Australia and New Zealand",
    }
}

/// A line that brings something raw.
struct Raw {
    /// Where the entry names it.
    place: Place,
    /// The way down to it.
    way: String,
}

/// The first line that brings something raw with `property`, itself or through preps: neither
/// pasteurised nor cooked on the way. A chain of preps can be as long as the book.
fn raw(context: &Context<'_>, property: Trait) -> Option<Raw> {
    let known =
        |id: u16| washline_reference::ingredient(id).is_some_and(|known| known.is(property));
    let has = |record: &Record| record.reaches.iter().any(|(id, _)| known(*id));
    if !has(context.record) {
        return None;
    }
    let mut seen = BTreeSet::new();
    let mut open = vec![(context.record, None, Vec::new())];
    while let Some((record, from, names)) = open.pop() {
        if !seen.insert(record.id) {
            continue;
        }
        for (place, read, referent) in uncooked(record) {
            let place = from.unwrap_or(place);
            let mut names: Vec<&str> = names.clone();
            names.push(&read.name);
            match referent {
                Referent::Reference(id) if known(id) => return Some(Raw::of(place, names)),
                Referent::Reference(_) => {}
                Referent::Entry(id) => match context.workspace.record(id).filter(|r| has(r)) {
                    Some(stock)
                        if stock.kind == Kind::Stock && !fold(&stock.name).contains("pasteuri") =>
                    {
                        return Some(Raw::of(place, names));
                    }
                    Some(prep) => open.push((prep, Some(place), names)),
                    None => {}
                },
            }
        }
    }
    None
}

impl Raw {
    fn of(place: Place, mut names: Vec<&str>) -> Self {
        names.dedup_by_key(|name| fold(name));
        Self { place, way: names.join(" → ") }
    }
}

/// What the lines and garnishes of an entry mean, save what it pasteurises or cooks.
fn uncooked(record: &Record) -> impl Iterator<Item = (Place, &Read, Referent)> {
    let all = record.reads.iter().chain(&record.garnishes).enumerate();
    let raw = all.filter(|(at, read)| !read.pasteurised && !is_cooked(record, *at));
    raw.flat_map(|(_, read)| {
        let place = record.place(read.name_span);
        read.referents().map(move |referent| (place, read, referent))
    })
}

/// Heat that cooks or pasteurises; 57 °C held long is the least that does.
/// Common practice, no source: what is sold is the licensed kitchen's to judge.
const COOKS: &[Technique] = &[
    Technique::Heat,
    Technique::Simmer,
    Technique::Boil,
    Technique::Cook,
    Technique::SousVide,
    Technique::Reduce,
];
const COOKED_C: f64 = 57.0;

/// Whether an act heats the line at `at`: it names it, or names nothing and the line is in by then.
fn is_cooked(record: &Record, at: usize) -> bool {
    let acts = &record.method.acts;
    let added = acts
        .iter()
        .position(|act| act.act.technique == Some(Technique::Add) && act.mentions.contains(&at));
    acts.iter().enumerate().any(|(n, act)| {
        let cooks = act.act.technique.is_some_and(|technique| COOKS.contains(&technique))
            && act.act.celsius.is_none_or(|celsius| celsius >= COOKED_C);
        let meant = act.mentions.contains(&at)
            || act.mentions.is_empty() && added.is_none_or(|added| added < n);
        cooks && meant && !act.but.contains(&at)
    })
}
