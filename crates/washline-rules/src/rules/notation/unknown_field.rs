//! A key that no entry has, or not this one.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// A field says something of its entry by its key. A key with a slip in it, another trade's
    /// word for one, or a key of another kind of entry is not looked at, however right its value
    /// is. Keys are read in any case, with blanks or hyphens.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   menue: gin, lemon, a twist
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
    ///   may contian: nuts
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
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   may-contain: nuts
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
    /// The notation: the keys of a book, section, drink, prep and stock entry.
    "unknown-field", Notation, Error, Fixes::Both, Check::Reading,
    why: "what is said behind it is read by nobody: no check, no label, no printed card"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn a_slip_is_told_at_the_key() {
        check(
            &RULE,
            "
drink: A
  glas: coupe
  ^^^^
  colour: red
  ^^^^^^
  60 ml gin
",
        );
        let text = "drink: A\n  glas: coupe\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some("`glas` is no field"));
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  glass: coupe\n"));
    }

    #[test]
    fn a_key_of_another_entry_says_whose_it_is() {
        check(
            &RULE,
            "
drink: A
  yields: 3 l
  ^^^^^^
  60 ml gin
stock: B
  glass: coupe
  ^^^^^
  kind: gin
",
        );
    }

    #[test]
    fn another_word_for_a_key_is_known() {
        let text = "drink: A\n  allergens: milk\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  contains: milk\n"));
    }

    #[test]
    fn keys_are_read_in_any_case() {
        check(
            &RULE,
            "
drink: A
  Glass: coupe
  may contain: nuts
  FREE-FROM: egg
  60 ml gin
",
        );
    }
}
