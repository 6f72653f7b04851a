//! Acid that nothing sweetens, or sugar that nothing sours, where the family needs both.

use washline_text::Severity;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Missing, acid, at_line, families, missing, most, sugar};

rule! {
    /// # Why
    /// A sour with no sugar on its card is most often a line lost in copying, and the shift pours it
    /// as it stands. Any line can be the counterpart: a liqueur, an amaro, a juice, a vermouth. What
    /// its family does not ask for is not missing: a dry stirred drink, or gin, lime and soda.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml  gin
    ///   25 ml  lemon juice
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
    ///   60 ml  gin
    ///   25 ml  lemon juice
    ///   20 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "missing-counterpart", Balance, Warning, Fixes::None, Check::Figures(find),
    why: "a line lost in copying is poured by the whole shift as it stands"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some(missing) = missing(context) {
        sink.report(report(context, missing));
    }
}

fn report(context: &Context<'_>, missing: Missing) -> Report {
    let (line, verb, other, help) = match missing {
        Missing::Sugar => (most(context, acid), "sours", "sweetens", "add the line that sweetens"),
        Missing::Acid => (most(context, sugar), "sweetens", "sours", "add the line that sours"),
    };
    let name = line.map_or("a line", |read| read.name.as_str());
    let message =
        format!("{name} {verb} and no line {other}; the family needs both: {}", families(context));
    let severity = match context.record.families.inferred {
        true => Severity::Information,
        false => Severity::Warning,
    };
    at_line(context, line, message)
        .help(format!("{help}, or name the family that does without"))
        .severity(severity)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, names, severity};
    use washline_text::Severity;

    #[test]
    fn acid_alone_in_a_sour() {
        check(
            &RULE,
            "
drink: A
  family: sour
  60 ml gin
  25 ml lemon juice
  ^^^^^^^^^^^^^^^^^
  2 dashes aromatic bitters
  - shake with ice, strain
",
        );
    }

    #[test]
    fn sugar_alone_in_a_sour() {
        check(
            &RULE,
            "
drink: A
  family: egg-sour
  60 ml bourbon
  20 ml sugar syrup, 1:1
  ^^^^^^^^^^^^^^^^^^^^^^
  1 egg white
  - dry shake, shake with ice, strain
",
        );
    }

    /// One cause, one finding: neither the ratio nor sugar nor acid is told beside it.
    #[test]
    fn it_is_told_alone() {
        for lines in ["25 ml lemon juice", "25 ml sugar syrup, 1:1"] {
            let text = format!(
                "drink: A\n  family: sour\n  60 ml gin\n  {lines}\n  - shake with ice, strain\n"
            );
            let found = names(&text, "");
            let balance = ["too-tart", "too-sweet", "sugar-out-of-band", "acid-out-of-band"];
            assert!(found.contains(&RULE.name), "{found:?}");
            assert!(found.iter().all(|name| !balance.contains(name)), "{found:?}");
        }
    }

    #[test]
    fn an_inferred_family_is_information() {
        let text = "drink: A\n  60 ml gin\n  25 ml lemon juice\n  - shake with ice, strain\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Information));
        let said = message(&RULE, text, "").unwrap();
        assert!(said.starts_with("lemon juice sours and no line sweetens"), "{said}");
    }

    /// Gin, lime and soda; a dry stirred drink; an amaro, a vermouth, a juice as the sweet.
    #[test]
    fn what_does_without_or_is_sweet_otherwise_lacks_nothing() {
        check(
            &RULE,
            "
drink: Long
  45 ml gin
  20 ml lime juice
  90 ml soda water
  - build over ice

drink: Long Said
  family: highball
  45 ml gin
  20 ml lime juice
  top soda water
  - build over ice

drink: Dry
  family: spirit-forward
  60 ml gin
  10 ml dry vermouth
  - stir with ice, strain

drink: Amaro
  family: sour
  45 ml bourbon
  22.5 ml lemon juice
  30 ml amaro
  - shake with ice, strain

drink: Juice
  family: sour
  45 ml rum
  15 ml lime juice
  60 ml pineapple juice
  - shake with ice, strain

drink: Pineapple Sours
  family: sour
  45 ml rum
  45 ml pineapple juice
  10 ml grenadine
  - shake with ice, strain
",
        );
    }

    #[test]
    fn a_line_of_no_known_size_may_be_it() {
        check(
            &RULE,
            "
drink: A
  family: sour
  60 ml gin
  25 ml lemon juice
  to taste sugar syrup
  - shake with ice, strain
",
        );
    }
}
