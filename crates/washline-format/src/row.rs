//! A line taken apart into what the layout moves.

use std::borrow::Cow;

use washline_syntax::{Amount, Entry, Field, Ingredient, Line, LineKind, Value};
use washline_text::Span;

use crate::marks::{self, single};
use crate::number;
use crate::{Fractions, Options};

/// One line, ready to be laid out.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Row<'a> {
    pub kind: RowKind,
    /// The cells of an ingredient line that are aligned: amount, second measure.
    pub cells: [Cow<'a, str>; 2],
    /// The rest of the line.
    pub text: Cow<'a, str>,
    pub comment: Option<&'a str>,
    /// The line's own end; empty where it has none.
    pub end: &'a str,
}

impl Row<'_> {
    /// A blank line that the layout puts in.
    pub(crate) const GAP: Self = Row {
        kind: RowKind::Blank,
        cells: [Cow::Borrowed(""), Cow::Borrowed("")],
        text: Cow::Borrowed(""),
        comment: None,
        end: "",
    };

    /// Whether a comment stands behind what the line says.
    pub(crate) fn trails(&self) -> bool {
        self.comment.is_some() && self.kind != RowKind::Comment
    }
}

/// What a row is to the layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RowKind {
    Blank,
    Comment,
    Heading,
    Field,
    Ingredient,
    Step,
}

/// The rows of an entry.
pub(crate) fn rows<'a>(entry: &'a Entry, options: &Options) -> Vec<Row<'a>> {
    let text: &str = &entry.text;
    let mut out = Vec::with_capacity(entry.lines.len());
    for (at, line) in entry.lines.iter().enumerate() {
        let next = entry.lines.get(at + 1).map_or(text.len(), |next| next.span.start as usize);
        let end = text.get(line.span.end as usize..next).unwrap_or("");
        out.push(row(line, entry, end, options));
    }
    out
}

fn row<'a>(line: &Line, entry: &'a Entry, end: &'a str, options: &Options) -> Row<'a> {
    let text: &str = &entry.text;
    let comment = line.comment.map(|span| span.text(text).trim_end());
    let mut row = Row { comment, end, ..Row::GAP };
    match &line.what {
        LineKind::Blank => row.comment = None,
        LineKind::Comment => row.kind = RowKind::Comment,
        LineKind::Heading(heading) => {
            row.kind = RowKind::Heading;
            let key = heading.key.text(text).to_ascii_lowercase();
            row.text = joined(key, ": ", &single(heading.name.text(text)));
        }
        LineKind::Field(field) => {
            row.kind = RowKind::Field;
            row.text = self::field(field, text);
        }
        LineKind::Ingredient(ingredient) => {
            row.kind = RowKind::Ingredient;
            // What is read only with a doubt is not spelled as if there were none.
            let doubted =
                entry.problems.iter().any(|problem| is_within(problem.span, line.content));
            let fractions = (!doubted).then_some(options.fractions);
            self::ingredient(&mut row, ingredient, line.content, text, fractions);
        }
        LineKind::Step(_) => {
            row.kind = RowKind::Step;
            row.text = marks::spaced(line.content.text(text));
        }
        LineKind::Unread => row.text = line.content.text(text).into(),
    }
    row
}

fn is_within(inner: Span, outer: Span) -> bool {
    outer.start <= inner.start && inner.end <= outer.end
}

/// `front`, `between` and `behind`; no blanks at the end.
fn joined(front: impl Into<String>, between: &str, behind: &str) -> Cow<'static, str> {
    let mut out: String = front.into();
    out.reserve(between.len() + behind.len());
    out.push_str(between);
    out.push_str(behind);
    out.truncate(out.trim_end().len());
    Cow::Owned(out)
}

fn field(field: &Field, text: &str) -> Cow<'static, str> {
    let key = field.key.map_or_else(|| single(field.key_span.text(text)), |key| key.word().into());
    let value = field.value_span.text(text);
    let value = match field.value {
        // What people write in sentences keeps its spacing.
        Value::Text | Value::Bad => value.into(),
        Value::Terms(_) | Value::Vessel { .. } | Value::Waive { .. } => marks::spaced(value),
        _ => marks::spaced(&marks::units_apart(value)).into_owned().into(),
    };
    joined(key, ": ", &value)
}

/// Sets the cells of an ingredient line; without `fractions` its amounts stay as written.
fn ingredient<'a>(
    row: &mut Row<'a>,
    line: &Ingredient,
    content: Span,
    text: &'a str,
    fractions: Option<Fractions>,
) {
    let between = Span::new(line.amount_span.end, line.tail.start);
    let in_order =
        content.start == line.amount_span.start && line.tail.start >= line.amount_span.end;
    if line.turned || !in_order {
        row.text = single(content.text(text));
        return;
    }
    let second = line
        .second
        .filter(|second| between.start <= second.span.start && second.span.end <= between.end);
    let mut amount = spelled(&line.amount, line.amount_span, text, fractions);
    let left_over = match second {
        None => single(between.text(text)),
        Some(second) => {
            let before = Span::new(between.start, second.span.start).text(text);
            let behind = Span::new(second.span.end, between.end).text(text);
            let inner = second.inner.text(text);
            // `rim (half)`: a share of the rim is a word, not an amount.
            row.cells[1] = match (second.measure.unit, fractions) {
                (Some(_), Some(fractions)) => {
                    let number = number_of(inner);
                    format!("({})", number::measure(&second.measure, number, fractions)).into()
                }
                _ => format!("({})", single(inner)).into(),
            };
            let before = single(before);
            if !before.is_empty() {
                amount = format!("{amount} {before}").into();
            }
            single(behind)
        }
    };
    match (left_over.is_empty(), second.is_some()) {
        (true, _) => row.text = marks::spaced(line.tail.text(text)),
        (false, true) => {
            row.text = format!("{left_over} {}", marks::spaced(line.tail.text(text))).into()
        }
        (false, false) => {
            amount = format!("{amount} {left_over}").into();
            row.text = marks::spaced(line.tail.text(text));
        }
    }
    row.cells[0] = amount;
}

/// The number at the front of a bracketed measure.
fn number_of(inner: &str) -> &str {
    let end = inner.find(|c: char| c.is_alphabetic()).unwrap_or(inner.len());
    inner.get(..end).unwrap_or(inner).trim()
}

fn spelled<'a>(
    amount: &Amount,
    span: Span,
    text: &'a str,
    fractions: Option<Fractions>,
) -> Cow<'a, str> {
    let (Amount::Measures(sum), Some(fractions)) = (amount, fractions) else {
        return single(span.text(text));
    };
    let mut out = String::new();
    for placed in sum {
        if !out.is_empty() {
            out.push_str(" + ");
        }
        out.push_str(&number::measure(&placed.measure, placed.number.text(text), fractions));
    }
    out.into()
}
