//! Runs the rules over a workspace.

use std::collections::BTreeMap;

use washline_book::{Record, Workspace};
use washline_syntax::{EntryKind, Problem};
use washline_text::{Finding, Place, Severity};

use crate::rules::notation::merge_conflict;
use crate::{Check, Context, Report, Rule, Sink, cause, rules, waiver};

/// Every finding of the workspace, in the order of outputs: file, start, end, rule, message.
#[must_use]
pub fn check(workspace: &Workspace) -> Vec<Finding> {
    let mut sink = Sink::new(workspace, fallback());
    let by_name: BTreeMap<&str, &'static Rule> =
        rules::all().map(|rule| (rule.name, rule)).collect();
    reading(workspace, &by_name, &mut sink);
    for record in workspace.records() {
        entry(workspace, record, &mut sink);
    }
    for rule in rules::all() {
        if let Check::Book(find) | Check::EntryAndBook(_, find) = rule.check {
            sink.turn_to(rule);
            find(workspace, &mut sink);
        }
    }
    let mut findings = sink.findings;
    rules::notation::say_once(&mut findings);
    quiet(workspace, &mut findings);
    waiver::apply(workspace, &mut findings);
    cause::say_once(&mut findings);
    sort(workspace, &mut findings);
    findings
}

/// The findings of one entry alone, book-wide rules left out.
#[must_use]
pub fn check_entry(workspace: &Workspace, record: &Record) -> Vec<Finding> {
    let mut sink = Sink::new(workspace, fallback());
    entry(workspace, record, &mut sink);
    let mut findings = sink.findings;
    rules::notation::say_once(&mut findings);
    cause::say_once(&mut findings);
    quiet(workspace, &mut findings);
    sort(workspace, &mut findings);
    findings
}

fn fallback() -> &'static Rule {
    &rules::waivers::waiver_unused::RULE
}

fn entry(workspace: &Workspace, record: &Record, sink: &mut Sink<'_>) {
    let context = Context { workspace, record, settings: workspace.settings_of(record) };
    for rule in rules::all() {
        let find = match rule.check {
            Check::Entry(find) | Check::EntryAndBook(find, _) => find,
            Check::Figures(find) if !record.unread => find,
            _ => continue,
        };
        sink.turn_to(rule);
        find(&context, sink);
    }
}

/// What the reader of the notation found.
fn reading(workspace: &Workspace, rules: &BTreeMap<&str, &'static Rule>, sink: &mut Sink<'_>) {
    let mut records = workspace.records().iter().peekable();
    for (file, source) in workspace.files().iter().enumerate() {
        let id = washline_text::FileId(u32::try_from(file).unwrap_or(u32::MAX));
        for located in source.document.entries() {
            let own =
                matches!(located.entry.kind, EntryKind::Drink | EntryKind::Prep | EntryKind::Stock);
            let record = if own { records.next() } else { None };
            for problem in &located.entry.problems {
                let Some(rule) = rules.get(problem.rule) else { continue };
                sink.turn_to(rule);
                let place = Place { file: id, span: problem.span.shift(located.start) };
                let report = match record {
                    Some(record) => Report::on(record, place, problem.message.clone()),
                    None => Report::file(place, problem.message.clone()),
                };
                let mut report = mends(report, problem, id, located.start);
                if rule.name == merge_conflict::RULE.name {
                    report = merge_conflict::settled(report, source.document.text(), place);
                }
                sink.report(report);
            }
        }
    }
}

fn mends(report: Report, problem: &Problem, file: washline_text::FileId, start: u32) -> Report {
    let mut report = report.help(problem.help.clone());
    for mend in &problem.mends {
        let edits = mend.edits.iter().map(|edit| {
            let span = edit.span.shift(start);
            (file, washline_text::Edit::new(span, edit.text.clone()))
        });
        report = report.fix(mend.title.clone(), mend.safe, edits.collect());
    }
    report
}

/// A draft may lack what a finished spec may not: it keeps errors of reading and of allergens alone.
fn quiet(workspace: &Workspace, findings: &mut Vec<Finding>) {
    let drafts: Vec<Place> = workspace
        .records()
        .iter()
        .filter(|record| record.draft)
        .map(|record| {
            let len = u32::try_from(record.entry.text.len()).unwrap_or(u32::MAX);
            record.place(washline_text::Span::new(0, len))
        })
        .collect();
    if drafts.is_empty() {
        return;
    }
    findings.retain(|finding| {
        let inside = |draft: &Place| {
            draft.file == finding.place.file
                && draft.span.start <= finding.place.span.start
                && finding.place.span.end <= draft.span.end
        };
        !drafts.iter().any(inside) || finding.severity == Severity::Error
    });
}

pub(crate) fn sort(workspace: &Workspace, findings: &mut [Finding]) {
    let name = |finding: &Finding| {
        workspace.file(finding.place.file).map(|file| file.name.clone()).unwrap_or_default()
    };
    findings.sort_by(|a, b| {
        let key = |f: &Finding| (f.place.span.start, f.place.span.end);
        (name(a), key(a), a.rule, &a.message).cmp(&(name(b), key(b), b.rule, &b.message))
    });
}
