//! Where the values come from, and how well they are known.

use crate::compiled::{SOURCES, TRUSTED};
use crate::{Source, Trust};

/// Every source.
#[must_use]
pub fn sources() -> &'static [Source] {
    &SOURCES
}

/// The share (0 to 1) of the ingredients' values that is published, common
/// practice, and memory.
#[must_use]
pub fn trust_shares() -> [(Trust, f64); 3] {
    let [published, practice, memory] = TRUSTED;
    let all = (published + practice + memory) as f64;
    let share = |count: usize| count as f64 / all;
    [
        (Trust::Published, share(published)),
        (Trust::CommonPractice, share(practice)),
        (Trust::Memory, share(memory)),
    ]
}
