//! One ingredient line as understood: what it means and how much of it there is.

use std::sync::Arc;

use washline_measure::{Estimate, Unit};
use washline_mixture::Composition;
use washline_reference::{Ingredient, Sort, Trait, ingredient};
use washline_syntax::{Property, Role};
use washline_text::Span;

use crate::{Input, Makeup, Referent, Resolution};

mod amount;
mod meaning;
mod reader;
mod size;
mod tail;

pub(crate) use amount::Portions;
pub use amount::syrup_brix;
pub(crate) use reader::{Reader, Source};
pub(crate) use tail::unknown_side;

/// How warm a line is poured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Temperature {
    /// Hot.
    Hot,
    /// From the fridge.
    Chilled,
    /// From the freezer.
    Frozen,
}

/// An ingredient line, or a garnish, as understood.
#[derive(Clone, Debug, Default)]
pub struct Read {
    /// The entry's line that it stands on.
    pub line: u32,
    /// The words of the line, relative to the entry.
    pub span: Span,
    /// The name as written, states and count nouns left out where they are none of it.
    pub name: String,
    /// Where the name stands.
    pub name_span: Span,
    /// What is said of it, as written: properties and prose.
    pub qualifiers: Vec<Span>,
    /// Those of them that are ingredients with amounts of their own: they are not read.
    pub beside: Vec<Span>,
    /// The properties that it states.
    pub properties: Vec<(Span, Property)>,
    /// The number as exact text, or the amount word.
    pub amount: String,
    /// The bracketed second measure as text.
    pub second: Option<String>,
    /// What the bracketed measure comes to by itself: millilitres of a liquid, grams of a solid.
    pub second_size: Option<Estimate>,
    /// The unit.
    pub unit: Option<Unit>,
    /// What the line is for.
    pub role: Role,
    /// What it means.
    pub resolution: Resolution,
    /// The other sides of a choice: the name as written and what it means.
    pub or: Vec<(String, Vec<Referent>)>,
    /// How warm it is poured.
    pub temperature: Option<Temperature>,
    /// Its volume, ml.
    pub ml: Option<Estimate>,
    /// Its mass, g.
    pub g: Option<Estimate>,
    /// The grams of its parts.
    pub composition: Composition,
    /// How they change when an input grows by one standard uncertainty.
    pub shifts: Vec<(Input, Composition)>,
    /// Sulphur dioxide, mg.
    pub sulphites: f64,
    /// Quinine, mg.
    pub quinine: f64,
    /// Caffeine, mg.
    pub caffeine: f64,
    /// Whether it enters the figures.
    pub counted: bool,
    /// Whether it is still water or ice: dilution, not an ingredient.
    pub water: bool,
    /// Whether nobody can say how much it is.
    pub vague: bool,
    /// What the amount lacks, if anything.
    pub lacks: Option<Lack>,
    /// `optional`.
    pub optional: bool,
    /// `clarified`.
    pub clarified: bool,
    /// `pasteurised`.
    pub pasteurised: bool,
    /// What one unit of it is made of, with what the line itself states.
    pub unit_makeup: Option<Arc<Makeup>>,
    /// The reference ingredient behind it: its own, its stock's kind.
    pub ingredient: Option<u16>,
}

/// What an amount lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lack {
    /// A liquid, or anything that is never counted, has a bare number.
    Unit,
    /// A bare fraction of a liquid: a proportion.
    Proportion,
    /// A mass of something known only by volume, or the reverse.
    Density,
    /// Nobody knows what one weighs.
    Size,
}

/// What holds more acid than this, g in a millilitre or gram, sours: lemon and lime hold 0.06,
/// passion fruit and grapefruit 0.03 at most. Common practice, no source.
const SHARP: f64 = 0.032;
/// Less sugar than this a drink, g, is none that anyone would have poured for its sweetness:
/// what dashes of bitters bring. Common practice, no source.
pub(crate) const NO_SUGAR_G: f64 = 0.5;

impl Read {
    /// Whether the name leads anywhere.
    #[must_use]
    pub fn known(&self) -> bool {
        !self.resolution.hits.is_empty()
    }

    /// What it means first.
    #[must_use]
    pub fn referent(&self) -> Option<Referent> {
        self.resolution.hits.first().copied()
    }

    /// All it may mean, the other sides of a choice with it.
    pub fn referents(&self) -> impl Iterator<Item = Referent> {
        let others = self.or.iter().flat_map(|(_, hits)| hits);
        self.resolution.hits.iter().chain(others).copied()
    }

    /// The reference ingredient behind it.
    #[must_use]
    pub fn ingredient(&self) -> Option<&'static Ingredient> {
        self.ingredient.and_then(ingredient)
    }

    /// Whether the reference ingredient behind it has the property.
    #[must_use]
    pub fn is(&self, property: Trait) -> bool {
        self.ingredient().is_some_and(|ingredient| ingredient.is(property))
    }

    /// Whether it sours: lemon, lime and their like, whole or as juice, house blends of them,
    /// dry and dissolved acids. The sugar of such a thing sweetens nothing.
    #[must_use]
    pub fn sours(&self) -> bool {
        self.unit_makeup.as_ref().is_some_and(|makeup| {
            let one = &makeup.one;
            one.acid > SHARP && one.sugar < one.acid && one.ethanol < one.acid
        })
    }

    /// Whether the reference ingredient behind it is of one of `sorts`.
    #[must_use]
    pub fn sort_is(&self, sorts: &[Sort]) -> bool {
        self.ingredient().is_some_and(|ingredient| sorts.contains(&ingredient.sort))
    }

    /// What the line comes to, in the unit of [`Read::second_size`].
    #[must_use]
    pub fn first_size(&self) -> Option<Estimate> {
        let liquid = self.unit_makeup.as_ref().is_none_or(|makeup| makeup.liquid);
        if liquid { self.ml } else { self.g }
    }

    /// Its volume in ml; 0 where it is not known.
    #[must_use]
    pub fn volume(&self) -> f64 {
        self.ml.map_or_else(|| self.composition.volume_ml(), |ml| ml.value)
    }
}
