//! House preparations: how long, how much, how strong.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
