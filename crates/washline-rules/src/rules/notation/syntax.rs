//! A line that is no ingredient, step or field.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// Each line of a card is one thing: an ingredient starts with its amount, a step with `- `, a
    /// field with its key and a colon. A line that is none of them is one that nobody can add up:
    /// what it pours is missing from the strength, the sugar and the allergens of the drink. Such a
    /// line is told alone; four and more in a row are told once, as a card pasted in as it was.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   lemon juice 22.5 ml
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
    ///   Shake with ice for 12 s, double strain
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
    ///   22.5 ml lemon juice
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
    /// # Source
    /// The notation: what a line is, is known by how it starts.
    "syntax", Notation, Error, Fixes::Unsafe, Check::Reading,
    why: "what it pours or asks for is missing from every figure and every check of allergens"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity, shown};
    use washline_text::Severity;

    #[test]
    fn a_line_of_no_kind_is_told_alone() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  lime juice
  ^^^^^^^^^^
  as cold as it gets
  ^^^^^^^^^^^^^^^^^^
  - shake with ice
",
        );
        assert_eq!(severity(&RULE, "drink: A\n  lime juice\n", ""), Some(Severity::Error));
    }

    #[test]
    fn what_reads_like_a_step_asks_for_its_bullet() {
        let text = "drink: A\n  60 ml gin\n  Shake hard\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("this reads like a step, and has no bullet")
        );
        let after = fixed(&RULE, text, "");
        assert_eq!(after.as_deref(), Some("drink: A\n  60 ml gin\n  - Shake hard\n"));
    }

    #[test]
    fn an_amount_behind_the_name_is_put_first() {
        let text = "drink: A\n  lime juice: 30 ml\n  lime juice 30 ml\n";
        let found = shown(text, "");
        assert!(found.iter().any(|line| line.starts_with("3:3 error syntax")), "{found:?}");
        let text = "drink: A\n  lime juice 30 ml\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  30 ml lime juice\n"));
    }

    #[test]
    fn a_number_elsewhere_is_put_first_and_one_thing_is_one() {
        for (line, after) in [
            ("egg white", "1 egg white"),
            ("lime wedge x2", "2 lime wedges"),
            ("ml 60 gin", "60 ml gin"),
            ("dash aromatic bitters x 2", "2 dashes aromatic bitters"),
            ("gin x 2 oz", "2 oz gin"),
        ] {
            let text = format!("drink: A\n  {line}\n");
            let expected = format!("drink: A\n  {after}\n");
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(expected.as_str()), "{line}");
        }
    }

    #[test]
    fn a_pasted_card_is_one_finding() {
        let text =
            "drink: A\nGin 60 ml\nLemon juice 22.5 ml\nSyrup 15 ml\nShake with ice\nStrain\n";
        let found = shown(text, "");
        assert_eq!(found.iter().filter(|line| line.contains(" syntax: ")).count(), 1, "{found:?}");
    }

    #[test]
    fn what_has_its_form_is_silent() {
        check(
            &RULE,
            "
drink: A
  # lime juice, if the lemons are gone
  note: as cold as it gets
  a few mint leaves
  juice of 1/2 lime
  half a lime, juiced
  soda water, to top
  - Shake hard
",
        );
    }
}
