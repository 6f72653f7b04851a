//! Waivers: `waive: RULE because REASON` lets its entry off a rule.

use washline_book::{Record, Workspace};
use washline_syntax::{Key, Value};
use washline_text::{Finding, Place, Span, fold};

use crate::rules;

/// Marks what the waivers of `records`, those of one file, let off of its `findings`, and finds
/// waivers that have no reason, name no rule or no longer let anything off.
pub(crate) fn apply(workspace: &Workspace, records: &[Record], findings: &mut Vec<Finding>) {
    let mut more = crate::Sink::new(workspace, &rules::waivers::waiver_unused::RULE);
    for record in records.iter().filter(|record| record.waives) {
        for (rules, reason, whole) in waivers(record) {
            for (word, span) in rules {
                let name = fold(word).replace(' ', "-");
                let waiver = (record.place(whole), reason.map(|span| record.text(span)));
                let used = let_off(record, &name, waiver, findings);
                rules::waivers::judge(workspace, record, &name, span, used, &mut more);
            }
            if reason.is_none() {
                rules::waivers::no_reason(record, whole, &mut more);
            }
        }
    }
    findings.append(&mut more.numbered());
}

type Waived<'a> = (Vec<(&'a str, Span)>, Option<Span>, Span);

fn waivers(record: &Record) -> Vec<Waived<'_>> {
    record
        .fields(Key::Waive)
        .filter_map(|field| match &field.value {
            Value::Waive { rules, reason } => {
                let rules = rules.iter().map(|span| (record.text(*span), *span)).collect();
                Some((rules, *reason, field.value_span))
            }
            _ => None,
        })
        .collect()
}

/// Whether an entry may be let off `rule`: what can't be read can't be meant.
#[must_use]
pub fn is_waivable(rule: &str) -> bool {
    !matches!(rule, "syntax" | "not-utf8")
}

fn let_off(
    record: &Record,
    rule: &str,
    (place, reason): (Place, Option<&str>),
    findings: &mut [Finding],
) -> bool {
    if !is_waivable(rule) {
        return false;
    }
    let len = u32::try_from(record.entry.text.len()).unwrap_or(u32::MAX);
    let whole = record.place(Span::new(0, len));
    let mut used = false;
    for finding in findings {
        let inside = finding.place.file == whole.file
            && whole.span.start <= finding.place.span.start
            && finding.place.span.start < whole.span.end.max(whole.span.start + 1);
        if inside && finding.rule == rule {
            finding.waive(place, reason);
            used = true;
        }
    }
    used
}
