//! Why an entry has no figures, in a few words.

use washline_book::{Read, Record};
use washline_syntax::LineKind;

/// The first thing that keeps an entry from its figures, and how many more there are.
pub(crate) fn why(record: &Record) -> String {
    let entry = &record.entry;
    let unread = entry.lines.iter().filter(|line| line.what == LineKind::Unread);
    let unread =
        unread.map(|line| format!("`{}` can't be read", clipped(record.text(line.content))));
    let beside = record.reads.iter().flat_map(|read| &read.beside);
    let beside = beside.map(|said| format!("`{}` needs its own line", clipped(record.text(*said))));
    let unknown = record.reads.iter().filter(|read| !read.known() && !read.name.is_empty());
    let unknown = unknown.map(|read| format!("nothing is known as `{}`", clipped(&read.name)));
    let mut causes = unread.chain(beside).chain(unknown);
    let Some(first) = causes.next() else { return of_what_goes_in(record) };
    match causes.count() {
        0 => first,
        more => format!("{first}, and {more} more"),
    }
}

/// All lines are read and known: something that goes in has no figures itself.
fn of_what_goes_in(record: &Record) -> String {
    let opaque = |read: &&Read| read.known() && read.unit_makeup.is_none();
    match record.reads.iter().find(opaque) {
        Some(read) => format!("`{}` has none itself", clipped(&read.name)),
        None => "a line can't be read, or an ingredient is unknown".to_owned(),
    }
}

/// As many letters as are read in passing.
fn clipped(text: &str) -> String {
    const MOST: usize = 32;
    // It is told between such marks.
    let text = text.replace('`', "'");
    if text.chars().count() <= MOST {
        return text;
    }
    let start: String = text.chars().take(MOST).collect();
    format!("{}…", start.trim_end())
}
