//! What an entry says, without where it says it: what the layout must not change.

use std::fmt::Write as _;

use washline_syntax::{Amount, Entry, LineKind};

/// The meaning of each line that has one, comments included.
pub(crate) fn of(entry: &Entry) -> Vec<String> {
    let text: &str = &entry.text;
    let mut out = Vec::new();
    for line in &entry.lines {
        let mut said = String::new();
        match &line.what {
            LineKind::Blank | LineKind::Comment => {}
            LineKind::Heading(heading) => {
                said = format!("{:?} {}", heading.kind, words(heading.name.text(text)));
            }
            LineKind::Field(field) => {
                let key = field.key.map_or(field.key_span.text(text), |key| key.word());
                said = format!("{key}: {}", words(field.value_span.text(text)));
            }
            LineKind::Ingredient(line) => {
                match &line.amount {
                    Amount::Measures(sum) => {
                        let each: Vec<_> = sum.iter().map(|placed| placed.measure).collect();
                        let _ = write!(said, "{each:?}");
                    }
                    Amount::PartOf(part, placed) => {
                        let _ = write!(said, "{part:?} {:?}", placed.measure);
                    }
                    other => {
                        let _ = write!(said, "{other:?}");
                    }
                }
                let second = line.second.map(|second| second.measure);
                let shared: Vec<&str> = line.shared.iter().map(|s| s.text(text)).collect();
                let qualifiers: Vec<String> =
                    line.qualifiers.iter().map(|span| words(span.text(text))).collect();
                let _ = write!(
                    said,
                    " {second:?} {} {qualifiers:?} {:?} {} {shared:?}",
                    words(line.name.text(text)),
                    line.role,
                    line.turned,
                );
            }
            LineKind::Step(step) => said = format!("- {}", words(step.text.text(text))),
            LineKind::Unread => said = format!("? {}", line.content.text(text)),
        }
        if let Some(comment) = line.comment {
            let _ = write!(said, " {}", comment.text(text).trim_end());
        }
        if !said.is_empty() {
            out.push(said);
        }
    }
    out
}

/// Words with single blanks; none around the marks that part a list, nor between a number and
/// its unit, which the layout may set.
fn words(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut out = String::with_capacity(text.len());
    for c in words.join(" ").chars() {
        if matches!(c, ',' | ';') {
            out.truncate(out.trim_end_matches(' ').len());
        }
        let parted = out.ends_with([',', ';']) || out.ends_with(|c: char| c.is_ascii_digit());
        if c == ' ' && parted {
            // A blank between two numbers parts them.
            out.push('\u{1}');
            continue;
        }
        if out.ends_with('\u{1}') {
            out.pop();
            if c.is_ascii_digit() && !out.ends_with([',', ';']) {
                out.push(' ');
            }
        }
        out.push(c);
    }
    out
}
