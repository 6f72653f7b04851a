//! Ingredient lines: an amount, then a name and what is said of it.

use washline_text::{Edit, Span};

use crate::amount::{self, Refused, Sum, Why, placed};
use crate::reader::Reader;
use crate::slice::{self, gap, phrase, taken};
use crate::{Amount, AmountWord, Ingredient, LineKind, Problem, Role, other};

mod beside;
mod doubt;
pub(crate) mod part;
pub(crate) mod role;
mod shared;
mod tail;
mod turned;
pub(crate) mod word;

pub use beside::name_beside;
pub(crate) use doubt::comma;
pub use role::of as role_of;
pub(crate) use tail::parts;
pub(crate) use turned::read as turned;

/// The head of an ingredient line: what stands before the tail.
pub(crate) struct Head<'t> {
    pub amount: Amount,
    /// The amount as written.
    pub text: &'t str,
    pub role: Role,
}

/// Reads `content` as an ingredient line; none where it does not start with an amount.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<LineKind> {
    let first = slice::first(content)?;
    if first.is_ascii_digit() {
        if is_list_number(content) {
            return None;
        }
        return poured(reader, content);
    }
    if first.is_ascii_alphabetic() {
        if let Some(line) = shared::equal_parts(reader, content) {
            return Some(line);
        }
        if let Some((head, rest)) = part::read(reader, content).or_else(|| word::read(content)) {
            return Some(finish(reader, content, head, rest));
        }
        if let Some((unit, rest)) = word::bare(content).filter(|_| !other::is_counted(content)) {
            return Some(bare(reader, content, unit, rest));
        }
        return poured(reader, content);
    }
    signed(reader, content).or_else(|| poured(reader, content))
}

/// A measure or a sum of them.
fn poured<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<LineKind> {
    let (rest, sum) = match amount::sum(content) {
        Ok(read) => read,
        Err(nom::Err::Failure(refused)) => {
            amount::tell(reader, refused);
            return Some(LineKind::Unread);
        }
        Err(_) => return None,
    };
    if let Some(line) = shared::each(reader, content, &sum, rest) {
        return Some(line);
    }
    let text = taken(content, rest);
    for term in sum.terms() {
        doubt::comma(reader, term.number);
        doubt::fraction(reader, term, rest);
    }
    let head = measures(reader, &sum, text);
    Some(finish(reader, content, head, rest))
}

fn measures<'t>(reader: &Reader<'t>, sum: &Sum<'t>, text: &'t str) -> Head<'t> {
    let placed = sum.terms().map(|term| placed(reader, term)).collect();
    Head { amount: Amount::Measures(placed), text, role: Role::Poured }
}

/// `dash bitters`: one, with a hint that says so.
fn bare<'t>(
    reader: &mut Reader<'t>,
    content: &'t str,
    unit: washline_measure::Unit,
    rest: &'t str,
) -> LineKind {
    let word = taken(content, rest);
    let at = reader.span(word);
    reader.tell(
        Problem::new(
            "turned-line",
            at,
            format!("`{word}` has no number: it is read as 1 {}", unit.name()),
            "write the number: `1` before the unit",
        )
        .safely(format!("write `1 {word}`"), vec![Edit::insert(at.start, "1 ")]),
    );
    let measure = washline_measure::Measure {
        quantity: washline_measure::Quantity::exactly(washline_measure::Exact::ONE),
        unit: Some(unit),
    };
    let number = Span::at(at.start);
    let placed = crate::Placed { measure, span: at, number, unit: at };
    let head = Head { amount: Amount::Measures(vec![placed]), text: word, role: Role::Poured };
    finish(reader, content, head, rest)
}

