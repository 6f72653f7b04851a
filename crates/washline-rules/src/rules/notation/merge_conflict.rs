//! The marks that a merge left behind.

use crate::rule::rule;
use crate::{Check, Fixes};

rule! {
    /// # Why
    /// Two people changed the same lines, and the version control wrote both down between lines of
    /// `<`, `=` and `>`. Which of the two the bar pours, only the bar can say. What stands between
    /// the marks is not checked until then.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    /// <<<<<<< ours
    ///   60 ml gin
    /// =======
    ///   45 ml gin
    /// >>>>>>> summer-list
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
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
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The manual of git, "git merge", How conflicts are presented.
    "merge-conflict", Notation, Error, Fixes::None, Check::Reading,
    why: "two versions of the card stand in the file, and both are poured"
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, severity};
    use washline_text::Severity;

    #[test]
    fn a_conflict_is_told_once() {
        check(
            &RULE,
            "
drink: A
<<<<<<< ours
^^^^^^^^^^^^
  60 ml gin
  glass: coupe
=======
  45 ml gin
  glass: rocks
>>>>>>> theirs
",
        );
        let text = "drink: A\n<<<<<<< ours\n=======\n>>>>>>> theirs\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn a_mark_without_its_start_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
>>>>>>> theirs
^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_rule_drawn_in_a_comment_is_silent() {
        check(
            &RULE,
            "
drink: A
  # =======
  60 ml gin
",
        );
    }
}
