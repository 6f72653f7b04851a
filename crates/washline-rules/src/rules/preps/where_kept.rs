//! A prep that needs the fridge and does not say where it stands.

use crate::rule::rule;
use crate::words::{list, number};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Below 20 % vol and 65 Brix a prep ferments on the back bar within days, and in the fridge
    /// within weeks. A label that says how long and not where is right in one place only.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 715 ml
    ///   keeps: 2 weeks
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - warm to 50 C, stir until even
    ///   - cool, bottle, label
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 715 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - warm to 50 C, stir until even
    ///   - cool, bottle, label
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "where-kept", Preps, Information, Fixes::Unsafe, Check::Figures(find),
    why: "the same label is right in the fridge and wrong on the back bar"
}

/// Sugar from which a syrup keeps on the shelf, % of mass.
const THICK: f64 = 65.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired {
        return;
    }
    // With no time either, that is what is told.
    let Some(keeps) = record.keeps() else { return };
    // A place in words that `keeps:` does not know is told where it is read.
    let doubted = record.entry.problems.iter().any(|problem| {
        keeps.span.start <= problem.span.start && problem.span.end <= keeps.span.end
    });
    if doubted || record.shelf().is_some() || record.is_treated() {
        return;
    }
    let Some(guard) = record.guard() else { return };
    if !guard.liquid || guard.is_oil() || guard.is_stable() && guard.brix >= THICK {
        return;
    }
    if guard.is_strong() || guard.is_stable() && guard.brix < 1.0 {
        return;
    }
    let mut holds = vec![format!("{} Brix", number(guard.brix.round()))];
    if guard.abv >= 0.5 {
        holds.push(format!("{} % vol", number(guard.abv)));
    }
    let said = record.text(keeps.span);
    let message = format!("kept {said}, and nobody says where: it has {}", list(&holds));
    sink.report(
        Report::at(context, keeps.span, message)
            .help("write the place behind the time: `chilled`, `frozen`, `ambient`")
            .fix(
                format!("write `{said} chilled`"),
                false,
                vec![context.edit(keeps.span, format!("{said} chilled"))],
            ),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn what_needs_the_fridge() {
        check(
            &RULE,
            "
prep: A
  keeps: 2 weeks
         ^^^^^^^
  500 g sugar
  500 g water
prep: B
  keeps: 5 days
         ^^^^^^
  300 ml sweet vermouth
  200 ml water
",
        );
        let text = "prep: A\n  keeps: 2 weeks\n  500 g sugar\n  500 g water\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("kept 2 weeks, and nobody says where: it has 50 Brix")
        );
        assert!(fixed(&RULE, text, "").unwrap().contains("keeps: 2 weeks chilled\n"));
    }

    #[test]
    fn said_in_any_way() {
        check(
            &RULE,
            "
prep: A
  keeps: 2 weeks in the fridge
  500 g sugar
  500 g water
prep: B
  keeps: 2 weeks
  store: fridge
  500 g sugar
  500 g water
prep: C
  keeps: 2 weeks
  500 g sugar
  500 g water
  - bottle, refrigerate
prep: D
  keeps: 2 days ambient
  500 g sugar
  500 g water
",
        );
    }

    /// Spirit, a thick syrup, brine, dry sugar, oil; and no time at all is another finding.
    #[test]
    fn what_stands_anywhere() {
        check(
            &RULE,
            "
prep: A
  keeps: 1 year
  700 ml vodka
  20 g cinnamon stick
prep: B
  keeps: 2 months
  1000 g sugar
  500 g water
prep: C
  keeps: 3 months
  20 g salt
  80 g water
prep: D
  keeps: 6 months
  500 g sugar
  10 g salt
prep: E
  keeps: 3 weeks
  500 ml olive oil
prep: F
  500 g sugar
  500 g water
",
        );
    }
}
