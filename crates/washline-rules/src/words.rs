//! Words and numbers as findings say them.

use washline_book::Record;
use washline_syntax::LineKind;
use washline_text::{Span, fold};

/// A number for people: three significant digits, no trailing noughts.
#[must_use]
pub(crate) fn number(value: f64) -> String {
    let size = value.abs();
    let places = if size >= 100.0 || size == 0.0 {
        0
    } else if size >= 10.0 {
        1
    } else if size >= 1.0 {
        2
    } else {
        3
    };
    let text = format!("{value:.places$}");
    if text.contains('.') {
        return text.trim_end_matches('0').trim_end_matches('.').to_owned();
    }
    text
}

/// A measure in millilitres for people.
#[must_use]
pub(crate) fn ml(value: f64) -> String {
    format!("{} ml", number(value))
}

/// A share in per cent for people.
#[must_use]
pub(crate) fn percent(value: f64) -> String {
    format!("{} %", number(value))
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub(crate) fn list<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
        }
    }
}

/// The first of `items`, and how many more: `A, B, C and 9 more`.
#[must_use]
pub(crate) fn some<S: AsRef<str>>(items: &[S]) -> String {
    const MOST: usize = 4;
    if items.len() <= MOST {
        return list(items);
    }
    let mut shown: Vec<String> =
        items.iter().take(MOST - 1).map(|item| item.as_ref().to_owned()).collect();
    shown.push(format!("{} more", items.len() - shown.len()));
    list(&shown)
}

/// `a`, `a or b`, `a, b or c`, each between backticks.
#[must_use]
pub(crate) fn either<S: AsRef<str>>(items: &[S]) -> String {
    let ticked: Vec<String> = items.iter().map(|item| format!("`{}`", item.as_ref())).collect();
    match ticked.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

/// The reading of the line at `span`, canonical, so that layout does not change it.
pub(crate) fn typed_line(record: &Record, span: Span) -> String {
    let entry = &record.entry;
    // Lines stand in order: the last one that starts at or before the span.
    let after = entry.lines.partition_point(|line| line.span.start <= span.start);
    let Some((at, line)) = after.checked_sub(1).and_then(|at| Some((at, entry.lines.get(at)?)))
    else {
        return String::new();
    };
    match &line.what {
        LineKind::Heading(_) => String::new(),
        LineKind::Ingredient(_) => {
            let reads = record.reads.iter().filter(|read| read.line as usize == at);
            let each = reads.map(|read| {
                let unit = read.unit.map_or("", washline_measure::Unit::name);
                format!("{} {unit} {}", read.amount, fold(&read.name))
            });
            each.collect::<Vec<_>>().join("; ")
        }
        LineKind::Field(field) => {
            let written = field.key_span.text(&entry.text);
            let key = field.key.map_or_else(|| fold(written), |key| key.word().to_owned());
            format!("{key}: {}", apart(field.value_span.text(&entry.text)))
        }
        LineKind::Step(step) => format!("- {}", apart(step.text.text(&entry.text))),
        _ => apart(line.content.text(&entry.text)),
    }
}

/// The first words of a line folded and without their blanks, which layout sets.
fn apart(text: &str) -> String {
    // Enough to know a line by, however long it is.
    const MOST: usize = 240;
    let close: String = text.chars().filter(|c| !c.is_whitespace()).take(MOST).collect();
    fold(&close).replace(' ', "")
}

/// The ingredient lines of an entry as one canonical text: what figures hang on.
#[must_use]
pub(crate) fn typed_lines(record: &Record) -> String {
    let reads = record.reads.iter().map(|read| {
        let unit = read.unit.map_or("", washline_measure::Unit::name);
        format!("{} {unit} {}", read.amount, fold(&read.name))
    });
    reads.collect::<Vec<_>>().join("; ")
}
