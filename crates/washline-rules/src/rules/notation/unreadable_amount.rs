//! An amount that has no one reading.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// An amount that can be read in two ways is refused, not guessed: `1,250` is a thousand in
    /// one country and one in another, `3/2` may be a slip for 2/3. A range that falls, an amount
    /// of nothing and a second amount with nothing between the two are refused as well. Where a
    /// likely reading exists it is offered, and a person chooses.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml / 2 oz gin
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
    /// The notation: how numbers, ranges, sums and bracketed amounts are written.
    "unreadable-amount", Notation, Error, Fixes::Unsafe, Check::Reading,
    why: "nobody can pour it twice the same, and the drink gets no figures"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_words_at_fault_are_told() {
        check(
            &RULE,
            "
drink: A
  1,250 ml gin
  ^^^^^
  3/2 oz gin
  ^^^
  15-10 ml gin
  ^^^^^
  0 ml gin
  ^
",
        );
        let text = "drink: A\n  3/2 oz gin\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`3/2` is a fraction of a whole or more, and may be a slip")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn a_likely_reading_is_offered() {
        let check = |line: &str, after: &str| {
            let text = format!("drink: A\n  {line}\n");
            let expected = format!("drink: A\n  {after}\n");
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(expected.as_str()), "{line}");
        };
        check("3/2 oz gin", "1 1/2 oz gin");
        check("1,250 ml gin", "1250 ml gin");
        check("30 ml / 1 oz gin", "30 ml (1 oz) gin");
    }

    #[test]
    fn strength_before_the_name_is_no_amount() {
        check(
            &RULE,
            "
drink: A
  43 % gin
     ^
",
        );
    }

    #[test]
    fn every_form_of_an_amount_is_silent() {
        check(
            &RULE,
            "
drink: A
  2-3/4 oz gin
  10-15 ml gin
  1½ oz gin
  ~8 mint leaves
  3/4 oz + 1 bsp gin
  half a lime, juiced
  45 ml 151 rum
",
        );
    }
}
