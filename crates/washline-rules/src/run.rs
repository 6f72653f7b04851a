//! Runs the rules over a workspace.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use washline_book::{Record, Workspace};
use washline_reference::Market;
use washline_syntax::{Document, EntryKind, Located, Problem};
use washline_text::{Edit, FileId, Finding, Place, Severity, Span};

use crate::rules::notation::merge_conflict;
use crate::{Check, Context, Report, Rule, Sink, cause, of_fields, rules, together, waiver};

/// Every finding of the workspace, in the order of outputs: file, start, end, rule, message.
///
/// To check a workspace again and again while it is edited, see [`Checked`](crate::Checked).
#[must_use]
pub fn check(workspace: &Workspace) -> Vec<Finding> {
    let mut sink = Sink::new(workspace, fallback());
    for file in files(workspace) {
        beside_entries(workspace, file, &mut sink);
    }
    for record in workspace.records() {
        entry(workspace, record, &mut sink);
    }
    together::find_all(workspace, &mut sink);
    let mut by_file: Vec<Vec<Finding>> = vec![Vec::new(); workspace.files().len()];
    for finding in sink.numbered() {
        if let Some(findings) = by_file.get_mut(finding.place.file.0 as usize) {
            findings.push(finding);
        }
    }
    in_order(workspace, |file| {
        let findings = by_file.get_mut(file.0 as usize).map(std::mem::take).unwrap_or_default();
        finished(workspace, file, findings)
    })
}

/// The findings of one entry alone, what comes of looking at several together left out.
#[must_use]
pub fn check_entry(workspace: &Workspace, record: &Record) -> Vec<Finding> {
    let mut sink = Sink::new(workspace, fallback());
    entry(workspace, record, &mut sink);
    let mut findings = sink.numbered();
    rules::notation::say_once(&mut findings);
    cause::say_once(&mut findings);
    quiet(std::slice::from_ref(record), &mut findings);
    sort(&mut findings);
    findings
}

/// What `of` gives of each file, files in the order of their names.
pub(crate) fn in_order(
    workspace: &Workspace,
    of: impl FnMut(FileId) -> Vec<Finding>,
) -> Vec<Finding> {
    let mut order: Vec<FileId> = files(workspace).collect();
    order.sort_by_key(|file| workspace.file_name(*file));
    order.into_iter().flat_map(of).collect()
}

fn files(workspace: &Workspace) -> impl Iterator<Item = FileId> {
    let most = u32::try_from(workspace.files().len()).unwrap_or(u32::MAX);
    (0..most).map(FileId)
}

pub(crate) fn fallback() -> &'static Rule {
    &rules::waivers::waiver_unused::RULE
}

/// An entry as the rules see it.
pub(crate) fn within<'a>(workspace: &'a Workspace, record: &'a Record) -> Context<'a> {
    Context { workspace, record, settings: workspace.settings_of(record) }
}

/// What the rules find in one entry.
pub(crate) fn entry(workspace: &Workspace, record: &Record, sink: &mut Sink<'_>) {
    let context = within(workspace, record);
    for rule in rules::all() {
        let find = match rule.check {
            Check::Entry(find) | Check::EntryAndBook(find, _) | Check::EntryAndFrame(find, _) => {
                find
            }
            Check::Figures(find) if !record.unread => find,
            _ => continue,
        };
        sink.turn_to(rule);
        find(&context, sink);
    }
}

/// What the reader of the notation found in a file, and what the rules find beside its entries.
pub(crate) fn beside_entries(workspace: &Workspace, id: FileId, sink: &mut Sink<'_>) {
    static BY_NAME: LazyLock<BTreeMap<&str, &'static Rule>> =
        LazyLock::new(|| rules::all().map(|rule| (rule.name, rule)).collect());
    let Some(source) = workspace.file(id) else { return };
    let mut records = workspace.records_of(id).iter();
    for located in source.document.entries() {
        let own =
            matches!(located.entry.kind, EntryKind::Drink | EntryKind::Prep | EntryKind::Stock);
        let record = if own { records.next() } else { None };
        for problem in &located.entry.problems {
            let Some(rule) = BY_NAME.get(problem.rule) else { continue };
            sink.turn_to(rule);
            let place = Place { file: id, span: problem.span.shift(located.start) };
            let report = match record {
                Some(record) => Report::on(record, place, problem.message.clone()),
                None => Report::file(place, problem.message.clone()),
            };
            let mut report = mends(report, problem, id, located.start);
            let settings = record.map_or(workspace.settings(), |own| workspace.settings_of(own));
            let document = &source.document;
            let at = At { file: id, document, located, markets: &settings.markets };
            report = of_fields::told(report, problem, &at);
            if rule.name == merge_conflict::RULE.name {
                report = merge_conflict::settled(report, source.document.text(), place);
            }
            sink.report(report);
        }
    }
    for rule in rules::all() {
        if let Check::File(find) | Check::EntryAndFrame(_, find) = rule.check {
            sink.turn_to(rule);
            find(workspace, id, sink);
        }
    }
}

/// Where a problem of the reader stands.
pub(crate) struct At<'a> {
    pub file: FileId,
    pub document: &'a Document,
    pub located: &'a Located,
    pub markets: &'a [Market],
}

fn mends(report: Report, problem: &Problem, file: FileId, start: u32) -> Report {
    let mut report = report.help(problem.help.clone());
    for mend in &problem.mends {
        let edits = mend.edits.iter().map(|edit| {
            let span = edit.span.shift(start);
            (file, Edit::new(span, edit.text.clone()))
        });
        report = report.fix(mend.title.clone(), mend.safe, edits.collect());
    }
    report
}

/// What is told of a file, in order, of all `findings` in it: one cause once, drafts and
/// waivers heeded.
pub(crate) fn finished(
    workspace: &Workspace,
    file: FileId,
    mut findings: Vec<Finding>,
) -> Vec<Finding> {
    let records = workspace.records_of(file);
    rules::notation::say_once(&mut findings);
    quiet(records, &mut findings);
    waiver::apply(workspace, records, &mut findings);
    cause::say_once(&mut findings);
    sort(&mut findings);
    findings
}

/// A draft may lack what a finished spec may not: it keeps errors of reading and of allergens alone.
fn quiet(records: &[Record], findings: &mut Vec<Finding>) {
    let drafts: Vec<Place> = records
        .iter()
        .filter(|record| record.draft)
        .map(|record| {
            let len = u32::try_from(record.entry.text.len()).unwrap_or(u32::MAX);
            record.place(Span::new(0, len))
        })
        .collect();
    if drafts.is_empty() {
        return;
    }
    findings.retain(|finding| {
        let inside = |draft: &Place| {
            draft.span.start <= finding.place.span.start && finding.place.span.end <= draft.span.end
        };
        !drafts.iter().any(inside) || finding.severity == Severity::Error
    });
}

/// Puts the findings of one file in the order of outputs.
fn sort(findings: &mut [Finding]) {
    findings.sort_by(|a, b| {
        let key = |f: &Finding| (f.place.span.start, f.place.span.end);
        (key(a), a.rule, &a.message).cmp(&(key(b), b.rule, &b.message))
    });
}
