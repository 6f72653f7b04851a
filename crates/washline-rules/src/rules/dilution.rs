//! Water, ice, technique and glass.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
