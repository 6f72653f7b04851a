//! More or less sugar in the glass than its family has.

use washline_book::Figure;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Sink};

use super::{out_of_band, sugar, two_sweets};

rule! {
    /// # Why
    /// How much sugar a sip brings says how full it feels, whatever the acid beside it does. Where
    /// the ratio is out too, that finding says it; where the whole drink is thin, strength does.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Slate Ferry
    ///   family: old-fashioned
    ///   glass: old fashioned
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml     bourbon
    ///   22.5 ml   sugar syrup, 1:1
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 25 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Slate Ferry
    ///   family: old-fashioned
    ///   glass: old fashioned
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml     bourbon
    ///   5 ml      sugar syrup, 1:1
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 25 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// [families.old-fashioned]
    /// sugar = [0, 7]
    /// strength = [15, 40]
    /// ```
    ///
    /// # Source
    /// Bands: a published table of measured drinks and official specifications, as the families' data
    /// name them; the house's own where it sets them.
    "sugar-out-of-band", Balance, Information, Fixes::Unsafe, Check::Figures(find),
    why: "sugar is what makes a sip feel thin or heavy, whatever the acid does"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if two_sweets::tells(context) {
        return;
    }
    if let Some(report) = out_of_band(context, Figure::Sugar, sugar) {
        sink.report(report);
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    const BAND: &str = "[families.sour]\nratio = [1, 40]\nsugar = [5, 9]\nacid = [0.1, 3]\n\
                        strength = [5, 30]\n[families.old-fashioned]\nsugar = [0, 7]\n";

    fn sour(lemon: &str, syrup: &str) -> String {
        format!(
            "drink: A\n  family: sour\n  60 ml gin\n  {lemon} ml lemon juice\n  \
             {syrup} ml sugar syrup, 1:1\n  - shake with ice, strain\n"
        )
    }

    #[test]
    fn it_points_at_the_line_that_sweetens() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: sour
  60 ml gin
  30 ml lemon juice
  30 ml sugar syrup, 1:1
  ^^^^^^^^^^^^^^^^^^^^^^
  - shake with ice, strain
",
        );
    }

    #[test]
    fn far_out_is_a_warning() {
        assert_eq!(severity(&RULE, &sour("30", "30"), BAND), Some(Severity::Information));
        assert_eq!(severity(&RULE, &sour("60", "90"), BAND), Some(Severity::Warning));
        let said = message(&RULE, &sour("30", "30"), BAND).unwrap();
        assert!(said.contains("above the band of sour, 5 to 9"), "{said}");
    }

    #[test]
    fn an_inferred_family_is_information_at_most() {
        let text = sour("60", "90").replace("  family: sour\n", "");
        assert_eq!(severity(&RULE, &text, BAND), Some(Severity::Information));
    }

    /// The ratio is out by the same syrup: one cause, one finding.
    #[test]
    fn the_ratio_tells_it_where_it_is_out_too() {
        let band = BAND.replace("ratio = [1, 40]", "ratio = [5, 12]");
        check_under(&RULE, &band, &sour("15", "40"));
        check_under(&RULE, &band, &sour("40", "10"));
    }

    /// Too much soda thins all three: strength tells it.
    #[test]
    fn a_thin_drink_is_told_by_its_strength() {
        check_under(
            &RULE,
            "[families.collins]\nsugar = [5, 9]\nstrength = [5, 12]\nratio = [2, 30]\n",
            "
drink: A
  family: collins
  30 ml gin
  15 ml lemon juice
  15 ml sugar syrup, 1:1
  250 ml soda water
  - build over ice
",
        );
    }

    /// A dry stirred drink has no sugar to speak of, and neither has gin, lime and soda.
    #[test]
    fn dry_drinks_are_dry() {
        check(
            &RULE,
            "
drink: Dry
  family: spirit-forward
  60 ml gin
  10 ml dry vermouth
  - stir with ice, strain

drink: Long
  family: highball
  45 ml gin
  20 ml lime juice
  90 ml soda water
  - build over ice
",
        );
    }
}
