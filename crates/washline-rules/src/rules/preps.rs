//! House preparations: how long, how much, how strong.

use crate::Rule;

pub(crate) mod strength_of_syrup;
pub(crate) mod yield_disagrees;

pub(super) const ALL: &[&Rule] = &[&yield_disagrees::RULE, &strength_of_syrup::RULE];
