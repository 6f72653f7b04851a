//! Characters that a terminal acts on or an eye can't see, shown as what they are.

use std::borrow::Cow;
use std::fmt::Write;

/// `text` with hidden characters as escapes: `\u{1b}`. Tabs and line ends stay.
#[must_use]
pub fn escaped(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| is_hidden(c) && c != '\n') {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if c == '\n' { out.push(c) } else { push(&mut out, c) }
    }
    Cow::Owned(out)
}

/// `text` on one line, with hidden characters as escapes.
#[must_use]
pub fn on_one_line(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_hidden) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    text.chars().for_each(|c| push(&mut out, c));
    Cow::Owned(out)
}

/// `c` as it is shown.
pub(crate) fn push(out: &mut String, c: char) {
    if is_hidden(c) {
        let _ = write!(out, "\\u{{{:x}}}", u32::from(c));
    } else {
        out.push(c);
    }
}

/// Control characters, marks that turn the direction of text, characters without a width, and
/// the private ones that no font draws.
pub(crate) fn is_hidden(c: char) -> bool {
    match c {
        '\t' => false,
        '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{feff}' => true,
        '\u{200b}' | '\u{200e}' | '\u{200f}' => true,
        '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' => true,
        '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}' => true,
        '\u{f0000}'..='\u{10ffff}' => true,
        c => c.is_control(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_reaches_the_terminal_unseen() {
        assert_eq!(escaped("a\u{1b}[31m\tb\nc"), "a\\u{1b}[31m\tb\nc");
        assert_eq!(on_one_line("a\r\nb"), "a\\u{d}\\u{a}b");
        assert_eq!(escaped("\u{202e}nig"), "\\u{202e}nig");
    }

    #[test]
    fn letters_of_any_script_stay() {
        let text = "Crème 日本 👩\u{200d}🍳";
        assert!(matches!(escaped(text), Cow::Borrowed(same) if same == text));
    }
}
