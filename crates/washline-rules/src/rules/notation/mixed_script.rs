//! A word of two scripts.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// A Cyrillic or Greek letter looks like its Latin twin and is another letter. A name with one
    /// in it is found by nobody, whatever it looks like. Words that are wholly of one script are
    /// left alone.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lеmon juice
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
    /// The Unicode Character Database, scripts; Unicode Technical Standard 39, mixed-script detection.
    "mixed-script", Notation, Warning, Fixes::Unsafe, Check::Reading,
    why: "it looks like the name and is another: its allergens are not found"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, names, severity};
    use washline_text::Severity;

    const SPOILT: &str = "drink: A\n  60 ml g\u{456}n\n";

    #[test]
    fn the_word_is_told() {
        check(
            &RULE,
            "
drink: A
  30 ml l\u{435}mon juice
        ^^^^^
",
        );
        let text = "drink: A\n  30 ml l\u{435}mon juice\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`l\u{435}mon` has letters of two scripts: `\u{435}` is U+0435")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  30 ml lemon juice\n"));
    }

    #[test]
    fn the_name_it_spoils_is_not_told_again() {
        assert!(!names(SPOILT, "").contains(&"unknown-ingredient"));
    }

    #[test]
    fn a_word_of_one_script_is_silent() {
        check(
            &RULE,
            "
drink: A
  note: \u{43b}\u{435}\u{442}\u{43e}, summer
  30 ml crème de cacao
",
        );
    }
}
