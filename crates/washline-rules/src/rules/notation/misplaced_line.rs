//! Lines that belong to no entry.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// A heading opens an entry, and everything below it belongs to that. Lines before the first
    /// heading belong to nothing. They are told once, however many they are: most often the word
    /// `drink:` was forgotten.
    ///
    /// # Flagged
    /// ```pour
    /// Lantern Row
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
    /// The notation: fields, ingredients and steps say something of the entry above them.
    "misplaced-line", Notation, Error, Fixes::Unsafe, Check::Reading,
    why: "a card with no heading is no drink: it is checked by nobody and printed nowhere"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, severity, shown};
    use washline_text::Severity;

    #[test]
    fn a_run_is_one_finding() {
        let text = "60 ml gin\n22.5 ml lime juice\n- shake with ice\ndrink: A\n  60 ml gin\n";
        let found = shown(text, "");
        let own: Vec<&String> = found.iter().filter(|line| line.contains(RULE.name)).collect();
        assert_eq!(own.len(), 1, "{found:?}");
        assert!(own.iter().all(|line| line.contains("these 3 lines")), "{found:?}");
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn a_name_alone_becomes_a_drink() {
        let text = "Lantern Row\n  60 ml gin\n";
        let after = fixed(&RULE, text, "");
        assert_eq!(after.as_deref(), Some("drink: Lantern Row\n  60 ml gin\n"));
    }

    #[test]
    fn comments_and_blanks_may_come_first() {
        check(
            &RULE,
            "
# the winter list

book: The Copper Heron
section: Shaken
drink: A
  60 ml gin
",
        );
    }
}
