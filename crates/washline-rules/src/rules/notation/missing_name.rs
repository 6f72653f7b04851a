//! An amount with nothing behind it, or a heading without a name.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// An amount of nothing in particular cannot be poured, counted or declared. Most often a
    /// comma slipped in behind the unit, so that the name reads as something said of it. An entry
    /// without a name cannot be found, nor named by another.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz), lemon juice
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
    /// The notation: after the amount comes the name, then, after commas, what is said of it.
    "missing-name", Notation, Error, Fixes::Unsafe, Check::Reading,
    why: "something goes in, and the card does not say what: its allergens are unknown"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_whole_line_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  30 ml
  ^^^^^
  2 dashes
  ^^^^^^^^
",
        );
        let text = "drink: A\n  30 ml\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`30 ml` of what? The line has no name")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn a_comma_too_many_is_taken_out() {
        let text = "drink: A\n  30 ml, lime juice\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  30 ml lime juice\n"));
    }

    #[test]
    fn a_heading_has_a_name() {
        check(
            &RULE,
            "
drink:
^^^^^
  60 ml gin
",
        );
    }

    #[test]
    fn a_counted_thing_is_its_own_name() {
        check(
            &RULE,
            "
prep: A
  40 cloves
  6 berries
  1 l water
",
        );
    }
}
