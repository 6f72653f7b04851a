//! The one way in which names and words are compared.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// `text` as every look-up sees it: compatibility decomposed, without marks,
/// case folded, apostrophes and full stops dropped, hyphens and runs of white
/// space as one blank, `&` as `and`, trimmed.
///
/// `Crème de Cacao` and `creme-de-cacao` fold to the same words.
#[must_use]
pub fn fold(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    if text.is_ascii() {
        text.chars().for_each(|c| push(&mut out, c.to_ascii_lowercase()));
    } else {
        let plain: String = text.nfkd().filter(|c| !is_combining_mark(*c)).collect();
        caseless::default_case_fold_str(&plain).nfkd().for_each(|c| push(&mut out, c));
    }
    if out.ends_with(' ') {
        out.pop();
    }
    out
}

fn push(out: &mut String, c: char) {
    match c {
        '\'' | '\u{2019}' | '\u{2018}' | '`' | '\u{b4}' | '.' => {}
        '&' => {
            blank(out);
            out.push_str("and ");
        }
        _ if c.is_whitespace() || is_hyphen(c) => blank(out),
        _ => out.push(c),
    }
}

fn blank(out: &mut String) {
    if !out.is_empty() && !out.ends_with(' ') {
        out.push(' ');
    }
}

const fn is_hyphen(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2014}' | '\u{2212}')
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn accents_case_hyphens_and_signs_fold_away() {
        assert_eq!(fold("Crème-de  Cacao"), "creme de cacao");
        assert_eq!(fold("Worcester\u{2019}s No. 2"), "worcesters no 2");
        assert_eq!(fold("rock & rye "), "rock and rye");
        assert_eq!(fold("rock&rye"), "rock and rye");
        assert_eq!(fold("Straße"), "strasse");
        assert_eq!(fold(" - "), "");
    }

    #[test]
    fn folding_twice_is_folding_once() {
        for text in ["Añejo", "½ lime", "ＡＢＣ", "İstanbul", "a & b"] {
            assert_eq!(fold(&fold(text)), fold(text));
        }
    }
}
