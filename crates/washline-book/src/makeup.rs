//! What one millilitre or one gram of something is made of, and how well that is known.

use std::sync::{Arc, LazyLock, OnceLock};

use washline_measure::Unit;
use washline_mixture::{Composition, Stated, per_100_ml};
use washline_reference as reference;
use washline_reference::{Datum, Ingredient};

/// One thing that is not known exactly. What is poured twice, or through a prep,
/// has one input, so that its effects add before they are squared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Input {
    /// A property of a reference ingredient: its id and which.
    Property(u16, Part),
    /// A property that an entry states: the entry and which.
    Stated(u32, Part),
    /// What a bar measure holds.
    Measure(Unit),
    /// What one of a reference ingredient weighs: its id and the unit.
    Size(u16, Option<Unit>),
    /// How exactly a line is measured: the entry and the line.
    Line(u32, u32),
    /// What a choice of names leaves open: the entry and the line.
    Choice(u32, u32),
    /// What a prep loses: the entry, and in which way.
    Loss(u32, crate::prep::Loss),
}

/// A property that can be uncertain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// Strength.
    Abv,
    /// Sugar.
    Sugar,
    /// Acid.
    Acid,
    /// Fat.
    Fat,
    /// Salt.
    Salt,
    /// Density.
    Density,
}

/// The composition of a unit of something, with its uncertain inputs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Makeup {
    /// Whether the unit is a millilitre; else a gram.
    pub liquid: bool,
    /// The grams in one unit.
    pub one: Composition,
    /// How `one` changes when an input grows by one standard uncertainty.
    pub shifts: Vec<(Input, Composition)>,
    /// Sulphur dioxide, mg in one unit.
    pub sulphites: f64,
    /// Quinine, mg in one unit.
    pub quinine: f64,
    /// Caffeine, mg in one unit.
    pub caffeine: f64,
    /// Carbon dioxide, mg in one unit.
    pub carbon_dioxide: f64,
}

/// What an entry or a line states in place of the reference's values.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Overrides {
    /// Strength, % vol.
    pub abv: Option<f64>,
    /// Sugar, g/100 ml.
    pub sugar: Option<f64>,
    /// Dissolved sugar, % of mass.
    pub brix: Option<f64>,
    /// Acid, g/100 ml.
    pub acid: Option<f64>,
    /// Fat, % of mass.
    pub fat: Option<f64>,
    /// Salt, % of mass.
    pub salt: Option<f64>,
    /// Density, g/ml.
    pub density: Option<f64>,
}

impl Overrides {
    /// Whether nothing is stated.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// These, and `other`'s where these state nothing.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self {
            abv: self.abv.or(other.abv),
            sugar: self.sugar.or(other.sugar.filter(|_| self.brix.is_none())),
            brix: self.brix.or(other.brix.filter(|_| self.sugar.is_none())),
            acid: self.acid.or(other.acid),
            fat: self.fat.or(other.fat),
            salt: self.salt.or(other.salt),
            density: self.density.or(other.density),
        }
    }
}

/// Twice the standard uncertainty of a stated strength: the tolerance of a label,
/// 0.3 % vol (Regulation (EU) 1169/2011, Annex XII; number from memory).
const LABEL_ABV: f64 = 0.15;

impl Makeup {
    /// What the reference knows of `ingredient`.
    #[must_use]
    pub fn of(ingredient: &Ingredient) -> Self {
        Self::with(ingredient, &Overrides::default(), u32::MAX)
    }

    /// The same of the ingredient `id`, worked out once.
    pub(crate) fn of_reference(id: u16) -> Arc<Self> {
        static KNOWN: LazyLock<Vec<OnceLock<Arc<Makeup>>>> =
            LazyLock::new(|| reference::ingredients().iter().map(|_| OnceLock::new()).collect());
        let work_out = || Arc::new(reference::ingredient(id).map_or_else(Self::default, Self::of));
        KNOWN
            .get(usize::from(id))
            .map_or_else(work_out, |known| known.get_or_init(work_out).clone())
    }

    /// The same with what `entry` states in place of the reference's values.
    #[must_use]
    pub fn with(ingredient: &Ingredient, stated: &Overrides, entry: u32) -> Self {
        let table = Table::of(ingredient, stated, entry);
        let one = table.one(None);
        let mut shifts = Vec::new();
        for (part, input, u) in &table.doubts {
            let moved = table.one(Some((*part, *u)));
            shifts.push((*input, moved.minus(&one)));
        }
        let of = |datum: Option<Datum>, by: f64| datum.map_or(0.0, |d| d.value) / by;
        Self {
            liquid: ingredient.liquid,
            one,
            shifts,
            sulphites: of(ingredient.sulphites, 1000.0),
            quinine: of(ingredient.quinine, if ingredient.liquid { 1000.0 } else { 1.0 }),
            caffeine: of(ingredient.caffeine, 100.0),
            carbon_dioxide: of(ingredient.carbon_dioxide, 1.0),
        }
    }

    /// The makeup of a liquid that only its entry describes; `None` where strength
    /// and sugar are not both said.
    #[must_use]
    pub fn stated(stated: &Overrides) -> Option<Self> {
        let abv = stated.abv?;
        if stated.sugar.is_none() && stated.brix.is_none() {
            return None;
        }
        let table = Table {
            liquid: true,
            abv,
            acid: stated.acid.unwrap_or(0.0),
            fat: stated.fat.unwrap_or(0.0),
            salt: stated.salt.unwrap_or(0.0),
            sugar: stated.sugar.unwrap_or(0.0),
            brix: stated.brix,
            density: stated.density,
            ..Table::default()
        };
        Some(Self { liquid: true, one: table.one(None), ..Self::default() })
    }

