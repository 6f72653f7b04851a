//! A field that stands twice in one entry.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// Two `glass:` lines are two cards in one. Which of them holds, no one can tell, and an edit
    /// of one leaves the other behind. Notes, waivers, garnishes, other names and tags may stand as
    /// often as they like.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   glass: rocks
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
    /// # Flagged
    /// ```pour
    /// drink: Slate Ferry
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   glass: Coupe, chilled
    ///   contains: sulphites
    ///
    ///   60 ml (2 oz) gin
    ///   30 ml (1 oz) dry vermouth
    ///
    ///   - stir with ice for 30 s, strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Slate Ferry
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   60 ml (2 oz) gin
    ///   30 ml (1 oz) dry vermouth
    ///
    ///   - stir with ice for 30 s, strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: a key stands once, save `note`, `waive`, `garnish`, `also` and `tags`.
    "duplicate-field", Notation, Error, Fixes::Both, Check::Reading,
    why: "the next shift follows whichever line it reads first"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed, severity};
    use washline_text::Severity;

    #[test]
    fn the_second_is_told() {
        let text = "drink: A\n  glass: coupe\n  glass: rocks\n  60 ml gin\n";
        check(
            &RULE,
            "
drink: A
  glass: coupe
  glass: rocks
  ^^^^^
  60 ml gin
",
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn nobody_but_the_house_can_choose() {
        let text = "drink: A\n  glass: coupe\n  glass: rocks\n";
        let titles = |text: &str| -> Vec<(String, bool)> {
            let found = findings(text, "");
            let found = found.into_iter().find(|finding| finding.rule == RULE.name).unwrap();
            found.fixes.into_iter().map(|fix| (fix.title, fix.safe)).collect()
        };
        let keep = |value: &str| (format!("keep `{value}`"), false);
        assert_eq!(titles(text), [keep("coupe"), keep("rocks")]);
        let once = "take the second line out".to_owned();
        let same = "drink: A\n  glass: coupe\n  glass: Coupe\n";
        assert_eq!(titles(same), [(once.clone(), true)]);
        let remark = "drink: A\n  glass: coupe\n  glass: Coupe # the old ones\n";
        assert_eq!(titles(remark), [(once, false)], "a remark would go with it");
    }

    #[test]
    fn what_is_declared_is_put_together_and_never_dropped() {
        let text = "drink: A\n  contains: egg\n  60 ml gin\n  contains: milk\n";
        let together = "drink: A\n  contains: egg, milk\n  60 ml gin\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(together));
        for text in [
            "drink: A\n  contains: egg\n  contains: none\n",
            "drink: A\n  contains: nothing\n  contains: egg\n",
            "drink: A\n  free-from: egg\n  free-from: milk\n",
        ] {
            assert_eq!(fixed(&RULE, text, ""), None, "{text}");
        }
    }

    #[test]
    fn some_fields_may_stand_as_often_as_they_like() {
        check(
            &RULE,
            "
drink: A
  note: the tall shakers
  note: not on Sundays
  tags: winter
  tags: short
  garnish: lemon twist
  garnish: 1 cherry
  60 ml gin
prep: B
  also: house gin
  also: blue gin
  700 ml gin
",
        );
    }

    #[test]
    fn another_entry_has_its_own() {
        check(
            &RULE,
            "
drink: A
  glass: coupe
  60 ml gin
drink: B
  glass: coupe
  60 ml gin
",
        );
    }
}
