//! The list of rules, by group. Written by hand; a test holds it against the files.

use crate::Rule;

pub(crate) mod alcohol;
pub(crate) mod allergens;
pub(crate) mod balance;
pub(crate) mod book;
pub(crate) mod dilution;
pub(crate) mod house;
pub(crate) mod measures;
pub(crate) mod method;
pub(crate) mod names;
pub(crate) mod notation;
pub(crate) mod preps;
pub(crate) mod safety;
pub(crate) mod waivers;

/// The groups, in the order of the rules' page.
const GROUPS: &[&[&Rule]] = &[
    notation::ALL,
    names::ALL,
    measures::ALL,
    balance::ALL,
    dilution::ALL,
    method::ALL,
    allergens::ALL,
    alcohol::ALL,
    safety::ALL,
    preps::ALL,
    house::ALL,
    book::ALL,
    waivers::ALL,
];

/// Every rule, group by group.
pub fn all() -> impl Iterator<Item = &'static Rule> {
    GROUPS.iter().flat_map(|group| group.iter().copied())
}

/// The rule called `name`.
#[must_use]
pub fn find(name: &str) -> Option<&'static Rule> {
    all().find(|rule| rule.name == name)
}

#[cfg(test)]
mod tests;
