//! `washline check --fix`: fixes applied, files written whole or not at all.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

use washline_files::{Change, replace_all};
use washline_report::baseline::Baseline;
use washline_report::escape;
use washline_rules::{Mend, Mended, Reach, Refused, mend};
use washline_text::{FileId, Finding};

use crate::arguments::Check;
use crate::diff::diff;
use crate::failure::{Failure, Failures};
use crate::rooms::Room;

/// What fixing has to say.
#[derive(Debug, Default)]
pub(crate) struct Fixed {
    /// What goes to standard output in place of the findings: the text that came in by standard
    /// input, mended, or what would change.
    pub out: Option<String>,
    /// What was mended, for people.
    pub told: String,
}

/// Mends the books of `rooms` that are asked for. With `--diff` they stay as they are.
pub(crate) fn run(
    check: &Check,
    reach: Reach,
    rooms: &mut [Room],
    known: Option<&Baseline>,
    failures: &mut Failures,
) -> Fixed {
    let mut fixed = Fixed { out: check.diff.then(String::new), told: String::new() };
    let (mut count, mut files) = (0, 0);
    for room in rooms {
        let mended = mend(room.workspace.clone(), reach, &|finding| may(room, known, finding));
        tell(room, &mended, check.diff, &mut fixed.told);
        let changed = changed(room, &mended);
        count += mended.done.len();
        files += changed.len();
        if let Some(out) = fixed.out.as_mut().filter(|_| check.diff) {
            for file in &changed {
                let (old, new) = texts(room, &mended, *file);
                out.push_str(&diff(name(room, *file), old, new));
            }
            continue;
        }
        if let Some(typed) = room.typed {
            if let Some((_, not)) = room.damaged.iter().find(|(damaged, _)| *damaged == typed) {
                failures.tell(&Failure::about(name(room, typed), not.message()));
                continue;
            }
            fixed.out = Some(texts(room, &mended, typed).1.to_owned());
        }
        if write(room, &mended, &changed, failures) {
            room.workspace = mended.workspace;
        }
    }
    let _ = match (count, check.diff) {
        (0, _) => writeln!(fixed.told, "nothing to fix"),
        (n, true) => writeln!(fixed.told, "{} would be fixed in {}", findings(n), books(files)),
        (n, false) => writeln!(fixed.told, "{} fixed in {}", findings(n), books(files)),
    };
    fixed
}

/// Whether a finding is there to be mended: what is known from the baseline, or was not asked
/// for, is left alone, and no fix reaches into a file that can't be written.
fn may(room: &Room, known: Option<&Baseline>, finding: &Finding) -> bool {
    let asked = room.asks(finding.place.file) && !room.is_damaged(finding.place.file);
    let lone = room.typed.is_none_or(|typed| {
        let mut edits = finding.fixes.iter().flat_map(|fix| &fix.edits);
        edits.all(|(file, _)| *file == typed)
    });
    asked && lone && !known.is_some_and(|known| known.knows(finding))
}

fn changed(room: &Room, mended: &Mended) -> Vec<FileId> {
    let all = (0..room.names.len()).map(|n| FileId(u32::try_from(n).unwrap_or(u32::MAX)));
    all.filter(|file| {
        let (old, new) = texts(room, mended, *file);
        old != new
    })
    .collect()
}

/// A file's text before and after.
fn texts<'a>(room: &'a Room, mended: &'a Mended, file: FileId) -> (&'a str, &'a str) {
    let text = |workspace: &'a washline_book::Workspace| {
        workspace.file(file).map_or("", |file| file.document.text())
    };
    (text(&room.workspace), text(&mended.workspace))
}

/// Writes the changed files; false where that failed, and they are as they were.
fn write(room: &Room, mended: &Mended, changed: &[FileId], failures: &mut Failures) -> bool {
    let on_disk = changed.iter().filter(|file| room.typed != Some(**file));
    let changes: Vec<Change<'_>> = on_disk
        .map(|file| {
            let (old, new) = texts(room, mended, *file);
            Change { path: Path::new(name(room, *file)), old: old.as_bytes(), new: new.as_bytes() }
        })
        .collect();
    let Err((path, error)) = replace_all(&changes) else { return true };
    let failure = Failure::about(&path.to_string_lossy(), error);
    failures.tell(&failure.help("nothing was written; mend what is in the way and run it again"));
    false
}

/// A line for each fix, and for each that was held back.
fn tell(room: &Room, mended: &Mended, would: bool, told: &mut String) {
    for mend in &mended.done {
        let doing = if would { "would fix" } else { "fixed" };
        let _ = writeln!(told, "{doing} {}", line(room, mend));
    }
    let mut seen = BTreeSet::new();
    for Refused { mend, brings } in &mended.refused {
        if seen.insert(mend) {
            let _ = writeln!(told, "not fixed {}: it would bring {brings}", line(room, mend));
        }
    }
    if mended.choices > 0 {
        let _ = writeln!(
            told,
            "left to you: {} of two versions of one card, where you choose",
            findings(mended.choices)
        );
    }
    if mended.stopped {
        let _ = writeln!(told, "some fixes are left: run it again");
    }
}

fn line(room: &Room, mend: &Mend) -> String {
    let file = name(room, mend.file);
    let entry = mend.entry.as_ref().map(|entry| format!("{}: ", entry.name)).unwrap_or_default();
    let line = format!("{file}: {entry}{} [{}]", mend.title, mend.rule);
    escape::on_one_line(&line).into_owned()
}

fn name(room: &Room, file: FileId) -> &str {
    room.names.get(file.0 as usize).map_or("", String::as_str)
}

fn findings(count: usize) -> String {
    if count == 1 { "1 finding".to_owned() } else { format!("{count} findings") }
}

fn books(count: usize) -> String {
    if count == 1 { "1 file".to_owned() } else { format!("{count} files") }
}
