//! Stronger or weaker in the glass than its family is.

use washline_book::{Figure, Side};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Beyond, at_line, beyond, ethanol, mend, mended, most};

rule! {
    /// # Why
    /// A guest who orders by the family expects its strength: a sour that drinks like a spirit is a
    /// surprise, and one that drinks like lemonade a complaint. Where nobody says how the drink is
    /// made, its water is unknown and nothing is told.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Quarry Lane
    ///   family: spirit-forward
    ///   glass: small tulip, chilled
    ///   serve: up
    ///   contains: sulphites
    ///
    ///   30 ml  gin
    ///   75 ml  dry vermouth
    ///
    ///   - stir with ice for 25 s, strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Quarry Lane
    ///   family: spirit-forward
    ///   glass: small tulip, chilled
    ///   serve: up
    ///   contains: sulphites
    ///
    ///   60 ml  gin
    ///   15 ml  dry vermouth
    ///
    ///   - stir with ice for 25 s, strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// [families.spirit-forward]
    /// strength = [20, 35]
    /// ```
    ///
    /// # Source
    /// Bands: a published table of measured drinks and official specifications, as the families' data
    /// name them; the house's own where it sets them.
    "strength-out-of-band", Balance, Information, Fixes::Unsafe, Check::Figures(find),
    why: "a guest orders by the family and expects its strength"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some(beyond) = beyond(context, Figure::Abv) {
        sink.report(report(context, &beyond));
    }
}

fn report(context: &Context<'_>, beyond: &Beyond) -> Report {
    let message = format!("strength is {}", beyond.words(context, " % vol"));
    let help = match beyond.side {
        Side::Below => "pour more of the spirit or less beside it, or name another family",
        Side::Above => "stir or shake it longer, pour less of the spirit, or name another family",
    };
    let report = at_line(context, most(context, ethanol), message)
        .help(help)
        .severity(beyond.severity(context, beyond.grave()));
    mended(report, mend::of_figure(context, Figure::Abv, beyond))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, severity};
    use washline_text::Severity;

    const BAND: &str = "[families.sour]\nstrength = [12, 20]\n[families.spirit-forward]\n\
                        strength = [20, 35]\n";

    #[test]
    fn it_points_at_the_spirit() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: sour
  30 ml gin
  ^^^^^^^^^
  45 ml lemon juice
  45 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
    }

    #[test]
    fn far_out_is_a_warning() {
        let text = |gin: &str| {
            format!(
                "drink: A\n  family: sour\n  {gin} gin\n  25 ml lemon juice\n  \
                 25 ml sugar syrup, 1:1\n  - shake with ice, strain\n"
            )
        };
        assert_eq!(severity(&RULE, &text("25 ml"), BAND), Some(Severity::Information));
        assert_eq!(severity(&RULE, &text("12 ml"), BAND), Some(Severity::Warning));
        let inferred = text("12 ml").replace("  family: sour\n", "");
        assert_eq!(severity(&RULE, &inferred, BAND), Some(Severity::Information));
    }

    /// Nobody says how it is made: how much water it gains is unknown.
    #[test]
    fn unknown_dilution_accuses_nobody() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: spirit-forward
  60 ml overproof rum
  10 ml dry vermouth
",
        );
    }

    /// Navy gin in a blend, a base of bitters, a split base with a spoon of something smoky.
    #[test]
    fn strong_lines_are_no_strong_drink() {
        check(
            &RULE,
            "
drink: Blend
  family: sour
  30 ml gin
  15 ml navy strength gin
  22.5 ml lime juice
  22.5 ml sugar syrup, 1:1
  - shake with ice, strain

drink: Bitters Base
  family: sour
  45 ml aromatic bitters
  30 ml orgeat
  22.5 ml lemon juice
  15 ml rye whiskey
  - shake with ice, strain
",
        );
    }

    #[test]
    fn no_family_has_no_band() {
        check(
            &RULE,
            "
drink: A
  family: none
  60 ml overproof rum
  - stir with ice, strain
",
        );
    }
}
