//! Looking a folded name up in a sorted table.

/// The place that `folded` has in `names`, which are sorted by spelling.
pub(crate) fn place(names: &[(&str, u16)], folded: &str) -> Option<u16> {
    let at = names.binary_search_by(|(name, _)| (*name).cmp(folded)).ok()?;
    names.get(at).map(|(_, place)| *place)
}

/// The entry of `table` that `folded` names.
pub(crate) fn entry<'a, T>(table: &'a [T], names: &[(&str, u16)], folded: &str) -> Option<&'a T> {
    table.get(usize::from(place(names, folded)?))
}
