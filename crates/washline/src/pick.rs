//! Which entries are laid out: all of them, those of a name, or those on some lines.

use std::str::FromStr;

use washline_book::SourceFile;
use washline_text::{FileId, fold};

use crate::arguments::Format;
use crate::failure::{Failure, Failures};
use crate::rooms::Room;

/// Lines of a file, counted from 1, the last among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Lines {
    first: u32,
    last: u32,
}

impl FromStr for Lines {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (first, last) = text.split_once('-').unwrap_or((text, text));
        let number = |word: &str| word.trim().parse::<u32>().ok().filter(|line| *line > 0);
        match (number(first), number(last)) {
            (Some(first), Some(last)) if first <= last => Ok(Self { first, last }),
            _ => Err("write a line, or the first and the last as 12-20; lines count from 1".into()),
        }
    }
}

/// Whether the entry at a place among those of `file` is to be laid out.
pub(crate) fn wants(command: &Format, file: &SourceFile, at: usize) -> bool {
    let Some(located) = file.document.entries().get(at) else { return false };
    let named = command
        .entry
        .as_ref()
        .is_none_or(|name| fold(located.entry.name.text(&located.entry.text)) == fold(name));
    let within = command.lines.is_none_or(|lines| {
        let len = u32::try_from(located.entry.text.trim_end().len()).unwrap_or(u32::MAX);
        let first = file.index.line_of(located.start).saturating_add(1);
        let last = file.index.line_of(located.start.saturating_add(len)).saturating_add(1);
        first <= lines.last && lines.first <= last
    });
    named && within
}

/// Whether what is to be picked is there at all; tells what is not.
pub(crate) fn is_sound(
    command: &Format,
    asked: &[(&Room, FileId)],
    failures: &mut Failures,
) -> bool {
    if command.lines.is_some() && asked.len() > 1 {
        let failure = Failure::new("--lines speaks of one file, and there are several");
        failures.tell(&failure.help("name the file: washline format --lines 12-20 list.pour"));
        return false;
    }
    let Some(name) = &command.entry else { return true };
    let there = asked
        .iter()
        .filter_map(|(room, id)| room.workspace.file(*id))
        .any(|file| (0..file.document.entries().len()).any(|at| wants(command, file, at)));
    if !there {
        let failure = Failure::new(format!("no entry below the paths is called `{name}`"));
        failures
            .tell(&failure.help("write its name as its heading has it; capitals do not matter"));
    }
    there
}

#[cfg(test)]
mod tests {
    use super::Lines;

    #[test]
    fn lines_are_one_or_a_range() {
        assert_eq!("12-20".parse(), Ok(Lines { first: 12, last: 20 }));
        assert_eq!("7".parse(), Ok(Lines { first: 7, last: 7 }));
        assert!("0".parse::<Lines>().is_err() && "9-3".parse::<Lines>().is_err());
        assert!("a-b".parse::<Lines>().is_err());
    }
}
