//! The words of an entry that name an entry of the workspace or an ingredient of the reference.

use washline_book::{EntryId, Read, Record, Referent, Workspace};
use washline_reference::plural;
use washline_syntax::Key;
use washline_text::{Span, fold};

use crate::cursor::Cursor;

/// Words that name something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Naming {
    /// The words, relative to the entry.
    pub span: Span,
    /// What they mean; a drink is an entry too.
    pub means: Referent,
    /// Whether they give the name: the heading's, or another name of it.
    pub declares: bool,
}

/// What the words at the cursor name.
pub(crate) fn at(cursor: &Cursor<'_>) -> Option<Naming> {
    let record = cursor.record?;
    let inner = cursor.inner();
    let all = of(cursor.workspace, record);
    all.into_iter().filter(|naming| naming.span.touches(inner)).min_by_key(|n| n.span.len())
}

/// Everything that `record` names, in the order of its lines, steps included.
pub(crate) fn of(workspace: &Workspace, record: &Record) -> Vec<Naming> {
    let mut out = Vec::new();
    let own = Referent::Entry(record.id);
    if !record.entry.name.is_empty() {
        out.push(Naming { span: record.entry.name, means: own, declares: true });
    }
    for (_, span) in record.terms(Key::Also) {
        out.push(Naming { span, means: own, declares: true });
    }
    for field in record.fields(Key::VariantOf) {
        let drinks = workspace.drinks_called(&fold(record.text(field.value_span)), record);
        let used =
            |id| Naming { span: field.value_span, means: Referent::Entry(id), declares: false };
        out.extend(drinks.into_iter().take(1).map(used));
    }
    for read in record.reads.iter().chain(&record.garnishes) {
        of_read(record, read, &mut out);
    }
    for act in &record.method.acts {
        for line in act.mentions.iter().chain(&act.but) {
            let Some(read) = record.reads.get(*line) else { continue };
            let Some(means) = read.referent() else { continue };
            let span = spoken_of(workspace, record, read, means, act.act.object);
            out.extend(span.map(|span| Naming { span, means, declares: false }));
        }
    }
    out.sort_by_key(|naming| (naming.span.start, naming.span.end));
    out.dedup();
    out
}

/// The entry that `naming` names; none for an ingredient of the reference.
pub(crate) const fn entry(naming: &Naming) -> Option<EntryId> {
    match naming.means {
        Referent::Entry(id) => Some(id),
        Referent::Reference(_) => None,
    }
}

fn of_read(record: &Record, read: &Read, out: &mut Vec<Naming>) {
    let first = read.referent();
    if read.or.is_empty() {
        let named = |means| Naming { span: read.name_span, means, declares: false };
        out.extend(first.map(named));
        return;
    }
    let sides = read.or.iter().map(|(name, hits)| (name.as_str(), hits.first().copied()));
    for (name, means) in std::iter::once((read.name.as_str(), first)).chain(sides) {
        let Some(means) = means else { continue };
        let span = run(record.text(read.span), &fold(name)).map(|span| span.shift(read.span.start));
        out.extend(span.map(|span| Naming { span, means, declares: false }));
    }
}

/// Where in `object` the line `read` is spoken of: by all of its name, or by some words of it.
fn spoken_of(
    workspace: &Workspace,
    record: &Record,
    read: &Read,
    means: Referent,
    object: Span,
) -> Option<Span> {
    let text = record.text(object);
    let spellings = [fold(&read.name), fold(workspace.name_of(means))];
    let mut runs: Vec<String> = Vec::new();
    for spelling in &spellings {
        let words: Vec<&str> = spelling.split(' ').collect();
        for length in 1..=words.len() {
            runs.extend(words.windows(length).map(|run| run.join(" ")));
        }
    }
    runs.sort_by_key(|run| std::cmp::Reverse((run.split(' ').count(), run.len())));
    runs.iter().find_map(|words| run(text, words)).map(|span| span.shift(object.start))
}

/// Where the folded words `key` stand in `text`, singular or plural.
pub(crate) fn run(text: &str, key: &str) -> Option<Span> {
    let words = words(text);
    let length = key.split(' ').filter(|word| !word.is_empty()).count();
    if length == 0 {
        return None;
    }
    words.windows(length).find_map(|run| {
        let span = run.first()?.cover(*run.last()?);
        let said = fold(span.text(text));
        let said = said.trim_matches(|c: char| !c.is_alphanumeric());
        (said == key || plural::turned(said).any(|one| one == *key)).then_some(span)
    })
}

/// The words of `text`, punctuation at their ends left out.
fn words(text: &str) -> Vec<Span> {
    let inside = |word: &&str| word.chars().any(char::is_alphanumeric);
    let bare = |word: &str| {
        let outer = Span::of(word, text);
        let tail = word.trim_end_matches([',', ';', ':', '.', ')', ']', '"']);
        let core = tail.trim_start_matches(['(', '[', '"']);
        let start = outer.start + u32::try_from(tail.len() - core.len()).unwrap_or(0);
        Span::new(start, start + u32::try_from(core.len()).unwrap_or(0))
    };
    text.split_whitespace().filter(inside).map(bare).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_in_any_case_singular_or_plural() {
        let text = "add the Honey Syrups, (then) stir";
        assert_eq!(run(text, "honey syrup").map(|span| span.text(text)), Some("Honey Syrups"));
        assert_eq!(run(text, "then").map(|span| span.text(text)), Some("then"));
        assert_eq!(run(text, "honey water"), None);
    }
}
