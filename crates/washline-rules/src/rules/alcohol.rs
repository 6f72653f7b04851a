//! Strength, and the law of it.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
