//! What an entry says, without where it says it: what the layout must not change.

use washline_syntax::{Amount, Entry, Field, Ingredient, Line, LineKind};
use washline_text::Span;

/// Whether two entries say the same line by line, comments included. `None` says nothing.
pub(crate) fn is_same(a: &Entry, b: Option<&Entry>) -> bool {
    let Some(b) = b else { return says(a).next().is_none() };
    let (mut left, mut right) = (says(a), says(b));
    let both = Both { a: &a.text, b: &b.text };
    loop {
        match (left.next(), right.next()) {
            (None, None) => return true,
            (Some(a), Some(b)) if both.lines(a, b) => {}
            _ => return false,
        }
    }
}

/// The lines of an entry that say something.
fn says(entry: &Entry) -> impl Iterator<Item = &Line> {
    let silent = |line: &Line| matches!(line.what, LineKind::Blank | LineKind::Comment);
    entry.lines.iter().filter(move |line| !silent(line) || line.comment.is_some())
}

/// The texts of two entries that are compared.
struct Both<'a> {
    a: &'a str,
    b: &'a str,
}

impl Both<'_> {
    fn lines(&self, a: &Line, b: &Line) -> bool {
        let same = match (&a.what, &b.what) {
            (LineKind::Blank | LineKind::Comment, LineKind::Blank | LineKind::Comment) => true,
            (LineKind::Heading(a), LineKind::Heading(b)) => {
                a.kind == b.kind && self.words(a.name, b.name)
            }
            (LineKind::Field(a), LineKind::Field(b)) => self.fields(a, b),
            (LineKind::Ingredient(a), LineKind::Ingredient(b)) => self.ingredients(a, b),
            (LineKind::Step(a), LineKind::Step(b)) => self.words(a.text, b.text),
            (LineKind::Unread, LineKind::Unread) => self.texts(a.content, b.content),
            _ => false,
        };
        same && match (a.comment, b.comment) {
            (None, None) => true,
            (Some(a), Some(b)) => a.text(self.a).trim_end() == b.text(self.b).trim_end(),
            _ => false,
        }
    }

    fn fields(&self, a: &Field, b: &Field) -> bool {
        let keys = match (a.key, b.key) {
            (None, None) => self.texts(a.key_span, b.key_span),
            (a, b) => a == b,
        };
        keys && self.words(a.value_span, b.value_span)
    }

    fn ingredients(&self, a: &Ingredient, b: &Ingredient) -> bool {
        let seconds =
            a.second.map(|second| second.measure) == b.second.map(|second| second.measure);
        amounts(&a.amount, &b.amount)
            && seconds
            && (a.role, a.turned) == (b.role, b.turned)
            && self.words(a.name, b.name)
            && alike(&a.qualifiers, &b.qualifiers, |a, b| self.words(*a, *b))
            && alike(&a.shared, &b.shared, |a, b| self.texts(*a, *b))
    }

    fn texts(&self, a: Span, b: Span) -> bool {
        a.text(self.a) == b.text(self.b)
    }

    fn words(&self, a: Span, b: Span) -> bool {
        let (a, b) = (a.text(self.a), b.text(self.b));
        a == b || words(a) == words(b)
    }
}

fn amounts(a: &Amount, b: &Amount) -> bool {
    match (a, b) {
        (Amount::Measures(a), Amount::Measures(b)) => alike(a, b, |a, b| a.measure == b.measure),
        (Amount::PartOf(part, a), Amount::PartOf(other, b)) => {
            part == other && a.measure == b.measure
        }
        (a, b) => a == b,
    }
}

fn alike<T>(a: &[T], b: &[T], same: impl Fn(&T, &T) -> bool) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
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
