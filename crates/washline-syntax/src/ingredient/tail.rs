//! What follows an amount: its bracket, `of`, the name, and what is said of it.

use washline_measure::{Unit, UnitKind};
use washline_text::{Edit, Span};

use super::{Head, doubt, skip_of};
use crate::amount::{self, Bracket, bracket, measure};
use crate::reader::Reader;
use crate::slice::{self, gap, taken, trim, walked};
use crate::{Amount, Problem, Second};

/// Where names and qualifiers stand.
pub(super) struct Tail<'t> {
    /// All of it.
    pub whole: &'t str,
    /// Up to the first separating comma, brackets at its ends left out.
    pub name: &'t str,
    pub qualifiers: Vec<Span>,
}

/// Reads what follows the amount of a line.
pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    head: &Head<'_>,
    rest: &'t str,
) -> (Tail<'t>, Option<Second>) {
    let worded = matches!(head.amount, Amount::Word(_));
    let unit = unit_of(&head.amount);
    let mut brackets = Brackets { reader, worded, unit, second: None, qualifiers: Vec::new() };
    let mut body = gap(rest);
    if body.starts_with('(') {
        body = match opening(body) {
            Some((inner, after)) if is_amount(inner) => {
                if brackets.amount(taken(body, after), inner) { gap(after) } else { body }
            }
            Some(_) => body,
            None => brackets.unclosed(body),
        };
    }
    let whole = trim(skip_of(body));
    let mut parts = parts(whole);
    let name = brackets.strip(parts.next().unwrap_or(whole));
    for part in parts {
        brackets.qualifier(part);
    }
    let Brackets { second, qualifiers, .. } = brackets;
    (Tail { whole, name, qualifiers }, second)
}

/// Whether a bracket holds an amount: any other is sorted with the name behind it.
fn is_amount(inner: &str) -> bool {
    matches!(bracket(inner), Bracket::Amount(_) | Bracket::Half(_))
}

/// The unit of an amount that is one measure.
fn unit_of(amount: &Amount) -> Option<Unit> {
    let Amount::Measures(measures) = amount else { return None };
    let [only] = measures.as_slice() else { return None };
    only.measure.unit
}

/// The text between separating commas, each trimmed. A comma between two digits or
/// inside brackets separates nothing.
pub(crate) fn parts(text: &str) -> Parts<'_> {
    Parts { rest: Some(text), closes: true }
}

/// The names in `text`, split at separating commas, `and` and `&`.
pub(crate) fn names(text: &str) -> Vec<&str> {
    let mut names = Vec::new();
    for part in parts(text) {
        let mut rest = part;
        for joint in [" and ", " & "] {
            while let Some((name, after)) = rest.split_once(joint) {
                names.push(without_and(name));
                rest = after;
            }
        }
        names.push(without_and(rest));
    }
    names.retain(|name| !name.is_empty());
    names
}

fn without_and(name: &str) -> &str {
    let name = name.trim();
    slice::phrase(name, "and").map_or(name, gap)
}

/// See [`parts`].
pub(crate) struct Parts<'t> {
    rest: Option<&'t str>,
    /// Whether a bracket may still be closed: one that is not opens nothing.
    closes: bool,
}

impl<'t> Iterator for Parts<'t> {
    type Item = &'t str;

    fn next(&mut self) -> Option<&'t str> {
        let text = self.rest?;
        let Some(at) = self.comma(text) else {
            self.rest = None;
            return Some(trim(text));
        };
        self.rest = Some(slice::skip(text, at + 1));
        text.get(..at).map(trim)
    }
}

impl Parts<'_> {
    /// The first separating comma.
    fn comma(&mut self, text: &str) -> Option<usize> {
        let bytes = text.as_bytes();
        let digit =
            |at: Option<usize>| at.and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit);
        let mut at = 0;
        loop {
            let rest = bytes.get(at..)?;
            let sign = if self.closes { b'(' } else { b',' };
            at += memchr::memchr2(b',', sign, rest)?;
            if bytes.get(at) == Some(&b'(') {
                let closed = memchr::memchr(b')', bytes.get(at..)?);
                walked::add(closed.unwrap_or(bytes.len() - at));
                match closed {
                    Some(closed) => at += closed,
                    None => self.closes = false,
                }
            } else if !(digit(at.checked_sub(1)) && digit(Some(at + 1))) {
                return Some(at);
            }
            at += 1;
        }
    }
}

/// The inside of the bracket that opens `text`, and what follows it.
fn opening(text: &str) -> Option<(&str, &str)> {
    text.strip_prefix('(')?.split_once(')')
}

/// `text` before the bracket that closes it, and the bracket's inside.
fn closing(text: &str) -> Option<(&str, &str)> {
    text.strip_suffix(')')?.rsplit_once('(')
}

/// Sorts brackets into the second amount and qualifiers.
struct Brackets<'r, 't> {
    reader: &'r mut Reader<'t>,
    worded: bool,
    /// The unit of the amount before them.
    unit: Option<Unit>,
    second: Option<Second>,
    qualifiers: Vec<Span>,
}

