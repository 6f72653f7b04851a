//! What the lines of an entry mean, without how they are laid out and spelled.

use std::fmt::Write as _;

use washline_measure::Measure;
use washline_syntax::{Amount, Entry, Field, Ingredient, LineKind, Value};
use washline_text::{Span, fold};

/// An ingredient line, or one that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Poured {
    /// Its place among the lines of the entry.
    pub line: u32,
    /// How much.
    pub amount: String,
    /// Of what, folded.
    pub name: String,
    /// What else is said.
    pub said: String,
    /// As written, with single blanks.
    pub text: String,
}

impl Poured {
    /// Whether both say the same.
    pub(crate) fn is(&self, other: &Self) -> bool {
        self.name == other.name && self.amount == other.amount && self.said == other.said
    }
}

/// A step, or a field with its key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Said {
    /// What it means.
    pub meaning: String,
    /// As written, with single blanks.
    pub text: String,
}

/// What goes in, in order.
pub(crate) fn poured(entry: &Entry) -> Vec<Poured> {
    let mut out = Vec::new();
    for (at, line) in entry.lines.iter().enumerate() {
        let text = spaced(line.content.text(&entry.text));
        let line_no = u32::try_from(at).unwrap_or(u32::MAX);
        match &line.what {
            LineKind::Ingredient(ingredient) => out.push(Poured {
                line: line_no,
                amount: amount(ingredient),
                name: fold(ingredient.name.text(&entry.text)),
                said: said(ingredient, entry),
                text,
            }),
            LineKind::Unread => out.push(Poured {
                line: line_no,
                amount: String::new(),
                name: fold(&text),
                said: "unread".to_owned(),
                text,
            }),
            _ => {}
        }
    }
    out
}

fn amount(ingredient: &Ingredient) -> String {
    match &ingredient.amount {
        Amount::Measures(sum) => {
            let each: Vec<Measure> = sum.iter().map(|placed| placed.measure).collect();
            format!("{each:?}")
        }
        Amount::PartOf(part, placed) => format!("{part:?} {:?}", placed.measure),
        Amount::Word(word) => format!("{word:?} {:?}", ingredient.second.map(|s| s.measure)),
        other => format!("{other:?}"),
    }
}

fn said(ingredient: &Ingredient, entry: &Entry) -> String {
    let of = |span: &Span| fold(span.text(&entry.text));
    let mut qualifiers: Vec<String> = ingredient.qualifiers.iter().map(of).collect();
    qualifiers.sort_unstable();
    let shared: Vec<String> = ingredient.shared.iter().map(of).collect();
    let second = ingredient.second.map(|second| second.measure);
    format!("{qualifiers:?} {second:?} {:?} {shared:?}", ingredient.role)
}

/// Its steps in order.
pub(crate) fn steps(entry: &Entry) -> Vec<Said> {
    let steps = entry.steps().map(|step| step.text.text(&entry.text));
    steps.map(|text| Said { meaning: close(text), text: spaced(text) }).collect()
}

/// Its fields in order, each with its key.
pub(crate) fn fields(entry: &Entry) -> Vec<(String, Said)> {
    entry
        .fields()
        .map(|field| {
            let written = field.key_span.text(&entry.text);
            let key = field.key.map_or_else(|| fold(written), |key| key.word().to_owned());
            let text = spaced(field.value_span.text(&entry.text));
            (key, Said { meaning: value(field, entry), text })
        })
        .collect()
}

fn value(field: &Field, entry: &Entry) -> String {
    let words = |spans: &[Span]| -> Vec<String> {
        spans.iter().map(|span| fold(span.text(&entry.text))).collect()
    };
    let mut out = String::new();
    // Writing into memory can't fail.
    let _ = match &field.value {
        Value::Number(number) => write!(out, "{number:?}"),
        Value::Count(quantity) => write!(out, "{quantity:?}"),
        Value::Amount(one, second) => write!(out, "{one:?} {second:?}"),
        Value::Pack { count, each } => write!(out, "{count} {each:?}"),
        Value::Money { amount, currency } => {
            write!(out, "{amount:?} {}", fold(currency.text(&entry.text)))
        }
        Value::Keeps { hours, places } => write!(out, "{hours:?} {:?}", words(places)),
        Value::Terms(terms) => write!(out, "{:?}", words(terms)),
        Value::None => write!(out, "none"),
        Value::Bad
        | Value::Text
        | Value::Vessel { .. }
        | Value::Garnishes(_)
        | Value::Waive { .. } => {
            write!(out, "{}", close(field.value_span.text(&entry.text)))
        }
    };
    out
}

/// `text` folded, without the blanks at commas and semicolons, which layout sets.
fn close(text: &str) -> String {
    let mut out = String::new();
    for part in fold(text).split_inclusive([',', ';']) {
        let words = part.trim_start();
        match words.strip_suffix([',', ';']) {
            Some(bare) => {
                out.push_str(bare.trim_end());
                out.extend(words.chars().next_back());
            }
            None => out.push_str(words),
        }
    }
    out
}

/// `text` with single blanks.
pub(crate) fn spaced(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::close;

    #[test]
    fn layout_does_not_change_what_a_step_says() {
        assert_eq!(close("Shake for 12 s ,double  strain"), close("shake for 12 s, double strain"));
        assert_eq!(close("lime wheel;cherry"), close("lime wheel ; cherry"));
        assert_ne!(close("shake, strain"), close("shake; strain"));
        assert_ne!(close("double strain"), close("doublestrain"));
    }
}
