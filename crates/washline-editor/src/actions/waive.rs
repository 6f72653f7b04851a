//! Letting an entry off a rule: the reason is left for a person to write.

use washline_book::{Record, Workspace};
use washline_syntax::LineKind;
use washline_text::{Edit, FileId, Finding, Span};

use super::{Action, ActionKind, Does};
use crate::cursor::{entry_at, record_at};

/// For each rule that finds something here, a waiver of its entry.
pub(super) fn actions(workspace: &Workspace, here: &[(usize, &Finding)]) -> Vec<Action> {
    let mut out: Vec<Action> = Vec::new();
    for (at, finding) in here {
        if !washline_rules::is_waivable(finding.rule) || finding.entry.is_none() {
            continue;
        }
        let title = format!("waive {} here, because …", finding.rule);
        if let Some(known) = out.iter_mut().find(|action| action.title == title) {
            known.answers.push(*at);
            continue;
        }
        let Some(edit) = edit(workspace, finding) else { continue };
        out.push(Action {
            title,
            kind: ActionKind::QuickFix,
            preferred: false,
            answers: vec![*at],
            does: Does::Edits(vec![edit]),
        });
    }
    out
}

fn edit(workspace: &Workspace, finding: &Finding) -> Option<(FileId, Edit)> {
    let file = finding.place.file;
    let located = entry_at(workspace.file(file)?, finding.place.span.start)?;
    let record = record_at(workspace, file, located)?;
    Some((file, field_line(record, &format!("waive: {} because ", finding.rule))))
}

/// A line of its own below the entry's last field, else below its heading.
pub(super) fn field_line(record: &Record, text: &str) -> Edit {
    let entry = &record.entry;
    let field = |line: &&washline_syntax::Line| matches!(line.what, LineKind::Field(_));
    let above = entry.lines.iter().take_while(|line| !matches!(line.what, LineKind::Ingredient(_)));
    let last = above.filter(field).last();
    let line = last.or_else(|| entry.lines.first());
    let (end, indent) = line.map_or((0, "  "), |line| {
        let blanks = Span::new(line.span.start, line.content.start).text(&entry.text);
        (line.span.end, if last.is_some() { blanks } else { "  " })
    });
    let new_line = washline_text::line_end(&entry.text);
    Edit::insert(record.start + end, format!("{new_line}{indent}{text}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::actions;
    use crate::harness::House;

    #[test]
    fn a_waiver_leaves_its_reason_to_a_person() {
        let (house, at) = House::at("drink: A\n  family: sour\n  22,5| ml gin\n");
        let findings = washline_rules::check(&house.workspace);
        let all = actions(&house.workspace, at.file, Span::at(at.offset), &findings);
        let waive = all.iter().find(|a| a.title == "waive decimal-comma here, because …").unwrap();
        let Does::Edits(edits) = &waive.does else { panic!("no edits") };
        let after = house.after(edits);
        assert!(after[0].contains("family: sour\n  waive: decimal-comma because \n  22,5"));
    }
}
