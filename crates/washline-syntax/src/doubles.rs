//! What to do about a field that stands twice in one entry.

use std::collections::BTreeMap;

use washline_text::{Edit, fold};

use crate::slice::clip;
use crate::{Field, Key, Line, LineKind, Problem};

/// Adds its mends to each problem of a field that stands twice: where both say the same, one
/// goes; where they differ, a person says which; what is declared of allergens is put together,
/// never dropped.
pub(crate) fn mend(text: &str, lines: &[Line], problems: &mut [Problem]) {
    let twice = problems.iter_mut().filter(|problem| problem.rule == "duplicate-field");
    let mut twice: BTreeMap<u32, &mut Problem> =
        twice.map(|problem| (problem.span.start, problem)).collect();
    if twice.is_empty() {
        return;
    }
    let mut firsts: BTreeMap<Key, At<'_>> = BTreeMap::new();
    for (at, line) in lines.iter().enumerate() {
        let LineKind::Field(field) = &line.what else { continue };
        let Some(key) = field.key else { continue };
        let first = *firsts.entry(key).or_insert((at, field));
        if let Some(problem) = twice.remove(&field.key_span.start) {
            *problem = mended(text, lines, first, (at, field), problem.clone());
        }
    }
}

/// Whether a folded value says that nothing is in it: with an allergen beside it, one is wrong.
fn is_nothing(said: &str) -> bool {
    ["none", "no", "nothing", "nil", "no allergens"].contains(&said)
}

/// The longest value that is put together with another, bytes.
const MOST: usize = 1000;

/// A field and the number of its line.
type At<'a> = (usize, &'a Field);

fn mended(text: &str, lines: &[Line], first: At<'_>, second: At<'_>, problem: Problem) -> Problem {
    let value = |at: At<'_>| at.1.value_span.text(text);
    let [said, again] = [first, second].map(|at| fold(value(at)));
    let out = |at: At<'_>| {
        Line::with_end(lines, at.0).map(|span| Edit::new(span, "")).into_iter().collect::<Vec<_>>()
    };
    let keep = |at: At<'_>| format!("keep `{}`", clip(value(at)));
    let remark = lines.get(second.0).is_some_and(|line| line.comment.is_some());
    if said == again {
        let title = "take the second line out";
        return if remark {
            problem.perhaps(title, out(second))
        } else {
            problem.safely(title, out(second))
        };
    }
    match first.1.key {
        Some(Key::FreeFrom) => problem,
        Some(Key::Contains | Key::MayContain) if is_nothing(&said) || is_nothing(&again) => problem,
        // Many lines of much would come to many times as much.
        Some(Key::Contains | Key::MayContain) if said.len() > MOST => problem,
        Some(Key::Contains | Key::MayContain) => {
            let together = format!("{}, {}", value(first), value(second));
            let mut edits = vec![Edit::new(first.1.value_span, together)];
            edits.extend(out(second));
            problem.perhaps("write both in one line", edits)
        }
        _ => problem.perhaps(keep(first), out(second)).perhaps(keep(second), out(first)),
    }
}
