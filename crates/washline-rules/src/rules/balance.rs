//! Sugar, acid and strength of the finished drink.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
