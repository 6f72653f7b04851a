//! A fraction of something nobody cuts.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// `5/6 mint leaves` is a fraction by its form, and five to six by its sense: nobody cuts
    /// leaves, sprigs, berries or dashes. It is read as written, and told.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Quarry Lane
    ///   family: smash
    ///   glass: rocks
    ///   ice: crushed
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///   5/6 mint leaves
    ///
    ///   - muddle mint leaves, add the rest, shake with ice for 10 s, double strain
    ///   garnish: mint sprig
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Quarry Lane
    ///   family: smash
    ///   glass: rocks
    ///   ice: crushed
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///   5-6 mint leaves
    ///
    ///   - muddle mint leaves, add the rest, shake with ice for 10 s, double strain
    ///   garnish: mint sprig
    /// ```
    ///
    /// # Source
    /// The notation: a fraction of a thing nobody cuts, just under one or not in lowest terms, is a doubt.
    "doubtful-fraction", Notation, Warning, Fixes::Unsafe, Check::Reading,
    why: "5/6 of a leaf and five to six leaves make two very different drinks"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_fraction_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  5/6 mint leaves
  ^^^
  6/8 raspberries
  2/3 dashes orange bitters
  ^^^
",
        );
        let text = "drink: A\n  5/6 mint leaves\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`5/6` leaves is a fraction, and nobody cuts leaves")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  5-6 mint leaves\n"));
    }

    #[test]
    fn what_is_cut_or_measured_is_silent() {
        check(
            &RULE,
            "
drink: A
  3/4 oz gin
  5/6 oz gin
  1/2 dash orange bitters
  juice of 1/2 lime
  3/4 cucumber
",
        );
    }

    #[test]
    fn a_range_is_a_range() {
        check(
            &RULE,
            "
drink: A
  5-6 mint leaves
",
        );
    }
}
