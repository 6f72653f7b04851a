//! What can hurt a guest, or whoever makes the drink.

use washline_book::{Read, Record, Referent, Shelf};
use washline_reference::{Ingredient, Trait, ingredient};
use washline_syntax::Technique;
use washline_text::{Kind, fold};

use crate::{Context, Rule};

pub(crate) mod acid_in_copper;
pub(crate) mod charcoal;
pub(crate) mod cryogen;
pub(crate) mod heavy_dose;
pub(crate) mod left_out;
pub(crate) mod low_acid_infusion;
pub(crate) mod must_be_cooked;
pub(crate) mod quinine_limit;
pub(crate) mod raw_egg_kept;
pub(crate) mod restricted_botanical;
pub(crate) mod sealed_low_acid;
pub(crate) mod smoke_or_flame;
pub(crate) mod sous_vide_limits;
pub(crate) mod toxic_garnish;
pub(crate) mod unknown_flower;

pub(super) const ALL: &[&Rule] = &[
    &restricted_botanical::RULE,
    &toxic_garnish::RULE,
    &quinine_limit::RULE,
    &cryogen::RULE,
    &charcoal::RULE,
    &low_acid_infusion::RULE,
    &smoke_or_flame::RULE,
    &must_be_cooked::RULE,
    &heavy_dose::RULE,
    &raw_egg_kept::RULE,
    &sealed_low_acid::RULE,
    &left_out::RULE,
    &sous_vide_limits::RULE,
    &acid_in_copper::RULE,
    &unknown_flower::RULE,
];

/// What every finding of the group ends with.
const CODES: &str = "local codes and licensed practice decide";

/// The lines and garnishes of an entry, each with its place among them, that are or may be
/// something with `property`; of a bought bottle what its label answers for is left out.
fn with<'a>(
    context: &Context<'a>,
    property: Trait,
) -> impl Iterator<Item = (usize, &'a Read, &'static Ingredient)> {
    let context = *context;
    let record = context.record;
    let has = record
        .reaches
        .iter()
        .any(|(id, _)| ingredient(*id).is_some_and(|known| known.is(property)));
    let all = record.reads.iter().chain(&record.garnishes).enumerate();
    all.filter(move |_| has && record.kind != Kind::Stock).filter_map(move |(at, read)| {
        let found = read.referents().find_map(|referent| itself(&context, referent, property))?;
        Some((at, read, found))
    })
}

/// The thing that a name means, if it is itself something with `property`.
fn itself(
    context: &Context<'_>,
    referent: Referent,
    property: Trait,
) -> Option<&'static Ingredient> {
    let id = match referent {
        Referent::Reference(id) => id,
        Referent::Entry(id) => {
            let stock = context.workspace.record(id).filter(|r| r.kind == Kind::Stock)?;
            if is_bottled(stock) {
                return None;
            }
            stock.reaches.first()?.0
        }
    };
    ingredient(id).filter(|known| known.is(property))
}

/// A bought product that its maker answers for, not the plant itself: it states a strength.
fn is_bottled(stock: &Record) -> bool {
    stock.number(washline_syntax::Key::Abv).is_some_and(|abv| abv > 0.0)
}

/// The thing with its botanical name: `tonka bean (Dipteryx odorata)`.
fn named(read: &Read, known: &Ingredient) -> String {
    if known.botanical.is_empty() {
        return read.name.clone();
    }
    format!("{} ({})", read.name, known.botanical)
}

/// The first of its cautions, as the end of a sentence.
fn caution(known: &Ingredient) -> &'static str {
    known.cautions.first().copied().unwrap_or("").trim_end_matches('.')
}

/// Whether a note, the menu or a store field of the entry says one of `words`.
fn notes(record: &Record, words: &[&str]) -> bool {
    use washline_syntax::Key;
    [Key::Note, Key::Menu, Key::Store].iter().any(|key| {
        record.fields(*key).any(|field| {
            let said = fold(record.text(field.value_span));
            words.iter().any(|word| said.contains(word))
        })
    })
}

/// Acts that shut the air out.
const SHUTS: &[Technique] = &[Technique::Keg, Technique::Seal, Technique::Charge];

/// A shelf as people say it.
const fn on(shelf: Option<Shelf>) -> &'static str {
    match shelf {
        Some(Shelf::Freezer) => "in the freezer",
        Some(Shelf::Fridge) => "in the fridge",
        Some(Shelf::Room) => "at room temperature",
        None => "with no place said",
    }
}
