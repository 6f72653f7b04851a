//! A name with its amount behind it: `lime juice 30 ml`, `gin: 60ml`, `lime juice – 1 oz`.

use washline_text::Edit;

use crate::amount::sum;
use crate::reader::Reader;
use crate::slice::is_dash;

/// The mend that turns the line round, where the amount at its end has a unit.
pub(super) fn mend(reader: &Reader<'_>, content: &str) -> Option<(String, Vec<Edit>)> {
    let text = turned(content)?;
    Some((format!("write `{text}`"), vec![reader.replace(content, text)]))
}

/// The line with its amount first; none where it does not end with one that has a unit.
pub(super) fn turned(content: &str) -> Option<String> {
    let (name, amount) = split(content)?;
    Some(spaced(&format!("{amount} {name}")))
}

/// With one blank between words: what stood in columns has tabs.
pub(super) fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn split(content: &str) -> Option<(&str, &str)> {
    let start = content.find(|c: char| c.is_ascii_digit())?;
    let (name, amount) = content.split_at_checked(start)?;
    if !name.ends_with(|c: char| c.is_whitespace() || matches!(c, ',' | ':' | '(')) {
        return None;
    }
    let amount = amount.trim_end_matches(')');
    let (rest, sum) = sum(amount).ok()?;
    let measured = rest.is_empty() && sum.terms().all(|term| term.measure.unit.is_some());
    let name = name.trim_end_matches(|c: char| {
        c.is_whitespace() || is_dash(c) || matches!(c, ',' | ':' | '(' | '.')
    });
    // `gin x 2 oz`: the sign stands between the two.
    let name =
        name.strip_suffix(['x', '\u{d7}']).filter(|n| n.ends_with(' ')).unwrap_or(name).trim_end();
    (measured && !name.is_empty()).then_some((name, amount))
}
