//! Lines that are none of the others, each with its likeliest mend.

use washline_text::Edit;

use crate::reader::Reader;
use crate::slice::{self, clip, gap, taken};
use crate::{EntryKind, LineKind, Problem, Role, ingredient, step};

mod backwards;
mod counted;
mod keyed;
mod wrapped;

pub(crate) use counted::is_counted;

/// `gin: 60 ml` as a line, where the value is an amount with its unit.
pub(crate) fn turned(name: &str, amount: &str) -> Option<String> {
    backwards::turned(&format!("{name} {amount}"))
}

/// Signs that others start a step with.
const BULLETS: &[char] = &[
    '\u{2013}', '\u{2014}', '\u{2022}', '*', '\u{b7}', '\u{2023}', '\u{25aa}', '\u{25cf}',
    '\u{25e6}', '\u{2043}', '-', '+', '>',
];

/// Reads a line that is no step, pair or ingredient.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, content: &'t str) -> LineKind {
    if let Some(line) = bulleted(reader, content) {
        return line;
    }
    if let Some(line) = ingredient::turned(reader, content) {
        return line;
    }
    let problem = if step::at_start(content).is_some() {
        unbulleted(reader, content)
    } else if !content.contains(char::is_alphanumeric) {
        empty(reader, content)
    } else {
        unmeasured(reader, content)
    };
    reader.tell(problem);
    LineKind::Unread
}

/// Another bullet, or the number of a list, before a technique or an amount.
fn bulleted<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<LineKind> {
    let stripped = content.trim_start_matches(BULLETS);
    let text = match ingredient::list_number(content) {
        Some(text) => text,
        None if stripped.len() < content.len() => gap(stripped),
        None => return None,
    };
    if text.is_empty() {
        return None;
    }
    let bullet = taken(content, text);
    if step::technique_at_start(text).is_some() {
        let problem = Problem::new(
            "wrong-bullet",
            reader.span(bullet.trim_end()),
            format!("`{}` is no bullet: the line is read as a step", bullet.trim_end()),
            "a step starts with `- `",
        );
        let edits = vec![reader.replace(bullet, "- ")];
        reader.tell(problem.safely("write `- `", edits));
        return Some(step::read(reader, text));
    }
    let line = ingredient::read(reader, text)?;
    if matches!(line, LineKind::Ingredient(_)) {
        let problem = Problem::new(
            "wrong-bullet",
            reader.span(bullet.trim_end()),
            format!(
                "`{}` stands before an amount: the line is read as an ingredient",
                bullet.trim_end()
            ),
            "an ingredient line starts with its amount",
        );
        let edits = vec![reader.replace(bullet, "")];
        reader.tell(problem.safely("take the bullet out", edits));
    }
    Some(line)
}

fn unbulleted<'t>(reader: &mut Reader<'t>, content: &'t str) -> Problem {
    let start = reader.span(slice::start(content));
    let problem = Problem::new(
        "syntax",
        reader.span(content),
        "this reads like a step, and has no bullet",
        "a step starts with `- `",
    );
    let problem = match keyed::mend(reader, content) {
        Some((title, edits)) => problem.perhaps(title, edits),
        None => problem,
    };
    problem.perhaps("write `- ` before it", vec![Edit::insert(start.start, "- ")])
}

fn unmeasured<'t>(reader: &mut Reader<'t>, content: &'t str) -> Problem {
    let problem = Problem::new(
        "syntax",
        reader.span(content),
        format!("`{}` is no ingredient, step or field", clip(content)),
        "an ingredient line starts with its amount, a step with `- `, a field with its key and a colon",
    );
    let mend = counted::mend(reader, content)
        .or_else(|| backwards::mend(reader, content))
        .or_else(|| wrapped::mend(reader, content))
        .or_else(|| keyed::mend(reader, content))
        .or_else(|| garnish(reader, content));
    match mend {
        Some((title, edits)) => problem.perhaps(title, edits),
        None => problem,
    }
}

/// `lime wheel, for garnish` is a garnish.
fn garnish(reader: &Reader<'_>, content: &str) -> Option<(String, Vec<Edit>)> {
    let (name, said) = content.rsplit_once(',')?;
    let garnish = ingredient::role_of(said) == Some(Role::Garnish);
    let text = format!("garnish: {}", name.trim());
    let edits = || vec![reader.replace(content, text.clone())];
    (garnish && reader.kind == EntryKind::Drink).then(|| (format!("write `{text}`"), edits()))
}

fn empty(reader: &Reader<'_>, content: &str) -> Problem {
    let start = reader.span(slice::start(content));
    Problem::new(
        "syntax",
        reader.span(content),
        format!("`{}` says nothing", clip(content)),
        "take the line out, or write `#` before it: a comment may say anything",
    )
    .perhaps("make it a comment", vec![Edit::insert(start.start, "# ")])
}
