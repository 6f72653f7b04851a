//! The line can't be read, or only with a doubt.

use crate::Rule;

pub(super) const ALL: &[&Rule] = &[];
