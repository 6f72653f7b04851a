//! How long what is made keeps: by its sugar, alcohol, salt and acid together, by what is in it,
//! and by where it stands.

use washline_measure::Exact;
use washline_mixture::Composition;
use washline_reference::{Sort, Trait};
use washline_syntax::{Key, Technique, Value};
use washline_text::{Kind, Span, fold};

use crate::{Makeup, Read, Record};

mod guard;
mod life;

pub use guard::Guard;
pub use life::Life;

/// Where something stands until it is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shelf {
    /// In the freezer.
    Freezer,
    /// In the fridge.
    Fridge,
    /// At room temperature, light or dark.
    Room,
}

/// How long an entry says that it keeps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keeps {
    /// Hours.
    pub hours: f64,
    /// The words that say so.
    pub span: Span,
}

/// Heat that cooks or pasteurises.
const COOKS: &[Technique] = &[
    Technique::Heat,
    Technique::Simmer,
    Technique::Boil,
    Technique::Cook,
    Technique::SousVide,
    Technique::Reduce,
];
/// The least heat that does, held long. Common practice, no source.
const COOKED_C: f64 = 57.0;
/// Words by which an entry says that it was treated to keep.
const TREATED: &[&str] = &["pasteuri", "sorbate", "benzoate", "preservative", "hot fill", "canned"];

/// The share of water and alcohol from which a thing is poured.
const WET: f64 = 0.12;

impl Record {
    /// How long it says that it keeps.
    #[must_use]
    pub fn keeps(&self) -> Option<Keeps> {
        let field = self.field(Key::Keeps)?;
        let Value::Keeps { hours, .. } = &field.value else { return None };
        Some(Keeps { hours: Exact::to_f64(*hours), span: field.value_span })
    }

    /// Where it says that it stands: behind its time, in `store:`, or by a step.
    #[must_use]
    pub fn shelf(&self) -> Option<Shelf> {
        self.shelf_kept()
            .or_else(|| self.shelf_stored())
            .or_else(|| self.method.has(&[Technique::Refrigerate]).then_some(Shelf::Fridge))
    }

    fn shelf_kept(&self) -> Option<Shelf> {
        let Value::Keeps { places, .. } = &self.field(Key::Keeps)?.value else { return None };
        coldest(places.iter().map(|place| self.text(*place)))
    }

    fn shelf_stored(&self) -> Option<Shelf> {
        let field = self.field(Key::Store)?;
        let words = fold(self.text(field.value_span));
        coldest(words.split(|c: char| !c.is_alphanumeric()))
    }

    /// Whether all of it was heated enough to kill what lives in it.
    #[must_use]
    pub fn is_cooked(&self) -> bool {
        self.method.acts.iter().any(|act| {
            act.is(COOKS)
                && act.act.celsius.is_none_or(|celsius| celsius >= COOKED_C)
                && act.mentions.is_empty()
        })
    }

    /// Whether the line at `at` is heated enough, alone or with the rest.
    #[must_use]
    pub fn cooks(&self, at: usize) -> bool {
        self.method.acts.iter().any(|act| {
            act.is(COOKS)
                && act.act.celsius.is_none_or(|celsius| celsius >= COOKED_C)
                && (act.mentions.is_empty() || act.mentions.contains(&at))
                && !act.but.contains(&at)
        })
    }

    /// Whether it says that it was treated so that it keeps: no rule of thumb holds then.
    #[must_use]
    pub fn is_treated(&self) -> bool {
        let says = |words: &str| TREATED.iter().any(|word| words.contains(word));
        let own = self.fields(Key::Note).chain(self.fields(Key::Store));
        own.into_iter().any(|field| says(&fold(self.text(field.value_span))))
            || says(&self.key)
            || self.reads.iter().any(|read| read.pasteurised || says(&fold(&read.name)))
            || self.method.acts.iter().any(|act| says(&fold(self.text(act.span()))))
    }

