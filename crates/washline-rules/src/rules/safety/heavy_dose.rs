//! More of something in a serve than a body should have.

use washline_reference::{Ingredient, ingredient};
use washline_text::Severity;

use super::{CODES, caution};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Some things are seasoning by the pinch and poison by the spoon: a whole nutmeg in a serve brings on a day of
    /// delirium, a dash of neat essential oil burns the throat. The sum counts what comes through preps, as if all of
    /// it went into the liquor.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Nutmeg Tincture
    ///   yields: 140 ml
    ///   keeps: 6 months dark
    ///
    ///   210 ml  overproof rum
    ///   60 g    nutmeg
    ///
    ///   - infuse for 3 days, fine strain
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   45 ml  aged rum
    ///   20 ml  nutmeg tincture
    ///   10 ml  rich sugar syrup
    ///
    ///   - stir with ice for 20 s, strain over the large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Nutmeg Tincture
    ///   yields: 200 ml
    ///   keeps: 6 months dark
    ///
    ///   210 ml  overproof rum
    ///   6 g     nutmeg
    ///
    ///   - infuse for 3 days, fine strain
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   45 ml  aged rum
    ///   20 ml  nutmeg tincture
    ///   10 ml  rich sugar syrup
    ///
    ///   - stir with ice for 20 s, strain over the large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// The most of each thing stands with it in the reference; all from memory or common practice.
    "heavy-dose", Safety, Warning, Fixes::None, Check::Figures(find),
    why: "by the pinch it seasons, by the spoon it poisons"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    for (id, at) in &record.reaches {
        let Some(known) = ingredient(*id) else { continue };
        let Some(dose) = known.dose.filter(|_| *at < record.reads.len()) else { continue };
        let Some(grams) = context.workspace.grams_a_serve(record, *id) else { continue };
        if grams > dose.value {
            sink.report(report(context, *at, known, grams));
        }
    }
}

fn report(context: &Context<'_>, at: usize, known: &Ingredient, grams: f64) -> Report {
    let (most, high) = known.dose.map_or((0.0, 0.0), |dose| (dose.value, dose.high));
    let message = format!(
        "up to {} g of {} a serve; {} g is the most that is usual",
        number(grams),
        known.name,
        number(most)
    );
    let report = Report::on(context.record, context.read_place(at), message)
        .severity(if grams > high { Severity::Warning } else { Severity::Information })
        .help(format!("weigh it by the serve and bring it below; {CODES}"));
    if known.cautions.is_empty() { report } else { report.why(caution(known)) }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    #[test]
    fn by_the_spoon() {
        check(
            &RULE,
            "
drink: A
  60 ml rum
  7 g nutmeg
      ^^^^^^
drink: B
  60 ml gin
  1 ml essential oil
       ^^^^^^^^^^^^^
",
        );
        let text = "drink: A\n  60 ml rum\n  7 g nutmeg\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("up to 7 g of nutmeg a serve; 2 g is the most that is usual")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(severity(&RULE, &text.replace('7', "3"), ""), Some(Severity::Information));
    }

    #[test]
    fn through_a_prep() {
        check(
            &RULE,
            "
drink: A
  30 ml Spice Rum
        ^^^^^^^^^
prep: Spice Rum
  yields: 300 ml
  300 ml rum
  60 g nutmeg
",
        );
    }

    /// Grated on top, a pinch, a batch for many, a drop of oil in a litre.
    #[test]
    fn by_the_pinch() {
        check(
            &RULE,
            "
drink: A
  60 ml rum
  garnish: grated nutmeg
drink: B
  60 ml rum
  1 pinch nutmeg
drink: C
  serves: 20
  1200 ml rum
  10 g nutmeg
drink: D
  30 ml Oil Syrup
prep: Oil Syrup
  yields: 800 ml
  500 g sugar
  500 g water
  5 drops essential oil
",
        );
    }
}
