//! `washline format`: books laid out, written whole or not at all.

use std::fmt::Write as _;
use std::path::Path;

use rayon::prelude::*;
use washline_book::{FractionStyle, Layout, SourceFile};
use washline_files::{Written, replace};
use washline_format::{Formatted, Fractions, Options, format_entries};
use washline_text::{Columns, FileId, apply};

use crate::arguments::Format;
use crate::diff::diff;
use crate::failure::{Failure, Failures};
use crate::progress::Progress;
use crate::rooms::{Room, rooms};
use crate::{FAILED, output, pick};

/// Some entry was left as it is, or a file is not laid out.
const FOUND: u8 = 1;

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(command: &Format, failures: &mut Failures) -> u8 {
    let progress = Progress::default();
    let Some(rooms) = rooms(&command.paths, &progress, failures) else { return FAILED };
    let asked: Vec<(&Room, FileId)> = rooms.iter().flat_map(asked).collect();
    if !pick::is_sound(command, &asked, failures) {
        return FAILED;
    }
    // Many files at once; what is told and written keeps their order.
    let laid: Vec<Laid<'_>> =
        asked.into_par_iter().map(|(room, id)| Laid::out(command, room, id)).collect();
    let mut out = String::new();
    let mut status = 0;
    for one in &laid {
        status = status.max(settle(command, one, &mut out, failures));
    }
    output::to_stdout(&out, failures);
    status
}

fn asked(room: &Room) -> impl Iterator<Item = (&Room, FileId)> {
    let all = (0..room.names.len()).map(|n| FileId(u32::try_from(n).unwrap_or(u32::MAX)));
    all.filter(|id| room.asks(*id)).map(move |id| (room, id))
}

/// A file laid out, nothing told or written yet.
struct Laid<'a> {
    room: &'a Room,
    id: FileId,
    name: &'a str,
    file: Option<&'a SourceFile>,
    formatted: Formatted,
    /// The new text; none where the edits do not fit the old one.
    new: Option<String>,
}

impl<'a> Laid<'a> {
    fn out(command: &Format, room: &'a Room, id: FileId) -> Self {
        let name = room.names.get(id.0 as usize).map_or("", String::as_str);
        let file = room.workspace.file(id).filter(|_| !room.is_damaged(id));
        let options = options(&room.workspace.settings().layout);
        let formatted = file.map(|file| {
            format_entries(&file.document, &options, |at| pick::wants(command, file, at))
        });
        let formatted = formatted.unwrap_or_default();
        let new = file.and_then(|file| apply(file.document.text(), &formatted.edits).ok());
        Self { room, id, name, file, formatted, new }
    }
}

fn settle(command: &Format, laid: &Laid<'_>, out: &mut String, failures: &mut Failures) -> u8 {
    let Laid { room, id, name, .. } = laid;
    if let Some((_, not)) = room.damaged.iter().find(|(damaged, _)| damaged == id) {
        failures.tell(&Failure::about(name, not.message()));
        return FAILED;
    }
    let (Some(file), Some(new)) = (laid.file, &laid.new) else {
        failures
            .tell(&Failure::about(name, "the layout does not fit its text: it is left as it is"));
        return FAILED;
    };
    let old: &str = file.document.text();
    left(name, file, &laid.formatted, failures);
    let status = if laid.formatted.left.is_empty() { 0 } else { FOUND };
    if room.typed == Some(*id) && !command.check {
        out.push_str(&if command.diff { diff(name, old, new) } else { new.clone() });
        return status;
    }
    if old == new {
        return status;
    }
    if command.diff {
        out.push_str(&diff(name, old, new));
        return FOUND;
    }
    if command.check {
        let _ = writeln!(out, "{name}: would be laid out anew");
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
