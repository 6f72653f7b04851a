//! A sign that nobody sees.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// Text that is copied from a web page or a chat carries signs without width, marks that turn
    /// the direction of writing, and breaks that are no line ends. On the screen the line looks
    /// right; looked up, its name is another one. The sign is taken out, nothing else.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon​ juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The Unicode Character Database, category Cf and Cc; the notation leaves joiners inside emoji alone.
    "hidden-character", Notation, Error, Fixes::Safe, Check::Reading,
    why: "a name with a hidden sign is another name: its allergens are not found"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, names, severity};
    use washline_text::Severity;

    const SPOILT: &str = "drink: A\n  60 ml g\u{200b}in\n";

    #[test]
    fn it_is_named_and_taken_out() {
        assert_eq!(
            message(&RULE, SPOILT, "").as_deref(),
            Some("this line holds U+200B, which nobody sees")
        );
        assert_eq!(severity(&RULE, SPOILT, ""), Some(Severity::Error));
        assert_eq!(fixed(&RULE, SPOILT, "").as_deref(), Some("drink: A\n  60 ml gin\n"));
    }

    #[test]
    fn the_name_it_spoils_is_not_told_again() {
        assert!(!names(SPOILT, "").contains(&"unknown-ingredient"));
    }

    #[test]
    fn several_on_a_line_are_one_finding() {
        let text = "drink: A\n  60 ml g\u{200b}i\u{200b}n\n  30 ml\u{202e} rum\n";
        let found = names(text, "");
        assert_eq!(found.iter().filter(|name| **name == RULE.name).count(), 2, "{found:?}");
    }

    #[test]
    fn accents_hard_blanks_and_emoji_are_silent() {
        check(
            &RULE,
            "
drink: A \u{1f468}\u{200d}\u{1f373}
  15\u{a0}ml crème de cacao
  1½ oz gin
",
        );
    }
}
