//! Where a name ends, and what is said of it.

use washline_syntax::{Ingredient, Property, name_beside, property};
use washline_text::{Span, fold};

use crate::names::{From, Names, choice};
use crate::{Referent, Resolution};

/// A tail taken apart.
#[derive(Debug, Default)]
pub(super) struct Tail {
    pub name: String,
    pub name_span: Span,
    pub qualifiers: Vec<Span>,
    /// Those of them that are ingredients themselves.
    pub beside: Vec<Span>,
    pub properties: Vec<(Span, Property)>,
    pub resolution: Resolution,
    pub or: Vec<(String, Vec<Referent>)>,
    /// `optional` stands behind the name without a comma.
    pub optional: bool,
}

/// Finds name, properties and qualifiers in the tail of `line`.
pub(super) fn read(
    line: &Ingredient,
    name: Span,
    text: &str,
    counted: bool,
    names: &Names,
    from: From<'_>,
) -> Tail {
    let mut tail = plain(line, name, text, counted, names, from);
    let qualifiers = tail.qualifiers.iter().copied();
    tail.beside =
        qualifiers.filter(|said| is_beside(*said, &tail.name, text, names, from)).collect();
    tail
}

/// Whether `said` is an amount of a thing that is known, and not the same thing said again:
/// `30 ml lime juice, 1 lime`.
fn is_beside(said: Span, name: &str, text: &str, names: &Names, from: From<'_>) -> bool {
    let said = said.text(text);
    let Some(other) = name_beside(said).map(|other| other.text(said)) else { return false };
    let bare = without(other, &property::scan(other));
    let (one, two) = (fold(name), fold(&bare));
    let same = one.contains(&two) || two.contains(&one);
    !same && (names.knows(&bare, from) || names.knows(other, from))
}

fn plain(
    line: &Ingredient,
    name: Span,
    text: &str,
    counted: bool,
    names: &Names,
    from: From<'_>,
) -> Tail {
    if let Some(known) = long_name(line, name, text, names, from) {
        return known;
    }
    let mut tail = Tail { name_span: name, ..Tail::default() };
    let mut prose = Vec::new();
    for span in &line.qualifiers {
        let found = property::scan(span.text(text));
        let whole = found.iter().any(|(s, _)| s.len() + 2 >= span.len());
        tail.properties.extend(found.into_iter().map(|found| shifted(found, span.start)));
        tail.qualifiers.push(*span);
        if !whole {
            prose.push(*span);
        }
    }
    let words: Vec<&str> = prose.iter().map(|span| span.text(text)).collect();
    let written = name.text(text);
    tail.name = written.to_owned();
    tail.resolution = names.resolve(written, &words, counted, from);
    if !tail.resolution.hits.is_empty() {
        // A known name may still carry a state (`hot water` is an entry, `chilled` is not part of one).
        if !names.knows(written, from) {
            let states = property::scan(written);
            tail.properties.extend(states.into_iter().map(|found| shifted(found, name.start)));
        }
        return tail;
    }
    let said = written.strip_suffix(" optional").unwrap_or(written);
    let found = property::scan(said);
    if !found.is_empty() || said != written {
        tail.optional = said != written;
        tail.name = without(said, &found);
        tail.properties.extend(found.into_iter().map(|found| shifted(found, name.start)));
        tail.resolution = names.resolve(&tail.name, &words, counted, from);
        if !tail.resolution.hits.is_empty() {
            return tail;
        }
    }
    choose(&mut tail, &words, counted, names, from);
    tail
}

/// A name whose own commas do not end it: the longest run of the tail that is known.
fn long_name(
    line: &Ingredient,
    name: Span,
    text: &str,
    names: &Names,
    from: From<'_>,
) -> Option<Tail> {
    let (last, _) = line.qualifiers.iter().enumerate().rev().find(|(_, span)| {
        span.start > name.end && {
            let run = Span::new(name.start, span.end).text(text);
            run.contains(',') && names.knows(run, from)
        }
    })?;
    let end = line.qualifiers.get(last)?.end;
    let span = Span::new(name.start, end);
    let rest: Vec<Span> = line.qualifiers.iter().skip(last + 1).copied().collect();
    let mut tail = Tail {
        name: span.text(text).to_owned(),
        name_span: span,
        resolution: names.resolve(span.text(text), &[], false, from),
        ..Tail::default()
    };
    for span in rest {
        let found = property::scan(span.text(text));
        tail.properties.extend(found.into_iter().map(|found| shifted(found, span.start)));
        tail.qualifiers.push(span);
    }
    Some(tail)
}

/// A choice of names: the first is what is poured, the others widen it. A side that
/// is unknown alone takes the last words of the last side.
fn choose(tail: &mut Tail, words: &[&str], counted: bool, names: &Names, from: From<'_>) {
    let whole = tail.name.clone();
    let Some(sides) = choice(&whole) else { return };
    let mut read = Vec::new();
    for side in &sides {
        let side = strip_amount(side);
        let found = meaning(side, &sides, words, counted, names, from);
        if found.hits.is_empty() {
            return;
        }
        read.push((side.to_owned(), found));
    }
    let mut sides = read.into_iter();
    if let Some((_, first)) = sides.next() {
        tail.resolution = first;
        tail.or = sides.map(|(name, found)| (name, found.hits)).collect();
    }
}

/// What a side means, with the last words of the last side where it is unknown alone.
fn meaning(
    side: &str,
    sides: &[&str],
    words: &[&str],
    counted: bool,
    names: &Names,
    from: From<'_>,
) -> Resolution {
    let mut found = names.resolve(side, words, counted, from);
    let mut rest = sides.last().copied().unwrap_or_default();
    while found.hits.is_empty() {
        let Some((_, words_left)) = rest.split_once(' ') else { break };
        rest = words_left;
        found = names.resolve(&format!("{side} {rest}"), words, counted, from);
    }
    found
}

/// The first side of the choice `name` that means nothing; none where it is no choice.
pub(crate) fn unknown_side<'a>(name: &'a str, names: &Names, from: From<'_>) -> Option<&'a str> {
    let sides = choice(name)?;
    let plain = |side: &&'a str| strip_amount(side);
    sides
        .iter()
        .map(plain)
        .find(|side| meaning(side, &sides, &[], false, names, from).hits.is_empty())
}

/// The second side of a choice may say its own amount, which counts for nothing: `or 2 dashes bitters`.
fn strip_amount(side: &str) -> &str {
    side.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.' || c == ' ')
}

/// A property where it stands in the entry.
fn shifted((span, property): (Span, Property), by: u32) -> (Span, Property) {
    let property = match property {
        Property::Contains(words) => Property::Contains(words.shift(by)),
        other => other,
    };
    (span.shift(by), property)
}

fn without(text: &str, found: &[(Span, Property)]) -> String {
    let mut out = String::with_capacity(text.len());
    let mut at = 0;
    for (span, _) in found {
        out.push_str(text.get(at..span.start as usize).unwrap_or(""));
        out.push(' ');
        at = at.max(span.end as usize);
    }
    out.push_str(text.get(at..).unwrap_or(""));
    let words: Vec<&str> = out.split_whitespace().collect();
    words.join(" ").trim_matches([',', '(', ')', ' ']).to_owned()
}
