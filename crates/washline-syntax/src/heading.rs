//! `drink: Quarry Lane`, and keys with their colon in general.

use nom::bytes::complete::take_while1;
use nom::character::complete::char;
use nom::{IResult, Parser};

use crate::blank::trim;
use crate::reader::Reader;
use crate::slice::gap;
use crate::{EntryKind, Heading, LineKind, Problem, slice};

/// A key has at most so many letters.
const LONGEST_KEY: usize = 24;

/// Words that open an entry.
pub(crate) const HEADINGS: &[(&str, EntryKind)] = &[
    ("book", EntryKind::Book),
    ("section", EntryKind::Section),
    ("drink", EntryKind::Drink),
    ("prep", EntryKind::Prep),
    ("stock", EntryKind::Stock),
];

/// `key: value` taken apart; both are slices of the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pair<'t> {
    pub key: &'t str,
    pub value: &'t str,
}

/// The entry that `line` opens, if it is a heading.
pub(crate) fn opens(line: &str) -> Option<EntryKind> {
    let content = trim(line);
    let plausible = matches!(*content.as_bytes().first()? | 0x20, b'b' | b'd' | b'p' | b's');
    if !plausible {
        return None;
    }
    kind_of(pair(content)?.key)
}

/// The entry that `key` opens.
pub(crate) fn kind_of(key: &str) -> Option<EntryKind> {
    HEADINGS.iter().find(|(word, _)| word.eq_ignore_ascii_case(key)).map(|(_, kind)| *kind)
}

/// One to three words of ASCII letters, then a colon.
pub(crate) fn pair(content: &str) -> Option<Pair<'_>> {
    let (value, key) = key_and_colon(content).ok()?;
    (key.len() <= LONGEST_KEY).then(|| Pair { key, value: trim(value) })
}

/// Reads a heading of `kind`.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, kind: EntryKind, pair: Pair<'t>) -> LineKind {
    let key = reader.span(pair.key);
    let name = reader.span(pair.value);
    if name.is_empty() {
        let word = pair.key.to_ascii_lowercase();
        reader.tell(Problem::new(
            "missing-name",
            key,
            format!("this {word} has no name"),
            format!("write its name behind the colon: `{word}: NAME`"),
        ));
    }
    LineKind::Heading(Heading { kind, key, name })
}

fn key_and_colon(input: &str) -> IResult<&str, &str, ()> {
    let (mut rest, _) = letters(input)?;
    for _ in 0..2 {
        let Ok((after, _)) = (separator, letters).parse(rest) else { break };
        rest = after;
    }
    let key = slice::taken(input, rest);
    let (value, _) = char(':').parse(gap(rest))?;
    Ok((value, key))
}

fn letters(input: &str) -> IResult<&str, &str, ()> {
    take_while1(|c: char| c.is_ascii_alphabetic()).parse(input)
}

fn separator(input: &str) -> IResult<&str, char, ()> {
    nom::character::complete::one_of(" -").parse(input)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_have_up_to_three_words() {
        let check = |line: &str, key: &str, value: &str| {
            assert_eq!(
                pair(line),
                Some(Pair { key, value }).filter(|p| !p.key.is_empty()),
                "{line}"
            );
        };
        check("glass: coupe", "glass", "coupe");
        check("Free From : egg", "Free From", "egg");
        check("may-contain:nuts", "may-contain", "nuts");
        check("note:", "note", "");
        check("a b c d: e", "", "");
        check("2:1 syrup", "", "");
        check("no colon", "", "");
        check("averylongkeythatnobodyuses: x", "", "");
    }

    #[test]
    fn headings_stand_anywhere_and_in_any_case() {
        assert_eq!(opens("\t Drink : A"), Some(EntryKind::Drink));
        assert_eq!(opens("\u{feff}book: A"), Some(EntryKind::Book));
        assert_eq!(opens("- drink: A"), None);
        assert_eq!(opens("drinks: A"), None);
    }
}
