//! More sugar than the acid can carry.

use washline_book::Side;
use washline_text::Severity;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Beyond, acid, at_line, mend, mended, most, ratio, sugar};

rule! {
    /// # Why
    /// Above the sugar to acid band of its family a drink cloys, and the second one is not ordered.
    /// It is a ratio by mass, not by taste: bitterness, salt, cold and the kind of sugar are outside
    /// it, so the glass has the last word.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   15 ml    lemon juice
    ///   25 ml    sugar syrup, 1:1
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
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   20 ml    sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// [families.sour]
    /// ratio = [5, 12]
    /// ```
    ///
    /// # Source
    /// Bands: a published table of measured drinks and official specifications, as the families' data
    /// name them; the house's own where it sets them.
    "too-sweet", Balance, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "a drink that cloys is the last of its kind that the guest orders"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some(beyond) = ratio(context, Side::Above) {
        sink.report(report(context, &beyond));
    }
}

fn report(context: &Context<'_>, beyond: &Beyond) -> Report {
    let message = format!("sugar to acid, by mass, not by taste, is {}", beyond.words(context, ""));
    let mut report = at_line(context, most(context, sugar), message)
        .help("taste it; then pour less of what sweetens, or more of what sours")
        .severity(beyond.severity(context, Severity::Warning));
    if let Some(sour) = most(context, acid) {
        report = report.related(context.record.place(sour.span), "most of its acid");
    }
    mended(report, mend::of_ratio(context, beyond))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, findings, fixed, severity};
    use washline_text::Severity;

    const BAND: &str = "[families.sour]\nratio = [5, 12]\n";

    const SWEET: &str = "drink: A\n  family: sour\n  60 ml gin\n  15 ml lemon juice\n  \
                         25 ml sugar syrup, 1:1\n  - shake with ice, strain\n";

    #[test]
    fn it_points_at_the_sugar() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: sour
  60 ml gin
  15 ml lemon juice
  25 ml sugar syrup, 1:1
  ^^^^^^^^^^^^^^^^^^^^^^
  - shake with ice, strain
",
        );
        assert_eq!(severity(&RULE, SWEET, BAND), Some(Severity::Warning));
    }

    #[test]
    fn the_smallest_change_comes_first() {
        let after = fixed(&RULE, SWEET, BAND).unwrap();
        assert!(after.contains("22.5 ml lemon"), "{after}");
        assert!(findings(&after, BAND).iter().all(|finding| finding.rule != RULE.name));
    }

    /// The lines' own unit is kept: centilitres stay centilitres, and a dual line both its sides.
    #[test]
    fn the_lines_own_unit_is_kept() {
        let text = SWEET.replace("15 ml lemon", "1.5 cl (1/2 oz) lemon");
        let after = fixed(&RULE, &text, BAND).unwrap();
        assert!(after.contains("2.25 cl (3/4 oz) lemon juice"), "{after}");
    }

    #[test]
    fn what_cannot_be_mended_by_one_line_has_no_fix() {
        let text = "drink: A\n  family: sour\n  60 ml gin\n  juice of 1/4 lemon\n  \
                    4 sugar cubes\n  4 sugar cubes\n  - shake with ice, strain\n";
        let found = findings(text, BAND);
        let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert!(finding.fixes.is_empty());
    }

    /// A sour without acid lacks a line, and is told so by another rule.
    #[test]
    fn what_lacks_all_acid_is_told_once() {
        check(
            &RULE,
            "
drink: A
  family: sour
  60 ml gin
  30 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
    }

    /// What is sweet by its family, and what has no acid to speak of, is not held to a ratio.
    #[test]
    fn sweet_families_are_sweet() {
        check(
            &RULE,
            "
drink: Cream
  30 ml coffee liqueur
  30 ml vodka
  30 ml cream
  - shake with ice, strain

drink: Old
  60 ml bourbon
  1 tsp sugar
  2 dashes aromatic bitters
  - stir with ice, strain

drink: Vermouth
  60 ml sweet vermouth
  30 ml red bitter aperitif
  - stir with ice, strain

drink: No Family
  family: none
  30 ml gin
  10 ml lemon juice
  60 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
    }

    #[test]
    fn an_unknown_ingredient_gives_no_finding() {
        let text = SWEET.replace("60 ml gin", "60 ml moonlight of the north");
        check(&RULE, &text);
    }
}
