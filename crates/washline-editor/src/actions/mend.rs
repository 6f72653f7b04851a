//! The mends that findings carry, one by one or all that are safe.

use washline_book::Workspace;
use washline_rules::Reach;
use washline_text::{Edit, FileId, Finding, Span};

use super::{Action, ActionKind, Deferred, Does};
use crate::Edits;

/// Every fix of the findings here; the first safe one of each is the one to take.
pub(super) fn quick_fixes(here: &[(usize, &Finding)]) -> Vec<Action> {
    let mut out: Vec<Action> = Vec::new();
    for (at, finding) in here {
        for (n, fix) in finding.fixes.iter().enumerate() {
            let mut edits: Edits = fix.edits.clone();
            edits.sort();
            let same = |action: &&mut Action| {
                action.title == fix.title && action.does == Does::Edits(edits.clone())
            };
            if let Some(known) = out.iter_mut().find(same) {
                known.answers.push(*at);
                continue;
            }
            out.push(Action {
                title: fix.title.clone(),
                kind: ActionKind::QuickFix,
                preferred: fix.safe && n == 0,
                answers: vec![*at],
                does: Does::Edits(edits),
            });
        }
    }
    out
}

/// All safe mends of the file, where there is one.
pub(super) fn fix_all(file: FileId, findings: &[Finding]) -> Option<Action> {
    let safe = |finding: &&Finding| {
        finding.place.file == file && !finding.waived && finding.fixes.iter().any(|fix| fix.safe)
    };
    findings.iter().find(safe)?;
    Some(Action {
        title: "mend all that is safe to mend in this file".to_owned(),
        kind: ActionKind::FixAll,
        preferred: false,
        answers: Vec::new(),
        does: Does::Deferred(Deferred::FixAll),
    })
}

/// The edits that mend all that is safe to mend in `file`, round after round.
pub(super) fn all(workspace: &Workspace, file: FileId) -> Option<Edits> {
    let open = |finding: &Finding| finding.place.file == file && !finding.baselined;
    let mended = washline_rules::mend(workspace.clone(), Reach::Safe, &open);
    let mut edits = Edits::new();
    for (at, (old, new)) in workspace.files().iter().zip(mended.workspace.files()).enumerate() {
        let id = FileId(u32::try_from(at).unwrap_or(u32::MAX));
        let edit = difference(old.document.text(), new.document.text());
        edits.extend(edit.map(|edit| (id, edit)));
    }
    (!edits.is_empty()).then_some(edits)
}

/// The one edit from `old` to `new`: what lies between their common ends.
fn difference(old: &str, new: &str) -> Option<Edit> {
    if old == new {
        return None;
    }
    let same = |pair: &(char, char)| pair.0 == pair.1;
    let head: usize =
        old.chars().zip(new.chars()).take_while(same).map(|(c, _)| c.len_utf8()).sum();
    let (before, after) = (old.get(head..)?, new.get(head..)?);
    let pairs = before.chars().rev().zip(after.chars().rev());
    let tail: usize = pairs.take_while(same).map(|(c, _)| c.len_utf8()).sum();
    let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let span = Span::new(narrow(head), narrow(old.len() - tail));
    Some(Edit::new(span, after.get(..after.len() - tail)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;
    use crate::{actions, resolve};

    #[test]
    fn a_difference_is_what_lies_between_the_ends() {
        let edit = difference("22,5 ml", "22.5 ml");
        assert_eq!(edit, Some(Edit::new(Span::new(2, 3), ".")));
        assert_eq!(difference("a", "a"), None);
    }

    #[test]
    fn a_fix_and_all_fixes_mend() {
        let (house, at) = House::at("drink: A\n  22,5| ml gin\n  1,5 oz lemon juice\n");
        let findings = washline_rules::check(&house.workspace);
        let all = actions(&house.workspace, at.file, Span::at(at.offset), &findings);
        let fix = all.iter().find(|action| action.kind == ActionKind::QuickFix && action.preferred);
        let Does::Edits(edits) = &fix.unwrap().does else { panic!("no edits") };
        assert!(house.after(edits)[0].contains("22.5 ml gin\n  1,5 oz"));
        let every = all.iter().find(|action| action.kind == ActionKind::FixAll).unwrap();
        let Does::Deferred(deferred) = every.does else { panic!("not deferred") };
        let edits = resolve(&house.workspace, at.file, &deferred).unwrap();
        assert!(house.after(&edits)[0].contains("22.5 ml gin\n  1.5 oz"));
    }
}
