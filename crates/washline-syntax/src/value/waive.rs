//! `waive: too-sweet because the guest asked`.

use crate::Value;
use crate::ingredient::parts;
use crate::reader::Reader;
use crate::slice::{gap, phrase, skip};

/// The rules by commas, then `because` and the reason.
pub(super) fn read<'t>(reader: &Reader<'t>, text: &'t str) -> Value {
    let (rules, reason) = split(text);
    let rules = parts(rules).filter(|rule| !rule.is_empty()).map(|rule| reader.span(rule));
    let reason = reason.filter(|reason| !reason.is_empty()).map(|reason| reader.span(reason));
    Value::Waive { rules: rules.collect(), reason }
}

/// What stands before and behind the first `because`.
fn split(text: &str) -> (&str, Option<&str>) {
    for (at, _) in text.char_indices().filter(|(_, c)| matches!(c, 'b' | 'B')) {
        let starts = at == 0 || text.get(..at).is_some_and(|t| t.ends_with([' ', '\t', ',']));
        if let Some(reason) = phrase(skip(text, at), "because").filter(|_| starts) {
            let rules = text.get(..at).unwrap_or("").trim_end_matches([' ', '\t', ',']);
            return (rules, Some(gap(reason.strip_prefix(':').unwrap_or(reason))));
        }
    }
    (text, None)
}
