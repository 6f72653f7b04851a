//! What would change, as a unified diff.

use similar::TextDiff;

/// The lines of `old` and `new` that differ, with two lines around them; empty where none do.
pub(crate) fn diff(name: &str, old: &str, new: &str) -> String {
    let diff = TextDiff::from_lines(old, new);
    diff.unified_diff().context_radius(2).header(name, name).to_string()
}
