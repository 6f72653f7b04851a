//! What to write in `contains:` and `free-from:`, and where. A person confirms it: never safe.

use washline_syntax::{Field, Key, LineKind, Value};
use washline_text::{Edit, FileId, Span};

use super::{carried, each, word};
use crate::Context;

/// The words of `contains:` with more behind them.
pub(super) fn completed(context: &Context<'_>, field: &Field, words: &str) -> (FileId, Edit) {
    match &field.value {
        Value::Terms(terms) if !terms.is_empty() => {
            context.edit(Span::at(field.value_span.end), format!(", {words}"))
        }
        _ => context.edit(field.value_span, words),
    }
}

/// The `contains:` line of what the drink is known to carry, and where it goes. What nobody
/// vouches for is never written as `none`.
pub(super) fn declaration(context: &Context<'_>) -> Option<(String, (FileId, Edit))> {
    let allergens = &context.record.allergens;
    let carried: Vec<_> = carried(context).collect();
    let known = allergens.vouched && allergens.carried.iter().all(|carried| carried.certain);
    let words = match carried.as_slice() {
        [] if known => "none".to_owned(),
        [] => return None,
        some => each(some, |carried| word(context.settings, carried)).join(", "),
    };
    let edit = context.line_below(last_field(context), &format!("contains: {words}"))?;
    Some((words, edit))
}

/// The last field above the first ingredient or step, or the heading.
fn last_field(context: &Context<'_>) -> usize {
    let lines = &context.record.entry.lines;
    let body = |kind: &LineKind| matches!(kind, LineKind::Ingredient(_) | LineKind::Step(_));
    let end = lines.iter().position(|line| body(&line.what)).unwrap_or(lines.len());
    let field = |kind: &LineKind| matches!(kind, LineKind::Field(_) | LineKind::Heading(_));
    lines.iter().take(end).rposition(|line| field(&line.what)).unwrap_or(0)
}

/// The edit that takes the claim at `claim` out of `free-from:`, with its comma; the whole line
/// where it is the only one.
pub(super) fn without_claim(context: &Context<'_>, claim: Span) -> Option<(FileId, Edit)> {
    let entry = &context.record.entry;
    let (at, terms) = entry.lines.iter().enumerate().find_map(|(at, line)| match &line.what {
        LineKind::Field(field) if field.key == Some(Key::FreeFrom) => match &field.value {
            Value::Terms(terms) if terms.contains(&claim) => Some((at, terms)),
            _ => None,
        },
        _ => None,
    })?;
    let place = terms.iter().position(|term| *term == claim)?;
    let gone =
        match (place.checked_sub(1).and_then(|before| terms.get(before)), terms.get(place + 1)) {
            (Some(before), _) => Span::new(before.end, claim.end),
            (None, Some(next)) => Span::new(claim.start, next.start),
            (None, None) => {
                let start = entry.lines.get(at.checked_sub(1)?)?.span.end;
                Span::new(start, entry.lines.get(at)?.span.end)
            }
        };
    Some(context.edit(gone, ""))
}
