//! The marks that a merge left behind.

use washline_syntax::conflict_choices;
use washline_text::Place;

use crate::rule::rule;
use crate::{Check, Fixes, Report};

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
    "merge-conflict", Notation, Error, Fixes::Unsafe, Check::Reading,
    why: "two versions of the card stand in the file, and both are poured"
}

/// The ways to settle the conflict that starts at `place` of the file's `text`. A conflict may
/// stand across entries, so that the whole file is looked at.
pub(crate) fn settled(report: Report, text: &str, place: Place) -> Report {
    conflict_choices(text, place.span.start).into_iter().fold(report, |report, mend| {
        let edits = mend.edits.into_iter().map(|edit| (place.file, edit)).collect();
        report.fix(mend.title, mend.safe, edits)
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, severity};
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
    fn either_version_or_both_may_stay_across_entries() {
        let text = "drink: A\n  60 ml gin\n<<<<<<< ours\ndrink: B\n  60 ml rum\n=======\ndrink: C\n  60 ml rye\n>>>>>>> theirs\n";
        let found = findings(text, "");
        let conflict = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        let after: Vec<String> = conflict
            .fixes
            .iter()
            .map(|fix| {
                let edits: Vec<_> = fix.edits.iter().map(|(_, edit)| edit.clone()).collect();
                washline_text::apply(text, &edits).unwrap()
            })
            .collect();
        assert_eq!(
            after,
            [
                "drink: A\n  60 ml gin\ndrink: B\n  60 ml rum\n",
                "drink: A\n  60 ml gin\ndrink: C\n  60 ml rye\n",
                "drink: A\n  60 ml gin\ndrink: B\n  60 ml rum\ndrink: C\n  60 ml rye\n",
            ]
        );
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
