//! A file that is no UTF-8.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// A spec book is UTF-8 text. A file saved by an old editor as Latin-1, or by a spreadsheet
    /// as UTF-16, has bytes that are none: its accents, and with them the names they stand in,
    /// can only be guessed. Nothing else is said of such a file until it is saved anew. In the
    /// examples `\xE8` is one byte.
    ///
    /// # Flagged
    /// ```bytes
    /// drink: Lantern Row
    ///   family: cream
    ///   glass: coupe, chilled
    ///   contains: milk
    ///
    ///   45 ml cognac
    ///   30 ml cr\xE8me de cacao
    ///   30 ml cream, pasteurised
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Mended
    /// ```bytes
    /// drink: Lantern Row
    ///   family: cream
    ///   glass: coupe, chilled
    ///   contains: milk
    ///
    ///   45 ml cognac
    ///   30 ml cr\xC3\xA8me de cacao
    ///   30 ml cream, pasteurised
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Source
    /// RFC 3629, UTF-8.
    "not-utf8", Notation, Error, Fixes::None, Check::Bytes,
    why: "the names that the bytes stand in are found by nobody, nor are their allergens"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{bytes, shown};

    /// The first byte of `example` that is no UTF-8.
    fn bad(example: &str) -> Option<usize> {
        std::str::from_utf8(&bytes(example)).err().map(|error| error.valid_up_to())
    }

    #[test]
    fn the_examples_are_what_they_say() {
        let prose = RULE.parts();
        assert!(prose.flagged.iter().all(|example| bad(example).is_some()));
        for example in &prose.mended {
            assert_eq!(bad(example), None);
            let text = String::from_utf8(bytes(example)).unwrap();
            assert!(text.contains("crème"));
            assert_eq!(shown(&text, ""), Vec::<String>::new());
        }
    }

    #[test]
    fn text_with_accents_is_silent() {
        assert_eq!(bad("cr\\xC3\\xA8me"), None);
        assert_eq!(bad("crème, 1½, 20\u{a0}°C"), None);
        assert_eq!(bad("\\xEF\\xBB\\xBFdrink: A"), None, "a byte order mark is UTF-8");
    }

    #[test]
    fn other_encodings_are_not() {
        assert_eq!(bad("drink: A\n  cr\\xE8me"), Some(13));
        assert_eq!(bad("\\xFF\\xFEd\\x00"), Some(0));
    }
}
