//! Blanks: one between words, one behind a comma or semicolon, one between a number and its unit.

use std::borrow::Cow;

/// Runs of white space as one blank.
pub(crate) fn single(text: &str) -> Cow<'_, str> {
    if is_single(text) {
        return Cow::Borrowed(text);
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    Cow::Owned(words.join(" "))
}

fn is_single(text: &str) -> bool {
    let mut blank = true;
    for c in text.chars() {
        let blank_here = c.is_whitespace();
        if blank_here && (blank || c != ' ') {
            return false;
        }
        blank = blank_here;
    }
    !blank || text.is_empty()
}

/// Single blanks; none before a comma or semicolon and one behind it, save between digits, where
/// a comma may be a decimal's.
pub(crate) fn spaced(text: &str) -> Cow<'_, str> {
    let text = single(text);
    if !text.contains([',', ';']) {
        return text;
    }
    let mut out = String::with_capacity(text.len() + 4);
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        if !matches!(c, ',' | ';') {
            out.push(c);
            continue;
        }
        let digit = |c: char| c.is_ascii_digit();
        let decimal = c == ',' && out.ends_with(digit) && rest.peek().copied().is_some_and(digit);
        out.truncate(out.trim_end_matches(' ').len());
        out.push(c);
        if !decimal && rest.peek().is_some_and(|next| !matches!(next, ' ' | ',' | ';')) {
            out.push(' ');
        }
    }
    Cow::Owned(out)
}

/// A blank between each number and the unit or sign of per cent that touches it: `715ml`, `47%`.
pub(crate) fn units_apart(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    for c in text.chars() {
        if out.ends_with(|c: char| c.is_ascii_digit()) && (c.is_ascii_alphabetic() || c == '%') {
            out.push(' ');
        }
        out.push(c);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_blank_behind_a_comma_and_none_before() {
        assert_eq!(spaced("lime juice , fresh,chilled"), "lime juice, fresh, chilled");
        assert_eq!(spaced("shake  for 12 s ;strain"), "shake for 12 s; strain");
        assert_eq!(spaced("abv 4,5 %"), "abv 4,5 %");
        assert_eq!(spaced("a ,, b,"), "a,, b,");
    }

    #[test]
    fn a_number_stands_apart_from_its_unit() {
        assert_eq!(units_apart("715ml"), "715 ml");
        assert_eq!(units_apart("47%"), "47 %");
        assert_eq!(units_apart("12 x 330ml"), "12 x 330 ml");
    }
}
