//! Fields before and after.

use crate::FieldChange;
use crate::meaning::Said;

/// The fields that differ, in the order of the later state, those that are gone last.
pub(crate) fn compare(before: &[(String, Said)], after: &[(String, Said)]) -> Vec<FieldChange> {
    let mut keys: Vec<&str> = Vec::new();
    for (key, _) in after.iter().chain(before) {
        if !keys.contains(&key.as_str()) {
            keys.push(key);
        }
    }
    keys.into_iter().filter_map(|key| of_key(key, before, after)).collect()
}

/// A key that may repeat is one change: what it said in all, what it says in all.
fn of_key(key: &str, before: &[(String, Said)], after: &[(String, Said)]) -> Option<FieldChange> {
    let of = |side: &[(String, Said)], what: fn(&Said) -> &String| -> Vec<String> {
        side.iter().filter(|(other, _)| other == key).map(|(_, said)| what(said).clone()).collect()
    };
    if of(before, |said| &said.meaning) == of(after, |said| &said.meaning) {
        return None;
    }
    let text = |side| Some(of(side, |said| &said.text)).filter(|all| !all.is_empty());
    let joined = |side| text(side).map(|all| all.join("; "));
    Some(FieldChange { key: key.to_owned(), before: joined(before), after: joined(after) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fields(text: &str) -> Vec<(String, Said)> {
        let text = format!("drink: A\n{text}");
        let document = washline_syntax::Document::parse(text.as_str());
        crate::meaning::fields(&document.entries()[0].entry)
    }

    #[test]
    fn what_is_said_counts_and_not_how() {
        let before = fields("glass: coupe\nprice: 12.50 EUR\nnote: one\nserves: 2");
        let after = fields("price: 12.5  EUR\nglass:  Coupe\nnote: one\nnote: two");
        let change = |key: &str, before: Option<&str>, after: Option<&str>| FieldChange {
            key: key.to_owned(),
            before: before.map(str::to_owned),
            after: after.map(str::to_owned),
        };
        assert_eq!(
            compare(&before, &after),
            [change("note", Some("one"), Some("one; two")), change("serves", Some("2"), None),]
        );
    }
}
