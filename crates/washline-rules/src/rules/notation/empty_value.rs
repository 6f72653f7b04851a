//! A field with nothing behind its colon.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// `contains:` with nothing behind it is not the same as `contains: none`: the first may be
    /// forgotten, the second was looked at. A value that is not there is never filled in by a
    /// guess.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   menu:
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
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
    ///   menu: gin, lemon, a twist
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
    /// The notation: an empty value is an error of its own.
    "empty-value", Notation, Error, Fixes::None, Check::Reading,
    why: "the card asks and does not answer: `none` is an answer, nothing is not"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, severity};
    use washline_text::Severity;

    #[test]
    fn the_key_is_told() {
        check(
            &RULE,
            "
drink: A
  glass:
  ^^^^^
  contains:   # ask the kitchen
  ^^^^^^^^
  60 ml gin
",
        );
        assert_eq!(severity(&RULE, "drink: A\n  glass:\n", ""), Some(Severity::Error));
    }

    #[test]
    fn no_value_is_made_up() {
        let found = findings("drink: A\n  contains:\n  60 ml gin\n", "");
        let found = found.iter().find(|finding| finding.rule == RULE.name);
        assert!(found.is_some_and(|finding| finding.fixes.is_empty()));
    }

    #[test]
    fn none_and_nought_are_values() {
        check(
            &RULE,
            "
drink: A
  contains: none
  garnish: none
  60 ml gin
stock: B
  abv: 0 %
  sugar: 0 g/100 ml
",
        );
    }
}
