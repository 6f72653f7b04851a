//! A new name for a prep, a bottle or a drink, wherever it is named.

use std::fmt;
use std::sync::Arc;

use washline_book::{EntryId, Record, Referent, Workspace};
use washline_syntax::Key;
use washline_text::{Edit, FileId, Kind, Span, apply, fold};

use crate::Edits;
use crate::cursor::Cursor;
use crate::definition::uses;
use crate::naming::{self, Naming, run};

/// What would be renamed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Renaming {
    /// The words that stand for it at the cursor.
    pub span: Span,
    /// Its name as it is declared.
    pub name: String,
}

/// Why a name cannot be given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RenameRefused {
    /// The cursor is on nothing that the workspace names.
    Nothing,
    /// The name is empty.
    Empty,
    /// The name holds a line end or a control character.
    Control,
    /// An entry goes by it already.
    Taken(String),
    /// Some place would not read it back as the name of the same thing.
    Misread(String),
}

impl fmt::Display for RenameRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => f.write_str("there is no name of this workspace's own here"),
            Self::Empty => f.write_str("a name must not be empty"),
            Self::Control => f.write_str("a name stands on one line, without control characters"),
            Self::Taken(name) => write!(f, "`{name}` is the name of another entry"),
            Self::Misread(name) => {
                write!(f, "`{name}` would not be read back as this name on every line that has it")
            }
        }
    }
}

impl std::error::Error for RenameRefused {}

/// What a rename at `offset` would rename; none where no name of the workspace's own stands.
#[must_use]
pub fn prepare_rename(workspace: &Workspace, file: FileId, offset: u32) -> Option<Renaming> {
    let (cursor, naming, record) = named(workspace, file, offset)?;
    let within = cursor.record?;
    let name = name_used(record, within.text(naming.span))?;
    let span = part(within, &naming, &fold(&name)).unwrap_or(naming.span);
    Some(Renaming { span: cursor.span(span), name })
}

/// Gives what stands at `offset` the name `new`, in its declaration and wherever that name is
/// used: lines, garnishes, steps, `variant-of:`. An entry's other names stay as they are.
///
/// # Errors
/// [`RenameRefused`] where the name is taken, or some place would not read it back.
pub fn rename(
    workspace: &Workspace,
    file: FileId,
    offset: u32,
    new: &str,
) -> Result<Edits, RenameRefused> {
    let new = new.trim();
    let (cursor, naming, record) = named(workspace, file, offset).ok_or(RenameRefused::Nothing)?;
    let within = cursor.record.ok_or(RenameRefused::Nothing)?;
    let old = name_used(record, within.text(naming.span)).ok_or(RenameRefused::Nothing)?;
    if new.is_empty() || fold(new).is_empty() {
        return Err(RenameRefused::Empty);
    }
    if new.chars().any(char::is_control) {
        return Err(RenameRefused::Control);
    }
    if fold(new) != fold(&old) && taken(workspace, record, new) {
        return Err(RenameRefused::Taken(new.to_owned()));
    }
    let edits = edits(workspace, record, &old, new);
    if reads_back(workspace, record.id, new, &edits) {
        Ok(edits)
    } else {
        Err(RenameRefused::Misread(new.to_owned()))
    }
}

fn named(
    workspace: &Workspace,
    file: FileId,
    offset: u32,
) -> Option<(Cursor<'_>, Naming, &Record)> {
    let cursor = Cursor::at(workspace, file, offset)?;
    let naming = naming::at(&cursor)?;
    let record = workspace.record(naming::entry(&naming)?)?;
    Some((cursor, naming, record))
}

/// The names that an entry declares: its heading's first.
fn names(record: &Record) -> impl Iterator<Item = &str> {
    std::iter::once(&*record.name).chain(record.terms(Key::Also).map(|(name, _)| name))
}

/// Which of the names of `record` the words `said` use; its heading's where they use none
/// whole.
fn name_used(record: &Record, said: &str) -> Option<String> {
    let whole = names(record).find(|name| fold(name) == fold(said));
    let inside = || names(record).find(|name| run(said, &fold(name)).is_some());
    let name = whole.or_else(inside).unwrap_or(&record.name);
    (!name.is_empty()).then(|| name.to_owned())
}

/// Whether another entry that can be meant in its place goes by `new`.
fn taken(workspace: &Workspace, record: &Record, new: &str) -> bool {
    let key = fold(new);
    let others = if record.kind == Kind::Drink {
        workspace.drinks_called(&key, record)
    } else {
        workspace.entries_called(&key, record).map(|(ids, _)| ids).unwrap_or_default()
    };
    !others.is_empty()
}

fn edits(workspace: &Workspace, target: &Record, old: &str, new: &str) -> Edits {
    let key = fold(old);
    let mut out: Edits = Vec::new();
    for record in workspace.records() {
        for naming in uses(workspace, record, Referent::Entry(target.id)) {
            let span = match part(record, &naming, &key) {
                Some(span) => span,
                // Words that stand for the heading's name in short go with it.
                None if !naming.declares && key == *target.key => {
                    let said = record.text(naming.span);
                    if names(target).skip(1).any(|name| run(said, &fold(name)).is_some()) {
                        continue;
                    }
                    naming.span
                }
                None => continue,
            };
            let edit = Edit::new(record.place(span).span, new);
            // Words that two acts share are one edit.
            let overlaps = |(file, other): &(FileId, Edit)| {
                *file == record.file && other.span.overlaps(edit.span)
            };
            if !out.iter().rev().take(8).any(overlaps) {
                out.push((record.file, edit));
            }
        }
    }
    out.sort();
    out
}