/// Reads what follows the amount, and puts the line together.
fn finish<'t>(
    reader: &mut Reader<'t>,
    content: &'t str,
    mut head: Head<'t>,
    rest: &'t str,
) -> LineKind {
    let (mut tail, second) = tail::read(reader, &head, rest);
    let mut turned = false;
    if tail.name.is_empty() {
        tail.name = unit_as_name(reader, &mut head).unwrap_or(tail.name);
    }
    if let Some(role) = role::in_name(&mut tail.name) {
        head.role = role;
        turned = turned::of_bare_number(&mut head.amount, role);
    }
    let mut second = second;
    if turned {
        second = turned::size(reader, content, &head).or(second);
    }
    let role = role::of_line(reader.text, head.role, &tail.qualifiers);
    part::of_qualifier(reader, &mut head.amount, &tail.qualifiers);
    if tail.name.is_empty() {
        nameless(reader, &head, &tail, content);
    }
    if turned {
        turned::hint_rim(reader, content, &head, tail.name);
    }
    LineKind::Ingredient(Box::new(Ingredient {
        amount: head.amount,
        amount_span: reader.span(head.text),
        second,
        tail: reader.span(tail.whole),
        name: reader.span(tail.name),
        qualifiers: tail.qualifiers,
        role,
        turned,
        shared: Vec::new(),
    }))
}

/// Where no name follows (`40 cloves`), a counted unit is the name.
fn unit_as_name<'t>(reader: &Reader<'t>, head: &mut Head<'t>) -> Option<&'t str> {
    let Amount::Measures(terms) = &mut head.amount else { return None };
    let [only] = terms.as_mut_slice() else { return None };
    let counted = only.measure.unit.map(washline_measure::Unit::kind)
        == Some(washline_measure::UnitKind::Count);
    if !counted || only.number.is_empty() {
        return None;
    }
    let name = reader.text.get(only.unit.range())?;
    only.measure.unit = None;
    only.span = only.number;
    only.unit = Span::at(only.number.end);
    head.text = reader.text.get(only.number.range())?;
    Some(name)
}

fn nameless(reader: &mut Reader<'_>, head: &Head<'_>, tail: &tail::Tail<'_>, content: &str) {
    let mut problem = Problem::new(
        "missing-name",
        reader.span(content),
        format!("`{}` of what? The line has no name", head.text),
        "write what goes in behind the amount",
    );
    if let Some(comma) = tail.whole.strip_prefix(',').filter(|_| !tail.qualifiers.is_empty()) {
        let edits = vec![reader.replace(taken(tail.whole, comma), "")];
        problem = problem.perhaps("take out the comma behind the amount", edits);
    }
    reader.tell(problem);
}

/// A sign before a number: `-30 ml`, `+5 ml`.
fn signed<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<LineKind> {
    let behind = content.strip_prefix(['-', '+', '\u{2212}', '\u{b1}', '\u{2013}'])?;
    let number = !matches!(amount::number(behind), Err(nom::Err::Error(_)));
    if !number {
        return None;
    }
    let at = taken(content, behind);
    let refused = Refused { at, why: Why::Sign };
    amount::tell(reader, refused);
    Some(LineKind::Unread)
}

/// `1.` or `2)` before a word: the number of a step in a list.
pub(crate) fn is_list_number(content: &str) -> bool {
    list_number(content).is_some()
}

/// What follows `1. ` or `2) `.
pub(crate) fn list_number(content: &str) -> Option<&str> {
    let digits = content.bytes().take_while(u8::is_ascii_digit).count();
    if digits == 0 || digits > 2 {
        return None;
    }
    let behind = slice::skip(content, digits).strip_prefix(['.', ')'])?;
    let text = gap(behind);
    (text.len() < behind.len() && !text.is_empty()).then_some(text)
}

/// What follows `of` and the blank behind it.
pub(crate) fn skip_of(rest: &str) -> &str {
    let body = gap(rest);
    match phrase(body, "of") {
        Some(after) if gap(after).len() < after.len() => gap(after),
        _ => body,
    }
}

/// Whether `word` is the role of a whole line by itself.
pub(crate) const fn role_of_word(word: AmountWord) -> Role {
    match word {
        AmountWord::Top | AmountWord::Fill => Role::Top,
        AmountWord::Rinse => Role::Rinse,
        AmountWord::Float => Role::Float,
        AmountWord::Mist => Role::Mist,
        AmountWord::Rim => Role::Rim,
        AmountWord::ToTaste => Role::Taste,
    }
}
