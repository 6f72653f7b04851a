//! Walking along the text of a line: every helper returns slices of what it was
//! given, so that a slice's place in its entry is a pointer's difference.

/// `input` without its first `bytes`; its empty end where that cuts a character.
#[inline]
pub(crate) fn skip(input: &str, bytes: usize) -> &str {
    input.split_at_checked(bytes).map_or_else(|| end(input), |(_, rest)| rest)
}

/// The empty slice at the end of `input`.
pub(crate) fn end(input: &str) -> &str {
    input.split_at(input.len()).1
}

/// The empty slice at the start of `input`.
pub(crate) fn start(input: &str) -> &str {
    input.split_at(0).0
}

/// What was read of `before` when `after` is left of it.
#[inline]
pub(crate) fn taken<'t>(before: &'t str, after: &str) -> &'t str {
    before.get(..before.len().saturating_sub(after.len())).unwrap_or(before)
}

/// `input` behind its leading white space.
#[inline]
pub(crate) fn gap(input: &str) -> &str {
    let rest = match input.as_bytes() {
        [b'!'..=b'~', ..] | [] => return input,
        // One blank before a word is the usual case.
        [b' ', b'!'..=b'~', ..] => skip(input, 1),
        _ => input.trim_start(),
    };
    walked::add(input.len() - rest.len());
    rest
}

/// `text` without white space around it.
#[inline]
pub(crate) fn trim(text: &str) -> &str {
    match text.as_bytes() {
        [b'!'..=b'~', .., b'!'..=b'~'] => text,
        _ => text.trim(),
    }
}

/// The first character.
#[inline]
pub(crate) fn first(input: &str) -> Option<char> {
    input.chars().next()
}

/// The leading word: letters, digits, and the apostrophes and hyphens inside it.
pub(crate) fn word(input: &str) -> &str {
    let inside = |c: char| c.is_alphanumeric() || matches!(c, '\'' | '\u{2019}' | '-');
    let stop = input.find(|c: char| !inside(c)).unwrap_or(input.len());
    walked::add(stop);
    input.get(..stop).unwrap_or(input).trim_end_matches(['-', '\'', '\u{2019}'])
}

/// What follows `phrase` at the start of `input`. The phrase is lower case; case does
/// not matter, a blank of it stands for a hyphen or any white space, an `e` for an
/// accented one. A letter, a digit, an apostrophe or a hyphen with a letter behind
/// it would make the last word another word, and ends nothing.
#[inline]
pub(crate) fn phrase<'t>(input: &'t str, phrase: &str) -> Option<&'t str> {
    // Most phrases are not there, and their first letter tells.
    let (first, wanted) = (*input.as_bytes().first()?, *phrase.as_bytes().first()?);
    if first | 0x20 != wanted && first.is_ascii() {
        return None;
    }
    whole_phrase(input, phrase)
}

/// Compares byte by byte as long as both are ASCII.
fn whole_phrase<'t>(input: &'t str, phrase: &str) -> Option<&'t str> {
    walked::add(phrase.len());
    let bytes = input.as_bytes();
    let mut at = 0;
    for wanted in phrase.bytes() {
        let byte = *bytes.get(at)?;
        at += match wanted {
            b' ' => blanks(skip(input, at))?,
            _ if byte == wanted || byte.to_ascii_lowercase() == wanted => 1,
            b'e' if !byte.is_ascii() => accented(skip(input, at))?,
            _ => return None,
        };
    }
    let rest = skip(input, at);
    boundary(rest).then_some(rest)
}

/// How many bytes of white space, or of one hyphen and the white space behind it,
/// stand at the start of `rest`.
fn blanks(rest: &str) -> Option<usize> {
    if matches!(rest.as_bytes(), [b' ' | b'-', b'!'..=b'~', ..]) {
        return Some(1);
    }
    let behind = rest.strip_prefix(|c: char| c.is_whitespace() || is_dash(c))?;
    Some(rest.len() - gap(behind).len())
}

/// How many bytes an accented `e` takes.
fn accented(rest: &str) -> Option<usize> {
    rest.strip_prefix(['é', 'è', 'ê', 'É']).map(|behind| rest.len() - behind.len())
}

/// What follows the first of `phrases` that stands at the start of `input`, and
/// which one it was.
pub(crate) fn one_of<'t, T: Copy>(input: &'t str, phrases: &[(&str, T)]) -> Option<(T, &'t str)> {
    phrases.iter().find_map(|(words, what)| phrase(input, words).map(|rest| (*what, rest)))
}

/// Whether a word may end before `rest`.
#[inline]
pub(crate) fn boundary(rest: &str) -> bool {
    match rest.as_bytes().first() {
        None | Some(b' ' | b',' | b'.' | b';' | b':' | b'(' | b')') => return true,
        Some(byte) if byte.is_ascii_alphanumeric() => return false,
        _ => {}
    }
    let mut chars = rest.chars();
    match chars.next() {
        None => true,
        Some('\'' | '\u{2019}') => !chars.next().is_some_and(char::is_alphabetic),
        Some(c) if is_dash(c) => !chars.next().is_some_and(char::is_alphanumeric),
        Some(c) => !c.is_alphanumeric(),
    }
}

/// A hyphen or one of the dashes that stand for it.
pub(crate) const fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2014}')
}

/// The start of a long text.
pub(crate) fn clip(content: &str) -> String {
    const MOST: usize = 40;
    match content.char_indices().nth(MOST) {
        Some((at, _)) => format!("{}…", content.get(..at).unwrap_or(content).trim_end()),
        None => content.to_owned(),
    }
}

/// How many bytes were walked over, for the test that reading is linear.
pub(crate) mod walked {
    #[cfg(test)]
    thread_local! {
        static BYTES: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
    }

    /// Counts `bytes` more.
    #[cfg(test)]
    pub(crate) fn add(bytes: usize) {
        BYTES.with(|sum| sum.set(sum.get().saturating_add(bytes)));
    }

    /// Counts nothing outside tests.
    #[cfg(not(test))]
    pub(crate) const fn add(_: usize) {}

    /// The count so far; it starts anew.
    #[cfg(test)]
    pub(crate) fn take() -> usize {
        BYTES.with(|sum| sum.replace(0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_phrase_is_met_in_any_case_with_any_blank() {
        assert_eq!(phrase("Double-Strain into", "double strain"), Some(" into"));
        assert_eq!(phrase("double\u{a0} strain", "double strain"), Some(""));
        assert_eq!(phrase("Flambé it", "flambe"), Some(" it"));
    }

    #[test]
    fn a_longer_word_is_another_word() {
        for longer in ["topping", "top-shelf gin", "top5", "top's"] {
            assert_eq!(phrase(longer, "top"), None, "{longer}");
        }
        assert_eq!(phrase("top, soda", "top"), Some(", soda"));
        assert_eq!(phrase("top - soda", "top"), Some(" - soda"));
    }

    #[test]
    fn a_word_keeps_what_is_inside_it() {
        assert_eq!(word("fat-wash it"), "fat-wash");
        assert_eq!(word("grower's, own"), "grower's");
        assert_eq!(word("top- x"), "top");
    }
}
