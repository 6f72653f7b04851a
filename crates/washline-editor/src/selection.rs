//! What a selection grows to: word, part of the line, line, block, entry, file.

use washline_book::Workspace;
use washline_syntax::{Amount, Ingredient, Line, LineKind, Step, Value};
use washline_text::{FileId, Span};

use crate::cursor::{Cursor, body, whole};

/// The spans around `offset`, innermost first, each inside the next.
#[must_use]
pub fn selection(workspace: &Workspace, file: FileId, offset: u32) -> Vec<Span> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let text = source.document.text();
    let all = Span::new(0, u32::try_from(text.len()).unwrap_or(u32::MAX));
    let Some(cursor) = Cursor::at(workspace, file, offset) else { return vec![all] };
    let mut around = Vec::new();
    if let Some((at, line)) = cursor.line {
        let lines = &cursor.located.entry.lines;
        around.extend(word(text, cursor.offset));
        around.extend(parts(line).into_iter().map(|span| cursor.span(span)));
        around.push(cursor.span(line.content));
        around.push(cursor.span(line.span));
        around.push(cursor.span(block(lines, at)));
    }
    around.push(body(cursor.located));
    around.push(whole(cursor.located));
    around.push(all);
    grown(around, cursor.offset)
}

/// Those of `spans` that touch `offset`, the smallest first, none that cuts another.
fn grown(mut spans: Vec<Span>, offset: u32) -> Vec<Span> {
    spans.retain(|span| span.touches(offset) && !span.is_empty());
    spans.sort_by_key(|span| (span.len(), span.start));
    let mut out: Vec<Span> = Vec::new();
    for span in spans {
        let holds = |last: &Span| span.start <= last.start && last.end <= span.end && span != *last;
        if out.last().is_none_or(holds) {
            out.push(span);
        }
    }
    if out.is_empty() {
        out.push(Span::at(offset));
    }
    out
}

/// The letters and digits around `offset`.
fn word(text: &str, offset: u32) -> Option<Span> {
    let inside = |c: char| c.is_alphanumeric() || c == '\'' || c == '’';
    let (before, after) = text.split_at_checked(offset as usize)?;
    let back: usize = before.chars().rev().take_while(|c| inside(*c)).map(char::len_utf8).sum();
    let on: usize = after.chars().take_while(|c| inside(*c)).map(char::len_utf8).sum();
    let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    (back + on > 0).then(|| Span::new(offset - narrow(back), offset + narrow(on)))
}

/// The parts of a line that mean something by themselves.
fn parts(line: &Line) -> Vec<Span> {
    match &line.what {
        LineKind::Heading(heading) => vec![heading.key, heading.name],
        LineKind::Field(field) => {
            let mut out = vec![field.key_span, field.value_span];
            out.extend(values(&field.value));
            out
        }
        LineKind::Ingredient(ingredient) => of_ingredient(ingredient),
        LineKind::Step(step) => of_step(step),
        LineKind::Blank | LineKind::Comment | LineKind::Unread => Vec::new(),
    }
}

fn values(value: &Value) -> Vec<Span> {
    match value {
        Value::Terms(terms) => terms.clone(),
        Value::Vessel { name, words, .. } => {
            let mut out = words.clone();
            out.push(*name);
            out
        }
        Value::Garnishes(all) => all.iter().flat_map(|one| [one.span, one.name]).collect(),
        Value::Waive { rules, reason } => rules.iter().copied().chain(*reason).collect(),
        Value::Keeps { places, .. } => places.clone(),
        _ => Vec::new(),
    }
}

fn of_ingredient(line: &Ingredient) -> Vec<Span> {
    let mut out = vec![line.amount_span, line.tail, line.name];
    if let Amount::Measures(sum) = &line.amount {
        out.extend(sum.iter().flat_map(|placed| [placed.span, placed.number, placed.unit]));
    }
    if let Some(second) = &line.second {
        out.extend([second.inner, second.span, line.amount_span.cover(second.span)]);
    }
    out.extend(&line.qualifiers);
    out
}

fn of_step(step: &Step) -> Vec<Span> {
    let mut out = vec![step.text];
    for act in &step.acts {
        out.extend([act.verb, act.object, act.span]);
        out.extend(act.ice.map(|(_, span)| span));
        out.extend(act.into);
        out.extend(act.until);
    }
    out
}

/// The lines around `at` that no blank line parts from it, the heading left out.
fn block(lines: &[Line], at: usize) -> Span {
    let stays = |line: &Line| !matches!(line.what, LineKind::Blank | LineKind::Heading(_));
    let before = lines.get(..=at).unwrap_or_default();
    let after = lines.get(at..).unwrap_or_default();
    let first = before.iter().rev().take_while(|line| stays(line)).last();
    let last = after.iter().take_while(|line| stays(line)).last();
    let (Some(first), Some(last)) = (first, last) else { return Span::at(0) };
    first.span.cover(last.span)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn grows(text: &str) -> Vec<String> {
        let (house, at) = House::at(text);
        let spans = selection(&house.workspace, at.file, at.offset);
        spans.into_iter().map(|span| house.words(span).to_owned()).collect()
    }

    #[test]
    fn a_name_grows_to_its_line_its_block_and_its_entry() {
        let text = "drink: A\n  family: sour\n\n  60 ml  (2 oz)  lemon ju|ice, fresh\n  1 egg\n\ndrink: B\n";
        let grown = grows(text);
        assert_eq!(
            grown[..5],
            [
                "juice",
                "lemon juice",
                "lemon juice, fresh",
                "60 ml  (2 oz)  lemon juice, fresh",
                "  60 ml  (2 oz)  lemon juice, fresh",
            ]
        );
        assert_eq!(grown[5], "  60 ml  (2 oz)  lemon juice, fresh\n  1 egg");
        assert!(grown[6].starts_with("drink: A\n") && grown[6].ends_with("1 egg"));
        assert_eq!(grown.last().unwrap(), &text.replace('|', ""));
    }

    #[test]
    fn an_act_grows_to_its_step() {
        let grown = grows("drink: A\n  - stir with ice, stra|in into a coupe\n");
        assert_eq!(
            grown[..3],
            ["strain", "strain into a coupe", "stir with ice, strain into a coupe"]
        );
    }

    #[test]
    fn an_empty_file_is_its_own_selection() {
        assert_eq!(grows("|"), [""]);
    }
}