impl<'t> Brackets<'_, 't> {
    /// `name` without the brackets at its ends.
    fn strip(&mut self, name: &'t str) -> &'t str {
        let mut name = trim(name);
        while let Some((inner, after)) = opening(name) {
            self.sort(taken(name, after), inner);
            name = after.trim_start();
        }
        let mut behind = Vec::new();
        while let Some((before, inner)) = closing(name) {
            behind.push((slice::skip(name, before.len()), inner));
            name = before.trim_end();
        }
        for (all, inner) in behind.into_iter().rev() {
            self.sort(all, inner);
        }
        name
    }

    /// A part behind a comma: its own words, and a bracket at its end if that is an amount.
    fn qualifier(&mut self, part: &'t str) {
        let mut part = part;
        if let Some((before, inner)) = closing(part) {
            let all = slice::skip(part, before.len());
            if before.is_empty() || matches!(bracket(inner), Bracket::Amount(_)) {
                self.sort(all, inner);
                part = before.trim_end();
            }
        }
        if !part.is_empty() {
            self.qualifiers.push(self.reader.span(part));
        }
    }

    fn sort(&mut self, all: &'t str, inner: &'t str) {
        if !self.amount(all, inner) {
            let inner = inner.trim();
            if !inner.is_empty() {
                self.qualifiers.push(self.reader.span(inner));
            }
        }
    }

    /// Whether the bracket is the second amount, or means to be one.
    fn amount(&mut self, all: &'t str, inner: &'t str) -> bool {
        let inner = inner.trim();
        let measure = match bracket(inner) {
            Bracket::Amount(measure) => measure,
            Bracket::Half(measure) if self.worded => measure,
            Bracket::Half(_) | Bracket::Words => return false,
            Bracket::Number => {
                self.wrong(all, inner);
                return false;
            }
            Bracket::Refused(refused) => {
                amount::tell(self.reader, refused);
                return false;
            }
        };
        if self.second.is_some() {
            self.twice(all);
            return true;
        }
        doubt::comma(self.reader, inner);
        let span = self.reader.span(all);
        self.second = Some(Second { measure, span, inner: self.reader.span(inner) });
        true
    }

    fn wrong(&mut self, all: &str, inner: &str) {
        let span = self.reader.span(inner);
        let problem = Problem::new(
            "unreadable-amount",
            span,
            format!("`({inner})` opens with a number and is no amount"),
            "in brackets stands the same amount in another unit, `(1 oz)`, or a property, `(2:1)`; \
             write anything else behind a comma",
        );
        let problem = match self.other_unit(inner) {
            Some(unit) => {
                let meant = format!("({inner} {})", unit.name());
                let edits = vec![self.reader.replace(all, meant.clone())];
                problem.perhaps(format!("write `{meant}`"), edits)
            }
            None => problem,
        };
        let problem = match self.behind_comma(all, inner) {
            Some(edit) => problem.perhaps(format!("write `, {inner}`"), vec![edit]),
            None => problem,
        };
        self.reader.tell(problem);
    }

    /// The unit that a bare number in a bracket lacks: ounces behind metric, millilitres behind
    /// ounces.
    fn other_unit(&self, inner: &str) -> Option<Unit> {
        let (rest, read) = measure(inner).ok()?;
        match self.unit?.kind() {
            _ if !rest.is_empty() || read.measure.unit.is_some() => None,
            UnitKind::Metric => Some(Unit::Oz),
            UnitKind::Customary => Some(Unit::Ml),
            _ => None,
        }
    }

    /// `(2 oz gin`, which nothing closes: reads the amount as if it were closed behind its unit.
    /// What is left of `body`; all of it where it opens with no amount.
    fn unclosed(&mut self, body: &'t str) -> &'t str {
        let inner = gap(slice::skip(body, 1));
        let Ok((after, read)) = measure(inner) else { return body };
        if read.measure.unit.is_none() || gap(after).is_empty() {
            return body;
        }
        let (all, meant) = (taken(body, after), format!("({})", read.text));
        let span = self.reader.span(all);
        let edits = vec![self.reader.replace(all, meant.clone())];
        self.reader.tell(
            Problem::new(
                "unreadable-amount",
                span,
                format!("`{all}` opens a bracket that nothing closes"),
                "close the bracket behind the second amount: `60 ml (2 oz)`",
            )
            .perhaps(format!("write `{meant}`"), edits),
        );
        self.second =
            Some(Second { measure: read.measure, span, inner: self.reader.span(read.text) });
        gap(after)
    }

    /// The edit that puts a bracket behind a comma, where a name stands before it and
    /// nothing but a comma behind.
    fn behind_comma(&self, all: &str, inner: &str) -> Option<Edit> {
        let span = self.reader.span(all);
        let text = self.reader.text;
        let behind = text.get(span.end as usize..)?.trim_start_matches([' ', '\t']);
        let ends = behind.is_empty() || behind.starts_with(['\n', '\r', ',', '#']);
        let before = text.get(..span.start as usize)?;
        let kept = before.trim_end_matches([' ', '\t']).len();
        let start = u32::try_from(kept).ok()?;
        let named = before.ends_with(|c: char| c == ' ' || c.is_alphanumeric());
        (ends && named).then(|| Edit::new(Span::new(start, span.end), format!(", {inner}")))
    }

    fn twice(&mut self, all: &str) {
        let span = self.reader.span(all);
        self.reader.tell(Problem::new(
            "unreadable-amount",
            span,
            format!("`{all}` is the line's third amount"),
            "keep one amount in brackets",
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &[&str]) {
        assert_eq!(parts(text).collect::<Vec<_>>(), expected, "{text}");
    }

    #[test]
    fn commas_separate() {
        check("lemon juice, fresh", &["lemon juice", "fresh"]);
        check("gin", &["gin"]);
        check("", &[""]);
        check("rum, 22,5 % , aged", &["rum", "22,5 %", "aged"]);
        check("gin (dry, cold), chilled", &["gin (dry, cold)", "chilled"]);
        check("gin (dry, cold", &["gin (dry", "cold"]);
    }

    #[test]
    fn names_are_split_at_and() {
        assert_eq!(names("lemon and lime juice"), ["lemon", "lime juice"]);
        assert_eq!(names("gin, vermouth, and amaro"), ["gin", "vermouth", "amaro"]);
        assert_eq!(names("gin & rum"), ["gin", "rum"]);
    }
}
