//! An amount word that stands behind the name.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// `soda water, to top` and `dash bitters` are how people speak, and are understood. Written
    /// amount first, every line of the book starts the same way, and the eye finds the measure
    /// where it looks for it.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Slate Ferry
    ///   family: highball
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml gin
    ///   soda water, to top
    ///
    ///   - build over ice
    ///   garnish: lime wedge
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
    ///   dash orange bitters
    ///
    ///   - build over ice
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Slate Ferry
    ///   family: highball
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml gin
    ///   top soda water
    ///
    ///   - build over ice
    ///   garnish: lime wedge
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
    /// The notation: after the amount comes the name. Common practice, no source.
    "turned-line", Notation, Hint, Fixes::Safe, Check::Reading,
    why: "cards that all read amount first are scanned in a second on a busy night"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_word_is_told() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  soda water, to top
              ^^^^^^
  dash bitters
  ^^^^
",
        );
        let text = "drink: A\n  dash bitters\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`dash` has no number: it is read as 1 dash")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Hint));
    }

    #[test]
    fn the_line_is_turned_round() {
        let check = |line: &str, after: &str| {
            let text = format!("drink: A\n  {line}\n");
            let expected = format!("drink: A\n  {after}\n");
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(expected.as_str()), "{line}");
        };
        check("soda water, to top", "top soda water");
        check("absinthe rinse", "rinse absinthe");
        check("half salt rim", "rim (half) salt");
        check("dash bitters", "1 dash bitters");
    }

    #[test]
    fn an_amount_with_its_role_behind_it_is_silent() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  90 ml soda water, to top
  top soda water
  rim (half) salt
  rinse absinthe
  1 dash bitters
",
        );
    }
}
