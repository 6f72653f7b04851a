//! What a drink must declare.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
