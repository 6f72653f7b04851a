//! Lines put in another order.

use washline_syntax::LineKind;
use washline_text::{Edit, FileId, Span};

use crate::Context;

/// One act that puts the lines `wanted` where `lines` stand: the same lines of the entry, by
/// their place in it, as they stand and as they should. The comments right above a line and
/// behind it travel with it; what stands between keeps its place.
pub(super) fn reorder(
    context: &Context<'_>,
    lines: &[usize],
    wanted: &[usize],
) -> Vec<(FileId, Edit)> {
    let entry = &context.record.entry;
    let moved = lines.iter().zip(wanted).filter(|(here, there)| here != there);
    moved
        .filter_map(|(here, there)| {
            let text = with_comments(context, *there)?.text(&entry.text);
            Some(context.edit(with_comments(context, *here)?, text))
        })
        .collect()
}

/// A line with the comment lines that stand right above it.
fn with_comments(context: &Context<'_>, at: usize) -> Option<Span> {
    let lines = &context.record.entry.lines;
    let above = lines.get(..at)?.iter().rev();
    let comments = above.take_while(|line| line.what == LineKind::Comment);
    let first = comments.last().map(|line| line.span);
    let own = lines.get(at)?.span;
    Some(first.map_or(own, |first| first.cover(own)))
}
