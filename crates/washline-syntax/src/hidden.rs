//! Characters that nobody sees, and words of two scripts.

use washline_text::{Edit, Span};

use crate::blank::{is_false_break, is_unseen};
use crate::reader::Reader;
use crate::{Line, LineKind, Problem};

/// Tells of both in `text`, the entry without its byte order mark: one finding a line
/// for what is hidden, one a word for what is mixed.
pub(crate) fn check(reader: &mut Reader<'_>, text: &str, lines: &[Line]) {
    if is_plain(text) {
        return;
    }
    let from = reader.span(text).start;
    reader.conflict = false;
    for line in lines {
        let span = Span::new(line.span.start.max(from), line.span.end);
        hidden(reader, span);
        if matches!(line.what, LineKind::Blank | LineKind::Comment) {
            continue;
        }
        mixed(reader, line.content);
    }
}

/// Whether `text` is printable ASCII with blanks and line ends, as most entries are.
fn is_plain(text: &str) -> bool {
    let odd = |byte: &u8| !matches!(byte, b' '..=b'~' | b'\n' | b'\r' | b'\t');
    // Without an early exit many bytes are looked at in one go.
    text.as_bytes().chunks(256).all(|chunk| !chunk.iter().fold(false, |any, byte| any | odd(byte)))
}

fn hidden(reader: &mut Reader<'_>, line: Span) {
    let whole = reader.text;
    let text = line.text(whole);
    let found: Vec<(Span, char)> = text
        .char_indices()
        .filter(|(at, c)| {
            (is_unseen(*c) || is_false_break(*c)) && !(*c == '\u{200d}' && joins_emoji(text, *at))
        })
        .map(|(at, c)| (place(line, at, c), c))
        .collect();
    let (Some((first, c)), Some((last, _))) = (found.first(), found.last()) else { return };
    let edits = found.iter().map(|(span, c)| gone(whole, *span, *c)).collect();
    let code = u32::from(*c);
    let message = match found.len() {
        1 => format!("this line holds U+{code:04X}, which nobody sees"),
        n => format!("this line holds {n} characters that nobody sees, the first U+{code:04X}"),
    };
    let problem = Problem::new(
        "hidden-character",
        first.cover(*last),
        message,
        "take it out: a name with it is another name",
    );
    reader.tell(problem.safely("take it out", edits));
}

fn place(line: Span, at: usize, c: char) -> Span {
    let start = line.start + u32::try_from(at).unwrap_or(0);
    Span::new(start, start + u32::try_from(c.len_utf8()).unwrap_or(1))
}

/// A break between two words becomes a blank; anything else goes.
fn gone(text: &str, span: Span, c: char) -> Edit {
    let solid = |c: Option<char>| c.is_some_and(|c| !c.is_whitespace());
    let before = text.get(..span.start as usize).and_then(|t| t.chars().next_back());
    let behind = text.get(span.end as usize..).and_then(|t| t.chars().next());
    let parts = is_false_break(c) && solid(before) && solid(behind);
    Edit::new(span, if parts { " " } else { "" })
}

/// A joiner between two signs makes one picture of them.
fn joins_emoji(text: &str, at: usize) -> bool {
    let picture = |c: Option<char>| c.is_some_and(|c| u32::from(c) >= 0x2190);
    let before = text.get(..at).and_then(|t| t.chars().next_back());
    let behind = text.get(at..).and_then(|t| t.chars().nth(1));
    picture(before) && picture(behind)
}

/// Letters of Greek and Cyrillic that look Latin, and what they look like.
const TWINS: &[(char, char)] = &[
    ('а', 'a'),
    ('е', 'e'),
    ('о', 'o'),
    ('р', 'p'),
    ('с', 'c'),
    ('у', 'y'),
    ('х', 'x'),
    ('і', 'i'),
    ('ѕ', 's'),
    ('ј', 'j'),
    ('А', 'A'),
    ('В', 'B'),
    ('Е', 'E'),
    ('К', 'K'),
    ('М', 'M'),
    ('Н', 'H'),
    ('О', 'O'),
    ('Р', 'P'),
    ('С', 'C'),
    ('Т', 'T'),
    ('Х', 'X'),
    ('ο', 'o'),
    ('ν', 'v'),
    ('α', 'a'),
    ('ι', 'i'),
    ('Α', 'A'),
    ('Β', 'B'),
    ('Ε', 'E'),
    ('Ζ', 'Z'),
    ('Η', 'H'),
    ('Ι', 'I'),
    ('Κ', 'K'),
    ('Μ', 'M'),
    ('Ν', 'N'),
    ('Ο', 'O'),
    ('Ρ', 'P'),
    ('Τ', 'T'),
    ('Υ', 'Y'),
    ('Χ', 'X'),
];

fn mixed(reader: &mut Reader<'_>, content: Span) {
    let whole = reader.text;
    let text = content.text(whole);
    if text.is_ascii() {
        return;
    }
    for word in text.split(|c: char| !c.is_alphabetic()) {
        let foreign = word.chars().any(is_greek_or_cyrillic);
        if foreign && word.chars().any(is_latin) {
            let problem = two_scripts(reader, word);
            reader.tell(problem);
        }
    }
}

fn two_scripts(reader: &Reader<'_>, word: &str) -> Problem {
    let latin: String = word
        .chars()
        .map(|c| TWINS.iter().find(|(twin, _)| *twin == c).map_or(c, |(_, plain)| *plain))
        .collect();
    let other = word.chars().find(|c| is_greek_or_cyrillic(*c)).unwrap_or_default();
    let problem = Problem::new(
        "mixed-script",
        reader.span(word),
        format!("`{word}` has letters of two scripts: `{other}` is U+{:04X}", u32::from(other)),
        "write the word in one script: it is found by its letters, not by its looks",
    );
    if latin.chars().any(is_greek_or_cyrillic) {
        return problem;
    }
    let edits = vec![reader.replace(word, latin.clone())];
    problem.perhaps(format!("write `{latin}` in Latin letters"), edits)
}

const fn is_latin(c: char) -> bool {
    c.is_ascii_alphabetic() || matches!(c, '\u{c0}'..='\u{24f}' | '\u{1e00}'..='\u{1eff}')
}

const fn is_greek_or_cyrillic(c: char) -> bool {
    matches!(c, '\u{370}'..='\u{52f}' | '\u{1f00}'..='\u{1fff}')
}
