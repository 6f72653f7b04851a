//! White space, and characters that nobody sees.

/// Whether `c` shows nothing and is no white space: controls, zero-width marks,
/// marks of writing direction. Joiners and variation marks belong to emoji.
pub(crate) const fn is_unseen(c: char) -> bool {
    matches!(c,
        '\0'..='\u{8}' | '\u{e}'..='\u{1f}' | '\u{7f}'..='\u{84}' | '\u{86}'..='\u{9f}'
        | '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}')
}

/// Whether `c` breaks a line in other programs, and none here.
pub(crate) const fn is_false_break(c: char) -> bool {
    matches!(c, '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}')
}

/// `text` without white space and unseen characters around it.
pub(crate) fn trim(text: &str) -> &str {
    let plain = |byte: Option<&u8>| byte.is_none_or(|byte| matches!(byte, b'!'..=b'~'));
    let text = text.trim_ascii();
    let bytes = text.as_bytes();
    if plain(bytes.first()) && plain(bytes.last()) {
        return text;
    }
    text.trim_matches(|c: char| c.is_whitespace() || is_unseen(c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trimming_takes_what_nobody_sees() {
        assert_eq!(trim(" \u{feff}\u{200b}\u{a0}gin\u{b}\t "), "gin");
        assert_eq!(trim("\u{2028} \u{0}"), "");
        assert_eq!(trim("é"), "é");
    }
}
