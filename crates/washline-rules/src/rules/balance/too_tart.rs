//! More acid than the sugar can carry.

use washline_book::Side;
use washline_text::Severity;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Beyond, acid, at_line, mend, mended, most, ratio, sugar};

rule! {
    /// # Why
    /// The sugar to acid ratio is what makes a sour one: below its family's band the drink bites,
    /// and comes back over the bar. It is a ratio by mass, not by taste: bitterness, salt, cold and
    /// the kind of sugar are outside it, so the glass has the last word.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   30 ml    lemon juice
    ///   10 ml    sugar syrup, 1:1
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
    "too-tart", Balance, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "a guest sends back a drink that bites before anyone asks what is in it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some(beyond) = ratio(context, Side::Below) {
        sink.report(report(context, &beyond));
    }
}

fn report(context: &Context<'_>, beyond: &Beyond) -> Report {
    let message = format!("sugar to acid, by mass, not by taste, is {}", beyond.words(context, ""));
    let mut report = at_line(context, most(context, acid), message)
        .help("taste it; then pour more of what sweetens, or less of what sours")
        .severity(beyond.severity(context, Severity::Warning));
    if let Some(sweet) = most(context, sugar) {
        report = report.related(context.record.place(sweet.span), "most of its sugar");
    }
    mended(report, mend::of_ratio(context, beyond))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, findings, fixed, message, severity};
    use washline_text::Severity;

    const BAND: &str = "[families.sour]\nratio = [5, 12]\n[families.daisy]\nratio = [5, 12]\n";

    const TART: &str = "drink: A\n  family: sour\n  60 ml gin\n  30 ml lemon juice\n  \
                        10 ml (1/3 oz) sugar syrup, 1:1\n  - shake with ice, strain\n";

    #[test]
    fn it_points_at_the_acid() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: sour
  60 ml gin
  30 ml lemon juice
  ^^^^^^^^^^^^^^^^^
  10 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
    }

    #[test]
    fn it_says_by_mass_and_not_by_taste() {
        let message = message(&RULE, TART, BAND).unwrap();
        assert!(message.starts_with("sugar to acid, by mass, not by taste, is 3."), "{message}");
        assert!(message.ends_with("below the band of sour, 5 to 12"), "{message}");
        assert_eq!(severity(&RULE, TART, BAND), Some(Severity::Warning));
    }

    /// The mend is one line, its bracket with it, and says what the glass gets.
    #[test]
    fn one_line_mends_it_and_the_title_tells_the_figures() {
        let after = fixed(&RULE, TART, BAND).unwrap();
        assert!(after.contains("  15 ml (1/2 oz) sugar syrup"), "{after}");
        assert!(findings(&after, BAND).iter().all(|finding| finding.rule != RULE.name));
        let found = findings(TART, BAND);
        let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        let title = &finding.fixes[0].title;
        assert!(title.starts_with("pour 15 ml sugar syrup, not 10 ml: ratio 3."), "{title}");
        for figure in ["sugar ", "acid ", "strength "] {
            assert!(title.contains(figure), "{title}");
        }
        assert!(finding.fixes.iter().all(|fix| !fix.safe));
        let others: Vec<&str> = finding.fixes.iter().map(|fix| fix.title.as_str()).collect();
        assert!(others.iter().any(|title| title.contains("lemon juice, not 30 ml")), "{others:?}");
    }

    #[test]
    fn the_houses_jiggers_pour_the_mend() {
        let settings = format!("jiggers = [20, 25, 50]\n{BAND}");
        let after = fixed(&RULE, &TART.replace(" (1/3 oz)", ""), &settings).unwrap();
        assert!(after.contains("20 ml sugar syrup") || after.contains("20 ml lemon"), "{after}");
    }

    #[test]
    fn ounces_are_mended_in_eighths() {
        let text = "drink: A\n  family: sour\n  2 oz gin\n  1 oz lemon juice\n  \
                    3/8 oz sugar syrup, 1:1\n  - shake with ice, strain\n";
        let after = fixed(&RULE, text, BAND).unwrap();
        assert!(after.contains("1/2 oz sugar syrup") || after.contains("5/8 oz sugar"), "{after}");
    }

    #[test]
    fn leaning_out_is_a_hint_that_says_so() {
        let text = TART.replace("10 ml (1/3 oz)", "15 ml");
        let settings = "[families.sour]\nratio = [5.8, 12]\n";
        assert_eq!(severity(&RULE, &text, settings), Some(Severity::Hint));
        let message = message(&RULE, &text, settings).unwrap();
        assert!(message.contains("leaning below") && message.contains("reaches in"), "{message}");
    }

    #[test]
    fn an_inferred_family_is_information() {
        let text = TART.replace("  family: sour\n", "");
        assert_eq!(severity(&RULE, &text, BAND), Some(Severity::Information));
        assert!(message(&RULE, &text, BAND).unwrap().contains("states no family"));
    }

    /// An amaro sweetens, and so do a liqueur and an aperitif in equal parts with the juice.
    #[test]
    fn amari_and_equal_parts_are_no_fault() {
        check(
            &RULE,
            "
drink: Amaro
  family: daisy
  45 ml bourbon
  22.5 ml lemon juice
  30 ml amaro
  - shake with ice, strain

drink: Equal
  family: daisy
  22.5 ml gin
  22.5 ml lemon juice
  22.5 ml orange liqueur
  22.5 ml orange bitter aperitif
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

    /// A rim of salt is not in the drink, a toddy is no sour, and gin, lime and soda wants no sugar.
    #[test]
    fn what_is_no_sour_is_not_held_to_one() {
        check(
            &RULE,
            "
drink: Rimmed
  family: daisy
  50 ml tequila
  30 ml orange liqueur
  20 ml lime juice
  rim (half) salt
  - shake with ice, strain

drink: Toddy
  45 ml rum
  15 ml lemon juice
  1 tsp honey
  120 ml hot water
  - stir

drink: Long
  45 ml gin
  20 ml lime juice
  90 ml soda water
  - build over ice
",
        );
    }

    /// Nothing sweetens it: that is another finding, and the only one.
    #[test]
    fn what_lacks_all_sugar_is_told_once() {
        check(
            &RULE,
            "
drink: A
  family: sour
  60 ml gin
  30 ml lemon juice
  - shake with ice, strain
",
        );
    }
}
