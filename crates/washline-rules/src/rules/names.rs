//! A name leads nowhere, to two things, or to itself.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
