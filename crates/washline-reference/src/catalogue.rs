//! The ingredients, by place and by name.

use crate::compiled::{INGREDIENT_NAMES, INGREDIENTS};
use crate::nearest::closest;
use crate::{Ingredient, named, plural};

/// Every ingredient, in the order of their folded names; an ingredient's `id` is its place.
#[must_use]
pub fn ingredients() -> &'static [Ingredient] {
    &INGREDIENTS
}

/// The ingredient with this `id`.
#[must_use]
pub fn ingredient(id: u16) -> Option<&'static Ingredient> {
    INGREDIENTS.get(usize::from(id))
}

/// The ingredient that `folded` names: a name or alias as it stands, else with
/// its plural turned.
#[must_use]
pub fn lookup(folded: &str) -> Option<&'static Ingredient> {
    exactly(folded).or_else(|| plural::turned(folded).find_map(|name| exactly(&name)))
}

/// The ingredient whose name or alias is `folded`, letter for letter.
#[must_use]
pub fn exactly(folded: &str) -> Option<&'static Ingredient> {
    named::entry(&INGREDIENTS, &INGREDIENT_NAMES, folded)
}

/// Every spelling, folded, with the `id` of its ingredient, in the order of the spellings.
pub fn names() -> impl Iterator<Item = (&'static str, u16)> {
    INGREDIENT_NAMES.iter().copied()
}

/// The `limit` ingredients whose names are nearest to `folded`, nearest first.
#[must_use]
pub fn nearest(folded: &str, limit: usize) -> Vec<&'static Ingredient> {
    let mut near: Vec<&Ingredient> = Vec::new();
    for (_, id) in closest(folded, names(), usize::MAX) {
        let Some(found) = ingredient(id).filter(|found| !near.contains(found)) else { continue };
        near.push(found);
        if near.len() == limit {
            break;
        }
    }
    near
}
