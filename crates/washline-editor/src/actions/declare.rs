//! The allergens that an entry is known to carry, written into it.

use washline_book::{Record, Workspace, allergens_listed};
use washline_reference::{Allergen, allergen_from_word};
use washline_syntax::{Key, LineKind, Value};
use washline_text::{Edit, FileId, Span, fold};

use super::waive::field_line;
use super::{Action, ActionKind, Does};
use crate::cursor::Cursor;

/// On a heading or a `contains`, what is carried and not yet listed. What nobody knows is left
/// open, and never is an entry said to contain none.
pub(super) fn action(workspace: &Workspace, file: FileId, span: Span) -> Option<Action> {
    let cursor = Cursor::at(workspace, file, span.start)?;
    let record = cursor.record?;
    let (_, line) = cursor.line?;
    let here = match &line.what {
        LineKind::Heading(_) => true,
        LineKind::Field(field) => field.key == Some(Key::Contains),
        _ => false,
    };
    let terms = here.then(|| missing(workspace, record))?;
    if terms.is_empty() {
        return None;
    }
    let terms = terms.join(", ");
    let open = !record.allergens.unknown.is_empty() || !record.allergens.vouched || record.unread;
    let rest = if open { "; more may be in it, read every label" } else { "" };
    let edit = match record.field(Key::Contains) {
        None => field_line(record, &format!("contains: {terms}")),
        Some(field) => {
            let span = field.value_span.shift(record.start);
            match field.value {
                Value::Terms(_) => Edit::insert(span.end, format!(", {terms}")),
                Value::None => Edit::new(span, terms.clone()),
                _ => return None,
            }
        }
    };
    Some(Action {
        title: format!("declare what it is known to carry: {terms}{rest}"),
        kind: ActionKind::Rewrite,
        preferred: false,
        answers: Vec::new(),
        does: Does::Edits(vec![(file, edit)]),
    })
}

/// By the words of the house's first market, where the notation reads them.
fn missing(workspace: &Workspace, record: &Record) -> Vec<&'static str> {
    let markets = workspace.settings_of(record).declared_markets();
    let sulphites = record.figures.sulphites_mg_per_l;
    let listed = allergens_listed(record, Key::Contains);
    let is_listed =
        |allergen: Allergen| listed.iter().any(|(one, _)| one.is_some_and(|(a, _)| a == allergen));
    let mut out = Vec::new();
    for carried in record.allergens.carried.iter().filter(|carried| carried.certain) {
        let counts = markets.iter().any(|market| carried.counts_in(*market, sulphites));
        if !counts || is_listed(carried.allergen) {
            continue;
        }
        let term = markets.first().map(|market| market.term(carried.allergen));
        let read = |term: &&str| allergen_from_word(&fold(term)).is_some();
        let term = term.filter(read).unwrap_or(carried.allergen.id());
        if !out.contains(&term) {
            out.push(term);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::actions as all;
    use crate::harness::House;

    fn after(text: &str) -> Option<(String, String)> {
        let (house, at) = House::at(text);
        let actions = all(&house.workspace, at.file, Span::at(at.offset), &[]);
        let action = actions.into_iter().find(|action| action.title.starts_with("declare "))?;
        let Does::Edits(edits) = action.does else { return None };
        Some((action.title, house.after(&edits).into_iter().next()?))
    }

    #[test]
    fn what_the_lines_carry_is_listed() {
        let (_, text) = after("drink: A|\n  15 ml egg white\n  30 ml cream\n").unwrap();
        let contains = text.lines().find(|line| line.contains("contains: ")).unwrap();
        assert!(contains.contains("egg") && contains.contains("milk"), "{contains}");
    }

    #[test]
    fn a_list_grows_and_none_gives_way() {
        let (_, text) =
            after("drink: A\n  contains: milk|\n  15 ml egg white\n  30 ml cream\n").unwrap();
        assert!(text.contains("contains: milk, egg"), "{text}");
        let (_, text) = after("drink: A\n  contains: none|\n  15 ml egg white\n").unwrap();
        assert!(!text.contains("none") && text.contains("contains: egg"), "{text}");
    }

    #[test]
    fn what_carries_nothing_known_is_never_said_to_contain_none() {
        assert_eq!(after("drink: A|\n  30 ml no such thing\n"), None);
        assert_eq!(after("drink: A|\n  30 ml water\n"), None);
    }
}
