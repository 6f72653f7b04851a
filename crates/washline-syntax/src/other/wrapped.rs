//! A line whose amount stands in a bracket or a sheet's columns: `(2 oz) gin`, `| 60 ml | gin |`.

use washline_text::Edit;

use super::backwards;
use crate::amount::sum;
use crate::reader::Reader;
use crate::slice::gap;

/// The mend that writes the line without what stands around its amount, where the amount has a
/// unit and a name is left.
pub(super) fn mend(reader: &Reader<'_>, content: &str) -> Option<(String, Vec<Edit>)> {
    let text = backwards::spaced(&bare(content)?);
    let text = if is_line(&text) { text } else { backwards::turned(&text)? };
    Some((format!("write `{text}`"), vec![reader.replace(content, text)]))
}

/// The line without its first pair of brackets, or without the bars between its columns.
fn bare(content: &str) -> Option<String> {
    if content.starts_with('|') {
        return Some(content.replace('|', " "));
    }
    let inside = content.strip_prefix(['(', '['])?;
    Some(inside.replacen([')', ']'], " ", 1))
}

fn is_line(text: &str) -> bool {
    sum(text).is_ok_and(|(rest, sum)| {
        let measured = sum.terms().all(|term| term.measure.unit.is_some());
        measured && gap(rest).starts_with(|c: char| c.is_alphabetic() || c == '(')
    })
}
