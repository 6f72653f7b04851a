//! Waivers: what an entry is let off.

use washline_book::{Record, Workspace};
use washline_text::Span;

use crate::{Report, Rule, Sink, find};

pub(crate) mod waiver_unknown;
pub(crate) mod waiver_unused;
pub(crate) mod waiver_without_reason;

pub(super) const ALL: &[&Rule] =
    &[&waiver_without_reason::RULE, &waiver_unused::RULE, &waiver_unknown::RULE];

/// Says what is wrong with a waiver of the rule `name` at `span`, if anything is.
pub(crate) fn judge(
    workspace: &Workspace,
    record: &Record,
    name: &str,
    span: Span,
    used: bool,
    sink: &mut Sink<'_>,
) {
    if used {
        return;
    }
    match find(name) {
        None => {
            sink.turn_to(&waiver_unknown::RULE);
            sink.report(waiver_unknown::report(record, name, span));
        }
        Some(rule) => {
            sink.turn_to(&waiver_unused::RULE);
            sink.report(waiver_unused::report(workspace, record, rule, span));
        }
    }
}

/// Says that a waiver gives no reason.
pub(crate) fn no_reason(record: &Record, whole: Span, sink: &mut Sink<'_>) {
    sink.turn_to(&waiver_without_reason::RULE);
    let report: Report = waiver_without_reason::report(record, whole);
    sink.report(report);
}
