//! What is known of one ingredient.

use washline_measure::{Estimate, Unit};

use crate::{Allergen, Market, Sort, Trait};

/// How well a value is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trust {
    /// Read in the publication that is named, or computed from it.
    Published,
    /// What the trade does; no source.
    CommonPractice,
    /// From memory, unchecked.
    Memory,
}

/// Where values come from.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// Its short name in the data files.
    pub id: &'static str,
    /// The citation, or the words "common practice, no source".
    pub text: &'static str,
    /// Published, common practice or memory.
    pub trust: Trust,
}

/// A value with its 95 % range and its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Datum {
    /// The value.
    pub value: f64,
    /// The low end of the 95 % range.
    pub low: f64,
    /// The high end of the 95 % range.
    pub high: f64,
    /// Where it comes from.
    pub source: &'static Source,
}

impl Datum {
    /// The value with its standard uncertainty, a quarter of the range.
    #[must_use]
    pub fn estimate(&self) -> Estimate {
        Estimate::of_range(self.value, self.low, self.high)
    }
}

/// An allergen that an ingredient carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Carries {
    /// The allergen.
    pub allergen: Allergen,
    /// Which kind of it: `almond`, `wheat`; empty where there is only one.
    pub detail: &'static str,
    /// Markets whose law exempts it in this ingredient.
    pub exempt: &'static [Market],
    /// Always there; false where only some makers' bottles have it.
    pub certain: bool,
}

/// How large one of something is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// The unit; none for one whole thing.
    pub unit: Option<Unit>,
    /// Its size, in grams or millilitres.
    pub amount: Datum,
    /// Whether the size is grams; else millilitres.
    pub grams: bool,
}

/// Where a thing keeps, and how long once opened or made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keeping {
    /// Hours.
    pub hours: Datum,
    /// Whether it must be chilled.
    pub chilled: bool,
}

/// A legal minimum of a category in a market.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Minimum {
    /// Where the law holds.
    pub market: Market,
    /// Least strength, % vol.
    pub abv: Option<f64>,
    /// Least sugar, g/l as invert sugar.
    pub sugar_g_per_l: Option<f64>,
    /// The article.
    pub source: &'static Source,
}

/// What the law of a market says of a plant, or a part of it, in food.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Restriction {
    /// Where the law holds.
    pub market: Market,
    /// Whether it may not be used at all; else it is limited.
    pub forbidden: bool,
    /// What the law says, in a clause.
    pub says: &'static str,
    /// The article.
    pub source: &'static Source,
}

/// One ingredient. Concentrations are per 100 ml of a liquid and per 100 g of a solid.
/// A concentration that is not stated is none that the figures would notice.
#[derive(Debug, PartialEq)]
pub struct Ingredient {
    /// Its place in the list.
    pub id: u16,
    /// Its generic name.
    pub name: &'static str,
    /// Other ways it is written.
    pub aliases: &'static [&'static str],
    /// What sort of thing it is.
    pub sort: Sort,
    /// Whether it is poured; else weighed or counted.
    pub liquid: bool,
    /// Strength, % vol.
    pub abv: Option<Datum>,
    /// Sugar as sucrose, g.
    pub sugar: Option<Datum>,
    /// Titratable acid as citric, g.
    pub acid: Option<Datum>,
    /// Fat, g.
    pub fat: Option<Datum>,
    /// Protein, g.
    pub protein: Option<Datum>,
    /// Salt, g.
    pub salt: Option<Datum>,
    /// Other dissolved or suspended solids, g.
    pub solids: Option<Datum>,
    /// Water, g; only of solids (of liquids it closes the volume).
    pub water: Option<Datum>,
    /// Density at 20 °C, g/ml. Of a powder, its bulk density.
    pub density: Option<Datum>,
    /// pH.
    pub ph: Option<Datum>,
    /// Total sulphur dioxide, mg/l or mg/kg.
    pub sulphites: Option<Datum>,
    /// Quinine, mg/l; of bark, mg/g.
    pub quinine: Option<Datum>,
    /// Caffeine, mg per 100 ml or 100 g.
    pub caffeine: Option<Datum>,
    /// Carbon dioxide, g/l.
    pub carbon_dioxide: Option<Datum>,
    /// Liquor that its strained solids hold, g per g.
    pub holds: Option<Datum>,
    /// Juice of one fruit, ml.
    pub juice: Option<Datum>,
    /// The ingredient that its juice is.
    pub juice_of: &'static str,
    /// Allergens it carries, in any market.
    pub carries: &'static [Carries],
    /// Whether what is not listed is known to be absent: plain juice, fruit, sugar, water, distillate.
    pub vouches: bool,
    /// Sizes of units and of one whole.
    pub sizes: &'static [Size],
    /// How long it keeps.
    pub keeps: Option<Keeping>,
    /// Properties.
    pub traits: &'static [Trait],
    /// Cautions in full sentences.
    pub cautions: &'static [&'static str],
    /// The botanical name, where plants matter.
    pub botanical: &'static str,
    /// Legal minima of its category.
    pub minima: &'static [Minimum],
    /// What the law of a market says of it in food.
    pub restrictions: &'static [Restriction],
    /// The most of it that a serve should hold, g.
    pub dose: Option<Datum>,
}

impl Ingredient {
    /// Whether it has the property.
    #[must_use]
    pub fn is(&self, property: Trait) -> bool {
        self.traits.contains(&property)
    }

    /// How large one `unit` of it is.
    #[must_use]
    pub fn size(&self, unit: Option<Unit>) -> Option<&'static Size> {
        self.sizes.iter().find(|size| size.unit == unit)
    }
}
