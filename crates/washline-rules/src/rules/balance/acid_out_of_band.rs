//! More or less acid in the glass than its family has.

use washline_book::Figure;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Sink};

use super::{acid, out_of_band};

rule! {
    /// # Why
    /// Acid is what a sip is remembered by: with sugar to match, a drink can keep its ratio and still
    /// be sharp all through, or flat. Where the ratio is out too, that finding says it.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   45 ml  gin
    ///   45 ml  lemon juice
    ///   45 ml  sugar syrup, 1:1
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
    ///   20 ml  lemon juice
    ///   20 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// [families.sour]
    /// ratio = [5, 18]
    /// acid = [0.5, 1.1]
    /// sugar = [4, 20]
    /// strength = [5, 25]
    /// ```
    ///
    /// # Source
    /// Bands: a published table of measured drinks and official specifications, as the families' data
    /// name them; the house's own where it sets them.
    "acid-out-of-band", Balance, Information, Fixes::Unsafe, Check::Figures(find),
    why: "a sharp drink with sugar to match is still sharp, and a flat one still flat"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some(report) = out_of_band(context, Figure::Acid, acid) {
        sink.report(report);
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    const BAND: &str = "[families.sour]\nratio = [5, 18]\nacid = [0.6, 1]\nsugar = [0, 40]\n\
                        strength = [1, 40]\n";

    fn sour(lemon: &str, syrup: &str) -> String {
        format!(
            "drink: A\n  family: sour\n  60 ml gin\n  {lemon} ml lemon juice\n  \
             {syrup} ml sugar syrup, 1:1\n  - shake with ice, strain\n"
        )
    }

    #[test]
    fn it_points_at_the_line_that_sours() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: sour
  60 ml gin
  45 ml lemon juice
  ^^^^^^^^^^^^^^^^^
  45 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
        let said = message(&RULE, &sour("45", "45"), BAND).unwrap();
        assert!(said.starts_with("acid, as citric, is 1.") && said.contains("above"), "{said}");
    }

    #[test]
    fn too_little_is_out_too() {
        let said = message(&RULE, &sour("7.5", "7.5"), BAND).unwrap();
        assert!(said.contains("below the band of sour, 0.6 to 1"), "{said}");
        assert_eq!(severity(&RULE, &sour("7.5", "7.5"), BAND), Some(Severity::Information));
    }

    #[test]
    fn far_out_is_a_warning() {
        assert_eq!(severity(&RULE, &sour("120", "120"), BAND), Some(Severity::Warning));
    }

    /// The ratio is out by the same juice: one cause, one finding.
    #[test]
    fn the_ratio_tells_it_where_it_is_out_too() {
        check_under(&RULE, BAND, &sour("60", "10"));
        check_under(&RULE, BAND, &sour("5", "30"));
    }

    #[test]
    fn families_without_a_band_of_acid_have_none() {
        check(
            &RULE,
            "
drink: Dry
  family: spirit-forward
  60 ml gin
  10 ml dry vermouth
  - stir with ice, strain

drink: Spritz
  family: spritz
  90 ml sparkling wine
  60 ml orange bitter aperitif
  - build over ice
",
        );
    }

    /// What nothing sours lacks a line: another finding tells it.
    #[test]
    fn a_missing_line_is_told_once() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: sour
  60 ml gin
  30 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
    }
}
