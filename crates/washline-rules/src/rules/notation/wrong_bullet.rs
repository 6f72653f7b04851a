//! A step with another bullet, or a bullet before an amount.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// Cards come with dots, stars, long dashes and numbers. Before a technique they are read as
    /// the bullet of a step, before an amount as nothing at all. A bullet before an amount is a
    /// doubt: it may be an ingredient, or a step that adds one.
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
    ///   * shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   • 60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// drink: Slate Ferry
    ///   family: highball
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml gin
    ///   120 ml soda water
    ///   - 1 dash orange bitters
    ///
    ///   - build over ice
    ///   garnish: lime wedge
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
    /// ```pour
    /// drink: Slate Ferry
    ///   family: highball
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml gin
    ///   120 ml soda water
    ///   1 dash orange bitters
    ///
    ///   - build over ice
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Source
    /// The notation: a step starts with `- `, an ingredient line with its amount.
    "wrong-bullet", Notation, Warning, Fixes::Both, Check::Reading,
    why: "a line that is read as a step by guess can be read as something else by the next hand"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_bullet_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  * stir with ice
  ^
  2. strain
  ^^
",
        );
        let text = "drink: A\n  * stir with ice\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`*` is no bullet: the line is read as a step")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  - stir with ice\n"));
    }

    #[test]
    fn before_an_amount_it_goes() {
        let text = "drink: A\n  * 60 ml gin\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  60 ml gin\n"));
        let text = "drink: A\n  - 60 ml gin\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  60 ml gin\n"));
    }

    #[test]
    fn the_bullet_of_a_step_is_silent() {
        check(
            &RULE,
            "
drink: A
  1 egg white
  - add 60 ml gin
  - shake, double strain
",
        );
    }
}
