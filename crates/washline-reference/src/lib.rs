//! What a bar stocks and what the law says of it, each value with its source.
//!
//! The data files below `data/` are read, checked and compiled in when the crate
//! is built; nothing is read or parsed when the program runs. Names are looked up
//! folded, as `washline_text::fold` folds them.

mod allergen;
mod catalogue;
mod compiled;
pub mod constants;
mod dilution;
mod energy;
mod family;
mod glass;
mod ice;
mod ingredient;
mod law;
mod measures;
mod named;
pub mod nearest;
pub mod plural;
mod property;
mod sort;
mod sources;
mod technique;
mod vocabulary;

pub use allergen::{Allergen, Market};
pub use catalogue::{exactly, ingredient, ingredients, lookup, names, nearest};
pub use dilution::Dilution;
pub use energy::{Energy, energies, energy};
pub use family::{Band, Family, families, family};
pub use glass::{Glass, glass, glass_names, glasses};
pub use ice::{Ice, ice, ice_names, ices};
pub use ingredient::{
    Carries, Datum, Ingredient, Keeping, Minimum, Restriction, Size, Source, Trust,
};
pub use law::{AlcoholFree, Declared, SulphiteThreshold, allergen_from_word, allergen_words};
pub use measures::{amount_word, bar_measure};
pub use property::Trait;
pub use sort::Sort;
pub use sources::{sources, trust_shares};
pub use technique::{Technique, technique, techniques};
