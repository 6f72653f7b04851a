//! Where on a line the cursor stands, told from the words before it alone.

use washline_book::{Record, Workspace};
use washline_syntax::{Amount, Document, EntryKind, Ingredient, Key, LineKind};
use washline_text::FileId;

use super::{fields, step};
use crate::cursor::{Cursor, clamp};

/// A place in a file, as what is written there sees it.
pub(super) struct Place<'a> {
    /// All files.
    pub workspace: &'a Workspace,
    /// The file.
    pub file: FileId,
    /// The byte of the file.
    pub offset: u32,
    /// What stands around it; none in an empty file.
    pub cursor: Option<Cursor<'a>>,
    /// The line up to the cursor, without the blank it begins with.
    pub before: &'a str,
    /// The line from the cursor on.
    pub after: &'a str,
}

/// What the place has room for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Site<'a> {
    /// The first word of a line: a heading, a key, an amount word.
    Opening,
    /// The name of an entry.
    Title(EntryKind),
    /// The value of a field, of which this was said before.
    Value(Key, &'a str),
    /// A unit.
    Unit,
    /// A unit or, where a bare number counts, a name.
    UnitOrName,
    /// The name of an ingredient.
    Name,
    /// What is said of an ingredient behind a comma.
    Qualifier,
    /// The verb of an act.
    Act,
    /// What an act is done to.
    Object,
    /// What an act is done with: ice, or what stands on a line.
    With,
    /// The ice of an act.
    WithIce,
    /// The glass of an act.
    Glass,
    /// The small words that an act goes on with.
    Onward,
    /// A unit of time.
    Time,
    /// A unit of temperature.
    Degrees,
    /// Words of one's own.
    Prose,
}

impl<'a> Place<'a> {
    /// The place at `offset` of `file`; none where there is no such file.
    pub(super) fn at(workspace: &'a Workspace, file: FileId, offset: u32) -> Option<Self> {
        let text = workspace.file(file)?.document.text();
        let offset = clamp(text, offset);
        let (before, after) = text.split_at_checked(offset as usize)?;
        let before = before.rsplit(['\n', '\r']).next().unwrap_or_default().trim_start();
        let after = after.split(['\n', '\r']).next().unwrap_or_default();
        let cursor = Cursor::at(workspace, file, offset);
        Some(Self { workspace, file, offset, cursor, before, after })
    }

    /// The record of the entry around.
    pub(super) fn record(&self) -> Option<&'a Record> {
        self.cursor.as_ref()?.record
    }

    /// What the word under the cursor goes on with.
    pub(super) fn rest_of_word(&self) -> &'a str {
        let of_word = |c: char| c.is_alphanumeric() || c == '-';
        let end = self.after.find(|c| !of_word(c)).unwrap_or(self.after.len());
        self.after.get(..end).unwrap_or_default()
    }

    /// Whether the number that stands before what was typed is above one.
    pub(super) fn above_one(&self, typed: &str) -> bool {
        let before = self.before.strip_suffix(typed).unwrap_or_default().trim_end();
        let number = before.rsplit(|c: char| c.is_whitespace() || c == '(').next();
        let number = number.unwrap_or_default();
        let parts = [" ", "-", "–"].iter().filter(|gap| before.contains(**gap)).count();
        match number.parse::<f64>() {
            Ok(number) => number > 1.0,
            Err(_) => parts > 0 || number.chars().skip(1).any(|c| "½⅓⅔¼¾".contains(c)),
        }
    }

    /// What there is room for, and the words typed of it so far; none in a comment.
    pub(super) fn site(&self) -> Option<(Site<'a>, &'a str)> {
        if self.in_comment() {
            return None;
        }
        let before = self.before;
        if let Some((key, said)) = before.split_once(':') {
            if let Some(kind) = heading(key) {
                return Some((Site::Title(kind), said.trim_start()));
            }
            if let Some(key) = Key::from_word(key.trim()) {
                return Some(value(key, said.trim_start()));
            }
        }
        if let Some(step) = before.strip_prefix("- ") {
            return Some(step::site(self.record(), step));
        }
        if !before.contains(char::is_whitespace)
            && before.chars().all(|c| c.is_alphabetic() || c == '-')
        {
            return Some((Site::Opening, before));
        }
        on_line(before).or_else(|| joint(before)).or_else(|| words_alone(before))
    }

    fn in_comment(&self) -> bool {
        let inside = |cursor: &Cursor<'_>| {
            let comment = cursor.line.and_then(|(_, line)| line.comment);
            comment.is_some_and(|comment| comment.start < cursor.inner())
        };
        self.before.starts_with('#') || self.cursor.as_ref().is_some_and(inside)
    }
}

fn heading(word: &str) -> Option<EntryKind> {
    let word = word.trim();
    super::opening::HEADINGS
        .iter()
        .find(|heading| heading.word.eq_ignore_ascii_case(word))
        .map(|heading| heading.kind)
}

