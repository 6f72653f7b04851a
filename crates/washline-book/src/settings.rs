//! House standards: what holds for a file, read from `washline.toml`.

use std::collections::BTreeMap;

use washline_measure::{Ounce, Unit};
use washline_reference::Market;
use washline_text::{Severity, Span};

mod amount;
mod bands;
mod bar;
mod cards;
#[cfg(test)]
mod checks;
mod expect;
mod folders;
mod held;
mod house;
mod jiggers;
mod keys;
mod layout;
mod limits;
mod paths;
mod read;
mod reader;
mod severities;
mod syntax;
mod techniques;
mod temperatures;
mod units;
mod value;
mod words;

pub use cards::{Cards, DrinkPart, LineOrder, Naming};
pub use expect::{Expectation, Wanted};
pub use held::{Held, Standard};
pub use keys::{Dimension, Holds, Key, Names, key, keys};
pub use layout::{FractionStyle, Layout};
pub use read::{Known, read, read_over};

/// The house's standards. The default is a house that has said nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The markets whose law holds; empty means that the house has not said.
    pub markets: Vec<Market>,
    /// Which ounce the house means.
    pub ounce: Ounce,
    /// Whether the house said so.
    pub ounce_said: bool,
    /// The unit of the bracketed second measure.
    pub second_unit: Option<Unit>,
    /// What a bare "sugar syrup" is, as parts of sugar to one of water by weight.
    pub default_syrup: Option<f64>,
    /// The jiggers and their marks, ml; empty where the house lists none.
    pub jiggers: Vec<f64>,
    /// Pairs of millilitres and ounces that the house holds equal.
    pub pairs: Vec<(f64, f64)>,
    /// Paths that are left out.
    pub exclude: Vec<String>,
    /// The house's unit by kind: `liquid`, `solid`, `small`; empty where it has not said.
    pub units: BTreeMap<String, Unit>,
    /// What the house's bar measures hold, ml, with the 95 % range.
    pub bar: BTreeMap<Unit, (f64, f64, f64)>,
    /// How books are laid out.
    pub layout: Layout,
    /// The house's glasses: folded name to capacity at the brim, ml.
    pub glasses: BTreeMap<String, f64>,
    /// Temperatures, °C.
    pub temperatures: Temperatures,
    /// Bands of families that the house adds or changes; one that it adds is in lower
    /// case with hyphens.
    pub families: BTreeMap<String, FamilyBands>,
    /// For each family that the house adds, the known family that it is like.
    pub family_like: BTreeMap<String, String>,
    /// Dilution of techniques as the house measured it: share of the pour, low and high.
    pub techniques: BTreeMap<String, (f64, f64, f64)>,
    /// Severities by rule; `None` switches a rule off.
    pub rules: BTreeMap<String, Option<Severity>>,
    /// Limits.
    pub limits: Limits,
    /// How the house writes its cards, and what a card must say.
    pub cards: Cards,
    /// What the house expects of some of its entries.
    pub expect: Vec<Expectation>,
    /// Overrides by folder, outermost first.
    pub folders: Vec<Folder>,
    /// The file whose settings this one starts from, as written.
    pub extends: Option<String>,
    /// What the file itself says: the key with its table (`ounce`, `bar.dash`,
    /// `families.sour.acid`, `folder.menus.rules.no-jigger`) to the bytes of its value.
    pub said: BTreeMap<String, Span>,
}

/// Temperatures of the house, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Temperatures {
    /// The freezer.
    pub freezer: f64,
    /// The fridge.
    pub fridge: f64,
    /// The back bar.
    pub room: f64,
}

/// The house's bands of a family; an open end is none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FamilyBands {
    /// Strength, % vol.
    pub strength: Option<(Option<f64>, Option<f64>)>,
    /// Sugar, g/100 ml.
    pub sugar: Option<(Option<f64>, Option<f64>)>,
    /// Acid, g/100 ml.
    pub acid: Option<(Option<f64>, Option<f64>)>,
    /// Sugar over acid.
    pub ratio: Option<(Option<f64>, Option<f64>)>,
}

/// Limits of the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Most ethanol a serve, g.
    pub ethanol_g: f64,
    /// Most cost a serve, in the house's currency.
    pub cost: Option<f64>,
    /// Most of the price that the cost may be, a share.
    pub pour_cost: Option<f64>,
    /// Most ingredient lines a drink.
    pub touches: Option<u32>,
    /// What a shaking tin holds with its ice, ml of liquid.
    pub tin_ml: f64,
}

/// What holds below one folder only.
#[derive(Clone, Debug, PartialEq)]
pub struct Folder {
    /// The folder, relative to `washline.toml`, with `/`.
    pub path: String,
    /// Severities by rule that replace the house's.
    pub rules: BTreeMap<String, Option<Severity>>,
    /// The folder's markets, where they differ.
    pub markets: Option<Vec<Market>>,
}

/// Why a `washline.toml` could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SettingsError {
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub help: String,
    /// The words concerned, in bytes of the file.
    pub span: Span,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            markets: Vec::new(),
            ounce: Ounce::Us,
            ounce_said: false,
            second_unit: None,
            default_syrup: None,
            jiggers: Vec::new(),
            pairs: Vec::new(),
            exclude: Vec::new(),
            units: BTreeMap::new(),
            bar: BTreeMap::new(),
            layout: Layout::default(),
            glasses: BTreeMap::new(),
            temperatures: Temperatures { freezer: -18.0, fridge: 4.0, room: 20.0 },
            families: BTreeMap::new(),
            family_like: BTreeMap::new(),
            techniques: BTreeMap::new(),
            rules: BTreeMap::new(),
            limits: Limits {
                ethanol_g: 30.0,
                cost: None,
                pour_cost: None,
                touches: None,
                tin_ml: 350.0,
            },
            cards: Cards::default(),
            expect: Vec::new(),
            folders: Vec::new(),
            extends: None,
            said: BTreeMap::new(),
        }
    }
}

impl Settings {
    /// The markets to declare for: the house's, or all five where it has not said.
    #[must_use]
    pub fn declared_markets(&self) -> &[Market] {
        if self.markets.is_empty() { &Market::ALL } else { &self.markets }
    }

    /// Whether the house said that `market` is one of its own: rules of one market alone hold then.
    #[must_use]
    pub fn follows(&self, market: Market) -> bool {
        self.markets.contains(&market)
    }

    /// The innermost folder with markets of its own that the file `path` lies below, and those.
    #[must_use]
    pub fn folder_market(&self, path: &str) -> Option<(&str, &[Market])> {
        let mut folders = self.folders.iter().rev().filter(|folder| folder.holds(path));
        folders.find_map(|folder| Some((folder.path.as_str(), folder.markets.as_deref()?)))
    }

    /// The severity of `rule` in the file `path`: `None` where the house says nothing,
    /// `Some(None)` where it is off.
    #[must_use]
    pub fn severity(&self, rule: &str, path: &str) -> Option<Option<Severity>> {
        let folder = self
            .folders
            .iter()
            .rev()
            .filter(|folder| folder.holds(path))
            .find_map(|folder| folder.rules.get(rule));
        folder.or_else(|| self.rules.get(rule)).copied()
    }
}

impl Folder {
    /// Whether the file `path` lies below it.
    #[must_use]
    pub fn holds(&self, path: &str) -> bool {
        path.strip_prefix(&self.path).is_some_and(|rest| rest.starts_with('/'))
    }
}
