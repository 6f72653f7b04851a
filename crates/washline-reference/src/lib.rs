//! What a bar stocks and what the law says of it, each value with its source.

mod allergen;
mod ingredient;

pub use allergen::{Allergen, Market};
pub use ingredient::{
    Carries, Datum, Ingredient, Keeping, Minimum, Size, Sort, Source, Trait, Trust,
};