/// The part of the words of `naming` that is the name `key`.
fn part(record: &Record, naming: &Naming, key: &str) -> Option<Span> {
    let said = record.text(naming.span);
    if fold(said) == key {
        return Some(naming.span);
    }
    if naming.declares {
        return None;
    }
    run(said, key).map(|span| span.shift(naming.span.start))
}

/// Whether every line of the workspace means after `edits` what it meant before.
fn reads_back(workspace: &Workspace, target: EntryId, new: &str, edits: &Edits) -> bool {
    let mut after = workspace.clone();
    let mut rest = edits.as_slice();
    while let Some((file, _)) = rest.first() {
        let here = rest.iter().take_while(|(id, _)| id == file).count();
        let (own, others) = rest.split_at(here);
        let own: Vec<Edit> = own.iter().map(|(_, edit)| edit.clone()).collect();
        let text = workspace.file(*file).map_or("", |file| file.document.text());
        let Ok(text) = apply(text, &own) else { return false };
        after = after.edit(*file, Arc::from(text));
        rest = others;
    }
    let declared = after
        .record(target)
        .is_some_and(|record| names(record).any(|name| fold(name) == fold(new)));
    let (old, now) = (workspace.records(), after.records());
    let same = |(a, b): (&Record, &Record)| meant(workspace, a) == meant(&after, b);
    declared && old.len() == now.len() && old.iter().zip(now).all(same)
}

/// What the lines, steps and fields of an entry refer to, and whether all can be read.
#[derive(PartialEq)]
struct Meant {
    kind: Kind,
    problems: usize,
    reads: Vec<Vec<Referent>>,
    mentions: Vec<(Vec<usize>, Vec<usize>)>,
    varies: Vec<EntryId>,
}

fn meant(workspace: &Workspace, record: &Record) -> Meant {
    let reads = record.reads.iter().chain(&record.garnishes);
    let acts = record.method.acts.iter();
    let varied = record.fields(Key::VariantOf);
    Meant {
        kind: record.kind,
        problems: record.entry.problems.len(),
        reads: reads.map(|read| read.referents().collect()).collect(),
        mentions: acts.map(|act| (act.mentions.clone(), act.but.clone())).collect(),
        varies: varied
            .flat_map(|field| workspace.drinks_called(&fold(record.text(field.value_span)), record))
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    const DRINK: &str = "drink: A\n  60 ml gin\n  15 ml honey syrup\n  - shake with ice, strain\n  - add the Honey Syrup\n";
    const PREP: &str = "prep: Honey |Syrup\n  600 g honey\n  300 g water\n";

    fn renamed(files: &[&str], new: &str) -> Result<Vec<String>, RenameRefused> {
        let (house, at) = House::of(files);
        let edits = rename(&house.workspace, at.file, at.offset, new)?;
        let after = house.after(&edits);
        // What was poured is poured still.
        let texts: Vec<&str> = after.iter().map(String::as_str).collect();
        let (again, _) = House::of(&texts);
        let figures = |house: &House| {
            house.workspace.records().iter().map(|r| r.figures.clone()).collect::<Vec<_>>()
        };
        assert_eq!(figures(&house), figures(&again));
        let rules = |house: &House| {
            let found = washline_rules::check(&house.workspace).into_iter();
            found.map(|finding| finding.rule).collect::<Vec<_>>()
        };
        assert_eq!(rules(&house), rules(&again));
        Ok(after)
    }

    #[test]
    fn a_prep_takes_its_name_along_to_lines_and_steps() {
        let after = renamed(&[DRINK, PREP], "Heather Syrup").unwrap();
        assert_eq!(
            after[0],
            "drink: A\n  60 ml gin\n  15 ml Heather Syrup\n  - shake with ice, strain\n  - add the Heather Syrup\n"
        );
        assert!(after[1].starts_with("prep: Heather Syrup\n"));
    }

    #[test]
    fn another_name_is_renamed_by_itself() {
        let drink = "drink: A\n  15 ml honey |mix\n  15 ml honey syrup\n";
        let prep = "prep: Honey Syrup\n  also: honey mix\n  600 g honey\n";
        let after = renamed(&[drink, prep], "gold mix").unwrap();
        assert_eq!(after[0], "drink: A\n  15 ml gold mix\n  15 ml honey syrup\n");
        assert_eq!(after[1], "prep: Honey Syrup\n  also: gold mix\n  600 g honey\n");
    }

    #[test]
    fn a_drink_takes_its_variants_along() {
        let after = renamed(
            &["drink: Low| Tide\n  60 ml gin\n\ndrink: B\n  variant-of: Low Tide\n  60 ml gin\n"],
            "Ebb",
        )
        .unwrap();
        assert!(after[0].contains("drink: Ebb\n") && after[0].contains("variant-of: Ebb\n"));
    }

    #[test]
    fn a_taken_name_is_refused() {
        let other = "stock: Heather Syrup\n  kind: honey\n";
        let refused = renamed(&[DRINK, PREP, other], "heather syrup");
        assert_eq!(refused, Err(RenameRefused::Taken("heather syrup".to_owned())));
    }

    #[test]
    fn a_name_that_is_not_read_back_is_refused() {
        for new in ["60 ml", "syrup, gin", "honey # best"] {
            let refused = renamed(&[DRINK, PREP], new);
            assert!(matches!(refused, Err(RenameRefused::Misread(_))), "{new}: {refused:?}");
        }
        assert_eq!(renamed(&[DRINK, PREP], " "), Err(RenameRefused::Empty));
    }

    #[test]
    fn what_only_the_reference_knows_is_not_renamed() {
        let (house, at) = House::at("drink: A\n  60 ml g|in\n");
        assert_eq!(prepare_rename(&house.workspace, at.file, at.offset), None);
        let refused = rename(&house.workspace, at.file, at.offset, "x");
        assert_eq!(refused, Err(RenameRefused::Nothing));
    }
}
