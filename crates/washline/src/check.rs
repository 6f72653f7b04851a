//! `washline check`: every finding in the books below the paths.

use std::io;

use washline_book::{Workspace, fingerprint};
use washline_files::NotUtf8;
use washline_report::{Outcome, Style, annotations, json, junit, narrated, sarif, short, text};
use washline_rules::Check as Found;
use washline_text::{Entry, FileId, Finding, Place, Severity, Span};

use crate::arguments::{Check, CheckFormat, Color};
use crate::failure::Failures;
use crate::progress::Progress;
use crate::review::Touched;
use crate::rooms::{Room, rooms};
use crate::{FAILED, baseline, colour, fix, output};

/// The rule that bytes break which are no UTF-8.
const NOT_UTF8: &str = "not-utf8";

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(check: &Check, color: Color, failures: &mut Failures) -> u8 {
    if !output::are_apart(&check.output, failures) {
        return FAILED;
    }
    let touched = match &check.changed_since {
        Some(revision) => match Touched::since(revision, failures) {
            Some(touched) => Some(touched),
            None => return FAILED,
        },
        None => None,
    };
    let progress = Progress::default();
    let Some(mut rooms) = rooms(&check.paths, &progress, failures) else { return FAILED };
    let known = baseline::known(check, failures);
    let fixed =
        check.reach().map(|reach| fix::run(check, reach, &mut rooms, known.as_ref(), failures));
    let mut outcome = Outcome::default();
    for room in &rooms {
        outcome.books += room.asked_files();
        outcome.entries += room.records().filter(|record| !room.is_damaged(record.file)).count();
        let mut findings = findings(room);
        if let Some(touched) = &touched {
            findings.retain(|finding| touches(finding, room, touched));
        }
        outcome.add(&room.workspace, room.names.clone(), findings);
    }
    outcome.sort();
    drop(progress);
    baseline::apply(check, known, &rooms, &mut outcome, failures);
    // Text on standard output makes the findings go to the other one.
    let text_out = fixed.as_ref().and_then(|fixed| fixed.out.as_deref());
    if let Some(text) = text_out {
        output::to_stdout(text, failures);
    }
    for wanted in &check.output {
        let to_stderr = wanted.file.is_none() && text_out.is_some();
        if to_stderr && check.diff {
            continue;
        }
        let coloured = match to_stderr {
            true => colour::on(color, &io::stderr()),
            false => colour::on(color, &io::stdout()),
        };
        let style = Style {
            colour: wanted.file.is_none() && coloured,
            waived: check.waived,
            columns: check.columns.columns(),
        };
        let written = match wanted.format {
            CheckFormat::Text => text(&outcome, style),
            CheckFormat::Short => short(&outcome, style),
            CheckFormat::Json => json(&outcome, style.columns),
            CheckFormat::Sarif => sarif(&outcome),
            CheckFormat::Junit => junit(&outcome),
            CheckFormat::Annotations => annotations(&outcome, style),
            CheckFormat::Narrated => narrated(&outcome, style),
        };
        match to_stderr {
            true => output::to_stderr(&written),
            false => output::write(wanted, &written, failures),
        }
    }
    if let Some(fixed) = &fixed {
        output::to_stderr(&fixed.told);
    }
    let least = check.fail_on.severity();
    let reached = least.is_some_and(|least| outcome.tally().reaches(least));
    drop(outcome);
    // The process ends: its memory is given back at once, not piece by piece.
    std::mem::forget(rooms);
    u8::from(reached)
}

/// The findings of a workspace that are asked for.
fn findings(room: &Room) -> Vec<Finding> {
    let mut findings = washline_rules::check(&room.workspace);
    findings.retain_mut(|finding| {
        let damaged = room.is_damaged(finding.place.file);
        !damaged && (room.asks(finding.place.file) || moved_below(finding, room))
    });
    let mut nth = 0;
    for (file, not) in &room.damaged {
        if room.asks(*file) {
            findings.extend(not_utf8(&room.workspace, *file, not, nth));
            nth += 1;
        }
    }
    findings
}

/// Whether a finding, or a second place that it speaks of, lies in what was touched.
fn touches(finding: &Finding, room: &Room, touched: &Touched) -> bool {
    let here = |place: Place, entry: Option<&Entry>| {
        let name = room.names.get(place.file.0 as usize);
        name.is_some_and(|name| touched.holds(name, entry))
    };
    here(finding.place, finding.entry.as_ref())
        || finding.related.iter().any(|related| {
            let entry = entry_at(&room.workspace, related.place);
            entry.is_some_and(|entry| here(related.place, Some(&entry)))
        })
}

/// What is told once for a whole book stands at its first place that is asked for.
fn moved_below(finding: &mut Finding, room: &Room) -> bool {
    let whole = washline_rules::find(finding.rule);
    if !whole.is_some_and(|rule| matches!(rule.check, Found::Book(_))) {
        return false;
    }
    let here = |place: &Place| room.asks(place.file) && !room.is_damaged(place.file);
    let Some(first) = finding.related.iter_mut().find(|related| here(&related.place)) else {
        return false;
    };
    std::mem::swap(&mut finding.place, &mut first.place);
    // Its words spoke of the place that the finding stands at now.
    "where the whole book is told of it".clone_into(&mut first.message);
    finding.entry = entry_at(&room.workspace, finding.place);
    true
}

fn entry_at(workspace: &Workspace, place: Place) -> Option<Entry> {
    let mut records = workspace.records().iter().filter(|record| record.file == place.file);
    let holds = |start: u32, len: usize| {
        Span::new(start, start.saturating_add(u32::try_from(len).unwrap_or(u32::MAX)))
            .touches(place.span.start)
    };
    let record = records.rfind(|record| holds(record.start, record.entry.text.len()))?;
    Some(Entry { kind: record.kind, name: record.name.clone() })
}

/// The one finding of a file that is no UTF-8; none where the house has switched it off.
fn not_utf8(workspace: &Workspace, file: FileId, not: &NotUtf8, nth: u32) -> Option<Finding> {
    let rule = washline_rules::find(NOT_UTF8);
    let name = workspace.file(file).map_or("", |file| &file.name);
    let house = workspace.settings().severity(NOT_UTF8, name);
    // Bytes that nobody could read never pass in silence.
    let own = rule.map_or(Some(Severity::Error), |rule| rule.severity);
    Some(Finding {
        rule: NOT_UTF8,
        severity: house.unwrap_or(own)?,
        place: Place { file, span: Span::at(0) },
        entry: None,
        message: not.message().into_owned(),
        why: rule.map_or("", |rule| rule.why).to_owned(),
        help: "save the file as UTF-8; nothing else in it was checked".to_owned(),
        related: Vec::new(),
        fixes: Vec::new(),
        fingerprint: fingerprint(&[NOT_UTF8, "/", "", ""], nth),
        waived: false,
        baselined: false,
    })
}