    /// What `amount` units of it hold.
    #[must_use]
    pub fn times(&self, amount: f64) -> Composition {
        self.one.times(amount)
    }

    /// Grams in one unit.
    #[must_use]
    pub fn grams_a_unit(&self) -> f64 {
        self.one.mass()
    }
}

/// The stated values of 100 ml or 100 g, before the volume is closed.
#[derive(Clone, Debug, Default)]
struct Table {
    liquid: bool,
    abv: f64,
    sugar: f64,
    brix: Option<f64>,
    acid: f64,
    fat: f64,
    protein: f64,
    salt: f64,
    solids: f64,
    water: Option<f64>,
    density: Option<f64>,
    doubts: Vec<(Part, Input, f64)>,
}

impl Table {
    fn of(ingredient: &Ingredient, stated: &Overrides, entry: u32) -> Self {
        let mut table = Self { liquid: ingredient.liquid, ..Self::default() };
        let mut doubts = Vec::new();
        let mut take = |said: Option<f64>, known: Option<Datum>, part: Part| {
            if let Some(value) = said {
                if part == Part::Abv && value > 0.0 {
                    doubts.push((part, Input::Stated(entry, part), LABEL_ABV));
                }
                return value;
            }
            let Some(datum) = known else { return 0.0 };
            let estimate = datum.estimate();
            if estimate.u > 0.0 {
                doubts.push((part, Input::Property(ingredient.id, part), estimate.u));
            }
            estimate.value
        };
        table.abv = take(stated.abv, ingredient.abv, Part::Abv);
        if stated.brix.is_none() {
            table.sugar = take(stated.sugar, ingredient.sugar, Part::Sugar);
        }
        table.brix = stated.brix;
        table.acid = take(stated.acid, ingredient.acid, Part::Acid);
        table.fat = take(stated.fat, ingredient.fat, Part::Fat);
        table.salt = take(stated.salt, ingredient.salt, Part::Salt);
        table.protein = ingredient.protein.map_or(0.0, |d| d.value);
        table.solids = ingredient.solids.map_or(0.0, |d| d.value);
        table.water = ingredient.water.map(|d| d.value);
        let changed = stated.abv.is_some() || stated.sugar.is_some() || stated.brix.is_some();
        table.density = stated.density.or_else(|| {
            let keeps = ingredient.liquid && !changed;
            ingredient.density.filter(|_| keeps).map(|d| d.value)
        });
        table.doubts = doubts;
        table
    }

    /// Grams in one unit, with one value moved.
    fn one(&self, moved: Option<(Part, f64)>) -> Composition {
        let by = |part: Part| moved.filter(|(p, _)| *p == part).map_or(0.0, |(_, u)| u);
        let abv = (self.abv + by(Part::Abv)).clamp(0.0, 100.0);
        let sugar = (self.sugar + by(Part::Sugar)).max(0.0);
        let acid = (self.acid + by(Part::Acid)).max(0.0);
        let fat = (self.fat + by(Part::Fat)).max(0.0);
        let salt = (self.salt + by(Part::Salt)).max(0.0);
        if !self.liquid {
            return self.solid(sugar, acid, fat, salt);
        }
        // A density holds for the value as it stands; a moved value closes by volume.
        let density = if moved.is_some() { None } else { self.density };
        let stated = |sugar: f64| Stated {
            abv,
            sugar,
            acid,
            fat,
            protein: self.protein,
            salt,
            other: self.solids,
            density,
        };
        let Some(brix) = self.brix else {
            let closed = per_100_ml(&stated(sugar));
            if moved.is_some() && self.density.is_some() {
                // Compare like with like: the shift is taken between two closed volumes.
                let base = per_100_ml(&Stated { density: None, ..self.plain() });
                let kept = per_100_ml(&self.plain());
                return kept.plus(&closed.minus(&base)).times(0.01);
            }
            return closed.times(0.01);
        };
        // Brix is by mass: find the sugar per 100 ml that makes it so.
        let mut sugar = brix;
        for _ in 0..12 {
            let mass = per_100_ml(&stated(sugar)).mass();
            let next = brix / 100.0 * mass;
            if (next - sugar).abs() < 1e-9 {
                break;
            }
            sugar = next;
        }
        per_100_ml(&stated(sugar)).times(0.01)
    }

    fn plain(&self) -> Stated {
        Stated {
            abv: self.abv,
            sugar: self.sugar,
            acid: self.acid,
            fat: self.fat,
            protein: self.protein,
            salt: self.salt,
            other: self.solids,
            density: self.density,
        }
    }

    fn solid(&self, sugar: f64, acid: f64, fat: f64, salt: f64) -> Composition {
        let held = sugar + acid + fat + salt + self.protein;
        let water = self.water.unwrap_or(0.0);
        let other = (100.0 - held - water).max(self.solids.min(100.0)).max(0.0);
        Composition {
            water,
            ethanol: 0.0,
            sugar,
            acid,
            fat,
            protein: self.protein,
            salt,
            other: if held + water >= 100.0 { 0.0 } else { other },
        }
        .times(0.01)
    }
}
