//! Amounts and units.

use crate::Rule;

pub(crate) mod measures_disagree;

pub(super) const ALL: &[&Rule] = &[&measures_disagree::RULE];