/// Where the value is a list, only its last term is being typed.
fn value(key: Key, said: &str) -> (Site<'_>, &str) {
    if let Some(letters) = behind_a_number(said) {
        let number = said.strip_suffix(letters).unwrap_or_default();
        match key {
            Key::Keeps => return (Site::Time, letters),
            _ if is_measured(key) => return (Site::Unit, letters),
            _ if fields::units(key).is_some() => return (Site::Value(key, number), letters),
            _ => {}
        }
    }
    let listed = match key {
        Key::Note | Key::Kind | Key::VariantOf | Key::Menu | Key::Credit | Key::Store => None,
        Key::Garnish => said.rfind(';'),
        Key::Waive | Key::Keeps => said.rfind(|c: char| c.is_whitespace() || c == ','),
        _ => said.rfind([',', ';']),
    };
    let (done, typed) =
        listed.map_or(("", said), |at| said.split_at_checked(at + 1).unwrap_or(("", said)));
    (Site::Value(key, done), typed.trim_start())
}

const fn is_measured(key: Key) -> bool {
    matches!(
        key,
        Key::Yields
            | Key::Portion
            | Key::Part
            | Key::Total
            | Key::Pack
            | Key::Dash
            | Key::Glass
            | Key::Vessel
    )
}

/// The letters behind the number that `text` ends with: `70 m` has `m`, `70 ` has none yet.
pub(super) fn behind_a_number(text: &str) -> Option<&str> {
    let bare = text.trim_end_matches(char::is_alphabetic);
    let digit = |c: char| c.is_numeric();
    let letters = text.get(bare.len()..)?;
    let spaced = bare.len() != bare.trim_end().len();
    let number = bare.trim_end().ends_with(digit);
    (number && (spaced || !letters.is_empty())).then_some(letters)
}

/// The letters that touch the only number of a line: `m` of `30m`.
fn touching_a_number(before: &str) -> Option<&str> {
    let number = before.trim_end_matches(char::is_alphabetic);
    let letters = before.get(number.len()..).filter(|letters| !letters.is_empty())?;
    let whole = number.ends_with(char::is_numeric) && !number.contains(char::is_alphabetic);
    whole.then_some(letters)
}

/// Reads the line as if a name began at the cursor, where nothing does yet.
fn on_line(before: &str) -> Option<(Site<'_>, &str)> {
    if let Some(at) = open_bracket(before) {
        let letters = behind_a_number(before.get(at..)?)?;
        return Some((Site::Unit, letters));
    }
    if let Some(letters) = touching_a_number(before) {
        return Some((Site::Unit, letters));
    }
    const ABOVE: &str = "drink: A\n";
    let name = if before.ends_with(char::is_whitespace) { "name" } else { "" };
    let document = Document::parse(format!("{ABOVE}{before}{name}"));
    let entry = &document.entries().first()?.entry;
    let LineKind::Ingredient(line) = &entry.lines.get(1)?.what else { return None };
    let from = |start: u32| before.get((start as usize).saturating_sub(ABOVE.len())..);
    if let Some(unit) = unit_at_end(line, entry.text.len()) {
        return Some((Site::Unit, from(unit)?));
    }
    if entry.text.len() <= line.amount_span.end as usize {
        return None;
    }
    if let Some(last) = line.shared.last() {
        return Some((Site::Name, from(last.start)?));
    }
    let tail = from(line.tail.start)?;
    if let Some((_, said)) = tail.rsplit_once(',') {
        return Some((Site::Qualifier, said.trim_start()));
    }
    let tail = tail.rsplit_once(" or ").map_or(tail, |(_, side)| side).trim_start();
    let site = if wants_unit(&line.amount) { Site::UnitOrName } else { Site::Name };
    Some((site, tail))
}

/// `2 dashes or` may go on as orange bitters: the line as its last letter found it.
fn joint(before: &str) -> Option<(Site<'_>, &str)> {
    let (_, last) = before.rsplit_once(char::is_whitespace)?;
    if !["or", "to", "and", "plus", "x"].contains(&last) {
        return None;
    }
    let (site, typed) = on_line(before.get(..before.len() - last.len())?)?;
    Some((site, before.get(before.len() - last.len() - typed.len()..)?))
}

/// Several words that no amount stands before: the name of what opens the line.
fn words_alone(before: &str) -> Option<(Site<'_>, &str)> {
    let of_name = |c: char| c.is_alphabetic() || c.is_whitespace() || "-'\u{2019}".contains(c);
    before.chars().all(of_name).then_some((Site::Opening, before))
}

/// The start of a bracket that is still open.
fn open_bracket(text: &str) -> Option<usize> {
    let at = text.rfind('(')?;
    (!text.get(at..)?.contains(')')).then_some(at)
}

/// The start of the unit that the line ends with.
fn unit_at_end(line: &Ingredient, end: usize) -> Option<u32> {
    let Amount::Measures(measures) = &line.amount else { return None };
    let unit = measures.last()?.unit;
    (!unit.is_empty() && unit.end as usize == end).then_some(unit.start)
}

fn wants_unit(amount: &Amount) -> bool {
    match amount {
        Amount::Measures(measures) => measures.last().is_some_and(|last| last.unit.is_empty()),
        Amount::Vague(unit) => unit.is_none(),
        Amount::Proportion(_) => true,
        Amount::Word(_) | Amount::PartOf(..) => false,
    }
}