    /// What holds back what would spoil it; none of drinks, or where a line was not read.
    #[must_use]
    pub fn guard(&self) -> Option<Guard> {
        if self.kind == Kind::Drink || self.unread {
            return None;
        }
        let makeup = self.makeup.as_ref()?;
        let litres = self.makes.as_ref().map_or(0.0, |makes| makes.ml.value / 1000.0);
        let plants = self.reads.iter().filter(|read| read.counted && read.is_tissue());
        let grams: f64 = plants.map(|read| read.composition.mass()).sum();
        let plants = if litres > 0.0 { grams / 1000.0 / litres } else { 0.0 };
        Some(Guard::of(makeup, plants, self.number(Key::Ph)))
    }

    /// What holds back what would spoil what is in the pot at the act `at`: the lines that no later
    /// act brings in.
    #[must_use]
    pub fn guard_at(&self, at: usize) -> Option<Guard> {
        if self.unread {
            return None;
        }
        let acts = &self.method.acts;
        let is_in = |line: usize| {
            acts.iter().position(|act| act.mentions.contains(&line)).is_none_or(|first| first <= at)
        };
        let lines = self.reads.iter().enumerate().filter(|(_, read)| read.counted);
        let mut pot = Composition::ZERO;
        let mut tissue = 0.0;
        for (_, read) in lines.filter(|(line, _)| is_in(*line)) {
            pot = pot.plus(&read.composition);
            if read.is_tissue() {
                tissue += read.composition.mass();
            }
        }
        let ml = pot.volume_ml();
        if ml <= 0.0 {
            return None;
        }
        let liquid = pot.water + pot.ethanol >= WET * pot.mass();
        let makeup = Makeup { liquid, one: pot.times(1.0 / ml), ..Makeup::default() };
        Some(Guard::of(&makeup, tissue / ml, self.number(Key::Ph)))
    }

    /// How long it keeps on `shelf`, as far as the trade's rules of thumb say; none of what is
    /// weighed, ferments, is whipped or charged, or was treated to keep.
    #[must_use]
    pub fn life(&self, shelf: Shelf) -> Option<Life> {
        let settled = self.makes.as_ref().is_some_and(|makes| makes.settled);
        if self.kind != Kind::Prep || !settled || self.is_treated() {
            return None;
        }
        Life::of(self, self.guard()?, shelf)
    }
}

impl Read {
    /// Whether it is a piece of a plant that brings little acid and holds back what acid there is.
    #[must_use]
    pub fn is_tissue(&self) -> bool {
        let solid = self.ingredient().is_some_and(|known| !known.liquid);
        solid && (self.is(Trait::LowAcidRisk) || self.sort_is(&[Sort::Vegetable, Sort::Herb]))
    }

    /// What holds back what would spoil the thing poured.
    #[must_use]
    pub fn guard(&self) -> Option<Guard> {
        let ph = self.ingredient().and_then(|known| known.ph).map(|ph| ph.value);
        self.unit_makeup.as_ref().map(|makeup| Guard::of(makeup, 0.0, ph))
    }
}

fn coldest<'a>(words: impl Iterator<Item = &'a str>) -> Option<Shelf> {
    let shelf = |word: &str| {
        let word = fold(word);
        let says = |known: &[&str]| known.contains(&word.as_str());
        if says(&["frozen", "in the freezer", "freezer"]) {
            Some(Shelf::Freezer)
        } else if says(&["chilled", "in the fridge", "fridge", "refrigerated", "cold", "cooler"]) {
            Some(Shelf::Fridge)
        } else if says(&[
            "dry",
            "ambient",
            "dark",
            "shelf",
            "on the shelf",
            "at room temperature",
            "room temperature",
            "room",
            "cupboard",
            "backbar",
        ]) {
            Some(Shelf::Room)
        } else {
            None
        }
    };
    words.filter_map(shelf).min()
}

#[cfg(test)]
mod tests;
