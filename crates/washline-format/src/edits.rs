//! The layout of a document as small edits.

use washline_syntax::{Document, EntryKind, Located};
use washline_text::{Edit, Span, line_end};

use crate::Options;
use crate::entry::{self, Ending};

/// What laying out a document came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Formatted {
    /// The edits, sorted and apart; empty where the layout is right.
    pub edits: Vec<Edit>,
    /// Entries that stay as they are because they cannot be read, by their place among the
    /// document's entries.
    pub left: Vec<usize>,
}

/// Lays out the whole document.
#[must_use]
pub fn format(document: &Document, options: &Options) -> Formatted {
    format_entries(document, options, |_| true)
}

/// Lays out the entries that `wanted` picks, by their place among the document's entries.
#[must_use]
pub fn format_entries(
    document: &Document,
    options: &Options,
    wanted: impl Fn(usize) -> bool,
) -> Formatted {
    let new_line = line_end(document.text());
    let mut out = Formatted::default();
    let entries = document.entries();
    for (at, located) in entries.iter().enumerate().filter(|(at, _)| wanted(*at)) {
        let next = entries.get(at + 1);
        match entry::format(&located.entry, options, ending(located, next), new_line) {
            Some(text) => differences(&located.entry.text, &text, located.start, &mut out.edits),
            None => out.left.push(at),
        }
    }
    out
}

fn ending(located: &Located, next: Option<&Located>) -> Ending {
    let Some(next) = next else { return Ending::File };
    let bare = located.entry.fields().next().is_none();
    match (located.entry.kind, next.entry.kind) {
        (EntryKind::Book, EntryKind::Section) if bare => Ending::AsWritten,
        (EntryKind::Lead, _) => Ending::AsWritten,
        _ => Ending::Apart,
    }
}

/// The edits from `old` to `new`, line by line where their lines pair up, else one for what
/// lies between their common ends.
fn differences(old: &str, new: &str, start: u32, edits: &mut Vec<Edit>) {
    if old == new {
        return;
    }
    let (before, after): (Vec<&str>, Vec<&str>) = (lines(old), lines(new));
    let same = before.iter().zip(&after).take_while(|(a, b)| a == b).count();
    let rest = before.len().min(after.len()) - same;
    let tail =
        before.iter().rev().zip(after.iter().rev()).take(rest).take_while(|(a, b)| a == b).count();
    let offset: usize = before.iter().take(same).map(|line| line.len()).sum();
    let old_lines = before.get(same..before.len() - tail).unwrap_or_default();
    let new_lines = after.get(same..after.len() - tail).unwrap_or_default();
    let mut at = start + narrow(offset);
    if old_lines.len() != new_lines.len() {
        let len: usize = old_lines.iter().map(|line| line.len()).sum();
        edits.push(Edit::new(Span::new(at, at + narrow(len)), new_lines.concat()));
        return;
    }
    for (old, new) in old_lines.iter().zip(new_lines) {
        if old != new {
            edits.push(Edit::new(Span::new(at, at + narrow(old.len())), *new));
        }
        at += narrow(old.len());
    }
}

/// The lines of `text` with their ends.
fn lines(text: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut from = 0;
    let bytes = text.as_bytes();
    for (at, byte) in bytes.iter().enumerate() {
        let ends = *byte == b'\n' || *byte == b'\r' && bytes.get(at + 1) != Some(&b'\n');
        if ends {
            out.extend(text.get(from..=at));
            from = at + 1;
        }
    }
    out.extend(text.get(from..).filter(|rest| !rest.is_empty()));
    out
}

fn narrow(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
