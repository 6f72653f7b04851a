//! A bullet with nothing behind it.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// A bullet alone is most often a step that was meant to be written, or that was lost in a
    /// paste. It says nothing, so nobody can follow it.
    ///
    /// # Flagged
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
    ///   -
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
    /// The notation: a step is `- `, then what is done.
    "empty-step", Notation, Error, Fixes::None, Check::Reading,
    why: "a step went missing: the next shift guesses what stood there"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, severity};
    use washline_text::Severity;

    #[test]
    fn the_bullet_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - stir with ice
  -
  ^
  - strain
",
        );
        assert_eq!(severity(&RULE, "drink: A\n  -\n", ""), Some(Severity::Error));
    }

    #[test]
    fn one_word_is_a_step() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - stir
  - strain
",
        );
    }
}
