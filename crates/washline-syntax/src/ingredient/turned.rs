//! Lines that say what they are for behind the name: `soda water, to top`.

use washline_measure::{Measure, Unit};
use washline_text::Edit;

use super::{role, tail::parts};
use crate::amount::{Bracket, bracket};
use crate::reader::Reader;
use crate::slice::{self, taken};
use crate::{Amount, AmountWord, Ingredient, LineKind, Problem, Role, Second, step};

/// Reads a line with no amount whose role stands behind its name.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<LineKind> {
    let mut all = parts(content);
    let first = all.next()?;
    let mut said = None;
    let mut others = Vec::new();
    for part in all.filter(|part| !part.is_empty()) {
        match role::of(part).and_then(word_of).filter(|_| said.is_none()) {
            Some(word) => said = Some((word, part)),
            None => others.push(part),
        }
    }
    let (mut name, mut size) = (first, None);
    if said.is_none() {
        let (found, left) = role::behind(first)?;
        let words = slice::skip(first, left.len());
        said = Some((word_of(found)?, words));
        name = left;
        if let Some((left, last)) = role::cut(name).filter(|(_, last)| *last == "half") {
            (name, size) = (left, Some(last));
        }
    }
    let (word, text) = said?;
    if name.is_empty() || is_verb(name) {
        return None;
    }
    hint(reader, content, name, word, text, size);
    let second = size.and_then(|half| second(reader, half));
    Some(LineKind::Ingredient(Box::new(Ingredient {
        amount: Amount::Word(word),
        amount_span: reader.span(text.trim_start()),
        second,
        tail: reader.span(content),
        name: reader.span(name),
        qualifiers: others.iter().map(|part| reader.span(part)).collect(),
        role: super::role_of_word(word),
        turned: true,
        shared: Vec::new(),
    })))
}

/// `half salt rim`: a bare number before a rim is the rim's size.
pub(super) fn of_bare_number(amount: &mut Amount, role: Role) -> bool {
    let Amount::Measures(terms) = amount else { return false };
    let bare = terms.iter().all(|term| term.measure.unit.is_none());
    if bare && role == Role::Rim {
        *amount = Amount::Word(AmountWord::Rim);
        return true;
    }
    false
}

/// The size that [`of_bare_number`] took for one.
pub(super) fn size(reader: &Reader<'_>, content: &str, head: &super::Head<'_>) -> Option<Second> {
    let (_, read) = crate::amount::quantity(head.text).ok()?;
    let span = reader.span(taken(content, slice::skip(content, head.text.len())));
    let measure = Measure { quantity: read.quantity, unit: None::<Unit> };
    Some(Second { measure, span, inner: span })
}

/// The hint for a rim whose size stands before its name.
pub(super) fn hint_rim<'t>(
    reader: &mut Reader<'t>,
    content: &'t str,
    head: &super::Head<'t>,
    name: &'t str,
) {
    let behind = slice::skip(content, slice_end(content, name));
    let text = parts(behind).next().unwrap_or(behind);
    hint(reader, content, name, AmountWord::Rim, text, Some(head.text));
}

fn slice_end(content: &str, part: &str) -> usize {
    washline_text::Span::of(part, content).end as usize
}

fn second(reader: &Reader<'_>, half: &str) -> Option<Second> {
    let Bracket::Half(measure) = bracket(half) else { return None };
    let span = reader.span(half);
    Some(Second { measure, span, inner: span })
}

/// Turns the line round: the word first, its size in brackets, then the name.
fn hint<'t>(
    reader: &mut Reader<'t>,
    content: &'t str,
    name: &'t str,
    word: AmountWord,
    text: &'t str,
    size: Option<&str>,
) {
    let spelt = spelling(word);
    let bracket = size.map(|size| format!("({size}) ")).unwrap_or_default();
    let start = reader.span(content).start;
    let name_span = reader.span(name);
    let gone = reader.span(text);
    // The words go with the comma or blank before them.
    let before = reader.text.get(name_span.end as usize..gone.start as usize).unwrap_or("");
    let kept = before.trim_end_matches(|c: char| c == ',' || c.is_whitespace()).len();
    let cut = name_span.end + u32::try_from(kept).unwrap_or(0);
    let edits = vec![
        Edit::new(washline_text::Span::new(start, name_span.start), format!("{spelt} {bracket}")),
        Edit::delete(washline_text::Span::new(cut, gone.end)),
    ];
    reader.tell(
        Problem::new(
            "turned-line",
            reader.span(text.trim_start()),
            format!("`{}` stands behind the name: the line is read as `{spelt}`", text.trim()),
            format!("write it first: `{spelt} {bracket}{name}`"),
        )
        .safely("turn the line round", edits),
    );
}

/// Whether `name` is what someone does, not what goes in.
fn is_verb(name: &str) -> bool {
    let Some((_, verb)) = step::at_start(name) else { return false };
    let adjective = verb.ends_with("ed") || verb.eq_ignore_ascii_case("dry");
    !adjective || verb.len() == name.len()
}

const fn word_of(role: Role) -> Option<AmountWord> {
    Some(match role {
        Role::Top => AmountWord::Top,
        Role::Float => AmountWord::Float,
        Role::Rinse => AmountWord::Rinse,
        Role::Rim => AmountWord::Rim,
        Role::Mist => AmountWord::Mist,
        Role::Taste => AmountWord::ToTaste,
        Role::Poured | Role::Garnish | Role::Optional | Role::Side => return None,
    })
}

const fn spelling(word: AmountWord) -> &'static str {
    match word {
        AmountWord::Top => "top",
        AmountWord::Fill => "fill",
        AmountWord::Rinse => "rinse",
        AmountWord::Float => "float",
        AmountWord::Mist => "mist",
        AmountWord::Rim => "rim",
        AmountWord::ToTaste => "to taste",
    }
}
