//! One amount for several names: `15 ml each lemon and lime juice`, `equal parts gin, …`.

use washline_measure::{Exact, Measure, Quantity, Unit};
use washline_text::Span;

use super::{doubt, gap, tail::names};
use crate::amount::{Bracket, Sum, bracket, placed};
use crate::reader::Reader;
use crate::slice::{phrase, taken, trim};
use crate::{Amount, Ingredient, LineKind, Placed, Problem, Role, Second};

/// Heads that a list of names gives away only at its end, and the words that take them.
const HEADS: &[(&str, &[&str])] = &[
    ("juice", &["lemon", "lime", "orange", "grapefruit", "pineapple", "apple", "cranberry"]),
    ("vermouth", &["sweet", "dry", "white", "red", "rosso", "bianco"]),
    ("rum", &["light", "dark", "white", "gold", "aged", "overproof"]),
    ("syrup", &["sugar", "honey", "ginger", "raspberry", "maple"]),
    ("bitters", &["orange", "aromatic", "chocolate", "peach"]),
];

/// `15 ml each …`, where `each` stands behind the measure.
pub(super) fn each<'t>(
    reader: &mut Reader<'t>,
    content: &'t str,
    sum: &Sum<'t>,
    rest: &'t str,
) -> Option<LineKind> {
    let only = sum.only()?;
    let body = gap(rest);
    let bracket = body.strip_prefix('(').and_then(|body| body.split_once(')'));
    let after = bracket.map_or(body, |(_, after)| after);
    let behind = phrase(gap(after), "each")?;
    let second = match bracket {
        Some((inner, after)) => Some(second(reader, inner, taken(body, after))?),
        None => None,
    };
    doubt::comma(reader, only.number);
    let amount = trim(taken(content, after));
    let placed = placed(reader, only);
    read(reader, content, (placed, second), amount, list(behind))
}

/// The amount in a bracket.
fn second(reader: &Reader<'_>, inner: &str, all: &str) -> Option<Second> {
    let Bracket::Amount(measure) = bracket(inner) else { return None };
    Some(Second { measure, span: reader.span(all), inner: reader.span(trim(inner)) })
}

/// `equal parts …`: a part of each.
pub(super) fn equal_parts<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<LineKind> {
    let behind = phrase(content, "equal parts")?;
    let text = taken(content, behind);
    let span = reader.span(text);
    let quantity = Quantity::exactly(Exact::ONE);
    let measure = Measure { quantity, unit: Some(Unit::Part) };
    let number = Span::at(span.start);
    let placed = Placed { measure, span, number, unit: span };
    read(reader, content, (placed, None), "1 part", list(behind))
}

/// The names behind `each`, `each of`, `each:`.
fn list(behind: &str) -> &str {
    let body = gap(behind);
    let body = body.strip_prefix(':').map_or(body, gap);
    phrase(body, "of").map_or(body, gap)
}

fn read<'t>(
    reader: &mut Reader<'t>,
    content: &'t str,
    (placed, second): (Placed, Option<Second>),
    amount: &str,
    list: &'t str,
) -> Option<LineKind> {
    let names = names(list);
    let first = *names.first()?;
    hint(reader, content, amount, &names);
    Some(LineKind::Ingredient(Box::new(Ingredient {
        amount: Amount::Measures(vec![placed]),
        amount_span: placed.span,
        second,
        tail: reader.span(list),
        name: reader.span(first),
        qualifiers: Vec::new(),
        role: Role::Poured,
        turned: false,
        shared: names.iter().map(|name| reader.span(name)).collect(),
    })))
}

/// Writes a line for each name; a name that lacks its last word gets it.
fn hint(reader: &mut Reader<'_>, content: &str, amount: &str, names: &[&str]) {
    let last = names.last().copied().unwrap_or("");
    let full: Vec<String> = names.iter().map(|name| with_head(name, last)).collect();
    let indent = reader.whole_line().get(..indent_len(reader, content)).unwrap_or("");
    let lines: Vec<String> = full.iter().map(|name| format!("{amount} {name}")).collect();
    let text = lines.join(&format!("\n{indent}"));
    let same = names.iter().zip(&full).all(|(name, full)| *name == full.as_str());
    let problem = Problem::new(
        "shared-amount",
        reader.span(content),
        format!("{} ingredients share one line: each is read as {amount}", names.len()),
        "write a line for each, so that each can be found and scaled",
    );
    let edits = vec![reader.replace(content, text)];
    let title = "write a line for each";
    reader.tell(if same { problem.safely(title, edits) } else { problem.perhaps(title, edits) });
}

fn indent_len(reader: &Reader<'_>, content: &str) -> usize {
    let line = reader.span(reader.whole_line());
    (reader.span(content).start - line.start) as usize
}

fn with_head(name: &str, last: &str) -> String {
    let shares = |(head, words): &&(&str, &[&str])| {
        last.ends_with(head) && words.iter().any(|word| word.eq_ignore_ascii_case(name))
    };
    match HEADS.iter().find(shares) {
        Some((head, _)) => format!("{name} {head}"),
        None => name.to_owned(),
    }
}
