//! `washline format`: books laid out, written whole or not at all.

use std::fmt::Write as _;
use std::path::Path;

use washline_book::{FractionStyle, Layout, SourceFile};
use washline_files::{Written, replace};
use washline_format::{Formatted, Fractions, Options, format};
use washline_text::{Columns, FileId, apply};

use crate::arguments::Format;
use crate::diff::diff;
use crate::failure::{Failure, Failures};
use crate::progress::Progress;
use crate::rooms::{Room, rooms};
use crate::{FAILED, output};

/// Some entry was left as it is, or a file is not laid out.
const FOUND: u8 = 1;

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(command: &Format, failures: &mut Failures) -> u8 {
    let progress = Progress::default();
    let Some(rooms) = rooms(&command.paths, &progress, failures) else { return FAILED };
    let mut out = String::new();
    let mut status = 0;
    for room in &rooms {
        for file in 0..room.names.len() {
            let id = FileId(u32::try_from(file).unwrap_or(u32::MAX));
            if room.asks(id) {
                status = status.max(one(command, room, id, &mut out, failures));
            }
        }
    }
    output::to_stdout(&out, failures);
    status
}

fn one(command: &Format, room: &Room, id: FileId, out: &mut String, failures: &mut Failures) -> u8 {
    let name = room.names.get(id.0 as usize).map_or("", String::as_str);
    if let Some((_, not)) = room.damaged.iter().find(|(damaged, _)| *damaged == id) {
        failures.tell(&Failure::about(name, not.message()));
        return FAILED;
    }
    let Some(file) = room.workspace.file(id) else { return 0 };
    let formatted = format(&file.document, &options(&room.workspace.settings().layout));
    let old: &str = file.document.text();
    let new = match apply(old, &formatted.edits) {
        Ok(new) => new,
        Err(error) => {
            failures.tell(&Failure::about(name, format!("the layout can't be applied: {error:?}")));
            return FAILED;
        }
    };
    left(name, file, &formatted, failures);
    let status = if formatted.left.is_empty() { 0 } else { FOUND };
    if room.typed == Some(id) {
        if command.check {
            return if old == new { status } else { FOUND };
        }
        out.push_str(&if command.diff { diff(name, old, &new) } else { new });
        return status;
    }
    if old == new {
        return status;
    }
    if command.diff {
        out.push_str(&diff(name, old, &new));
    }
    if command.check || command.diff {
        if !command.diff {
            let _ = writeln!(out, "{name}: would be laid out anew");
        }
        return FOUND;
    }
    match replace(Path::new(name), old.as_bytes(), new.as_bytes()) {
        Ok(Written::Changed) => {
            let _ = writeln!(out, "{name}: laid out");
        }
        Ok(Written::Unchanged) => {}
        Err(error) => failures.tell(&Failure::about(name, error)),
    }
    status
}

/// Tells the entries that stay as they are.
fn left(name: &str, file: &SourceFile, formatted: &Formatted, failures: &mut Failures) {
    for at in &formatted.left {
        let Some(located) = file.document.entries().get(*at) else { continue };
        let position = file.index.position(file.document.text(), located.start, Columns::Scalars);
        let entry = located.entry.name_text();
        let problem = located.entry.problems.iter().find(|problem| problem.unformattable());
        let (why, help) = match problem {
            Some(problem) => (&*problem.message, "`washline check` says where, and what to write"),
            None => ("laid out, it would say something else", "lay it out by hand"),
        };
        let message = format!(
            "{name}:{}: {} stays as it is: {why}",
            position.line + 1,
            if entry.is_empty() { "an entry" } else { entry }
        );
        failures.tell(&Failure::warning(message).help(help));
    }
}

fn options(layout: &Layout) -> Options {
    let usual = Options::default();
    Options {
        fractions: match layout.fractions {
            Some(FractionStyle::Decimal) => Fractions::Decimal,
            Some(FractionStyle::Fraction) => Fractions::Fraction,
            None => Fractions::AsWritten,
        },
        indent: layout.indent.map_or(usual.indent, |indent| indent as usize),
        align: layout.align.unwrap_or(usual.align),
    }
}
