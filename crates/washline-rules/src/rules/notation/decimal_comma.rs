//! A decimal that is written with a comma.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// `22,5 ml` is read as 22.5 ml, which is what most of the world would mean. It is told
    /// because a comma on a card otherwise divides the name from what is said of it, and because a
    /// comma before three digits can only be guessed at.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22,5 ml (3/4 oz) lemon juice
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
    /// The notation: `22,5` is read as 22.5 with a finding and a fix. ISO 80000-1:2009, 7.3.2, allows
    /// both signs (clause from memory).
    "decimal-comma", Notation, Warning, Fixes::Safe, Check::Reading,
    why: "a comma also divides a line, and 22,5 read as 22 is a different drink"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn it_is_read_and_told() {
        check(
            &RULE,
            "
drink: A
  22,5 ml gin
  ^^^^
  30 ml lemon juice
",
        );
        let text = "drink: A\n  22,5 ml gin\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some("`22,5` is read as 22.5"));
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  22.5 ml gin\n"));
    }

    #[test]
    fn it_is_told_in_fields_too() {
        check(
            &RULE,
            "
prep: A
  yields: 1,5 l
          ^^^
  700 ml gin
",
        );
    }

    #[test]
    fn thousands_are_another_mistake() {
        check(
            &RULE,
            "
prep: A
  1,250 ml gin
  1,000 ml gin
",
        );
    }

    #[test]
    fn a_comma_behind_a_name_divides() {
        check(
            &RULE,
            "
drink: A
  22.5 ml gin, 43 % abv, chilled
",
        );
    }
}
