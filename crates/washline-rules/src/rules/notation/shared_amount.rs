//! Several ingredients on one line.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// `15 ml each lemon and lime juice` saves a line on paper. In a book it hides one of the two
    /// from whoever looks for it, and a change of one amount changes both.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: daisy
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml each lemon juice and maraschino liqueur
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// drink: Lantern Row
    ///   family: daisy
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   11.25 ml each lemon and lime juice
    ///   22.5 ml (3/4 oz) maraschino liqueur
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: daisy
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml lemon juice
    ///   22.5 ml maraschino liqueur
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// drink: Lantern Row
    ///   family: daisy
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   11.25 ml lemon juice
    ///   11.25 ml lime juice
    ///   22.5 ml (3/4 oz) maraschino liqueur
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: a line is one ingredient. Common practice, no source.
    "shared-amount", Notation, Hint, Fixes::Both, Check::Reading,
    why: "two names on one line are costed, scaled and found as one"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_line_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  15 ml each lemon and lime juice
  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
",
        );
        let text = "drink: A\n  15 ml each lemon and lime juice\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("2 ingredients share one line: each is read as 15 ml")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Hint));
    }

    #[test]
    fn a_line_for_each_is_written() {
        let text = "drink: A\n  15 ml each lemon and lime juice\n";
        let after = "drink: A\n  15 ml lemon juice\n  15 ml lime juice\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(after));
        let text = "drink: A\n  total: 90 ml\n  equal parts gin, sweet vermouth\n";
        let after = "drink: A\n  total: 90 ml\n  1 part gin\n  1 part sweet vermouth\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(after));
    }

    #[test]
    fn a_choice_is_one_ingredient() {
        check(
            &RULE,
            "
drink: A
  60 ml bourbon or rye whiskey
  15 ml lemon or lime juice
",
        );
    }
}
