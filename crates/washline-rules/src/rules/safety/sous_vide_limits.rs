//! A bag in warm water with no temperature, too cool for hours, or too hot for the spirit in it.

use washline_book::{ActRead, Guard};
use washline_syntax::Technique;
use washline_text::Severity;

use super::CODES;
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A bag at 50 °C for a day is an incubator, at 75 °C for an hour a pasteuriser: without the temperature the card
    /// says neither. Strong spirit boils from 78 °C on, and a sealed bag of it swells, opens, and fills the kitchen with vapour.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Strawberry Water
    ///   yields: 800 ml
    ///   keeps: 3 days chilled
    ///
    ///   400 g  strawberries
    ///   600 g  water
    ///
    ///   - sous vide for 2 hours, fine strain
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   gin
    ///   120 ml  strawberry water
    ///
    ///   - build over ice, stir
    ///   garnish: strawberry
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Strawberry Water
    ///   yields: 800 ml
    ///   keeps: 3 days chilled
    ///
    ///   400 g  strawberries
    ///   600 g  water
    ///
    ///   - sous vide at 65 C for 2 hours, fine strain
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   gin
    ///   120 ml  strawberry water
    ///
    ///   - build over ice, stir
    ///   garnish: strawberry
    /// ```
    ///
    /// # Source
    /// FDA Food Code 3-501.16, hot holding at 57 °C, and 3-501.19, four hours (from memory); ethanol boils at 78.3 °C.
    "sous-vide-limits", Safety, Warning, Fixes::None, Check::Entry(find),
    why: "a bag too cool is an incubator, and one of hot spirit bursts"
}

/// What holds what is alive down, °C. Source: FDA Food Code 3-501.16, from memory.
const HOT_C: f64 = 54.0;
/// The longest below it, seconds.
const FOUR_HOURS: f64 = 4.0 * 3600.0;
/// Where strong spirit boils, °C, and from what strength that matters, % vol.
const BOILS_C: f64 = 78.0;
const STRONG: f64 = 30.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    let acts = record.method.acts.iter().enumerate();
    let Some((at, act)) =
        acts.into_iter().find(|(_, act)| act.act.technique == Some(Technique::SousVide))
    else {
        return;
    };
    let guard = record.guard_at(at);
    if let Some((severity, message, help)) = wrong(act, guard.as_ref()) {
        sink.report(
            Report::at(context, act.span(), message)
                .severity(severity)
                .help(format!("{help}; {CODES}")),
        );
    }
}

/// What is wrong, how grave it is, and what to do.
fn wrong(act: &ActRead, guard: Option<&Guard>) -> Option<(Severity, String, &'static str)> {
    let Some(celsius) = act.act.celsius else {
        let message = "sous vide, and no temperature is said".to_owned();
        return Some((Severity::Information, message, "write it: `sous vide at 60 C for 2 hours`"));
    };
    let guard = guard?;
    if celsius >= BOILS_C && guard.abv >= STRONG {
        let message =
            format!("{} % vol in a bag at {} °C: it boils", number(guard.abv), number(celsius));
        return Some((Severity::Warning, message, "stay at 65 °C or below, with room in the bag"));
    }
    let long = act.act.seconds.filter(|(low, _)| *low > FOUR_HOURS);
    let sour = if guard.ph_measured { guard.ph <= 4.6 } else { guard.acid >= 0.3 };
    let lives = guard.abv < 20.0 && guard.water_activity > 0.935 && !sour;
    let (low, _) = long.filter(|_| celsius < HOT_C && lives)?;
    let hours = number(low / 3600.0);
    let message = format!("{hours} hours at {} °C: what is alive in it grows", number(celsius));
    Some((
        Severity::Warning,
        message,
        "go above 57 °C, or stay below four hours and cool it at once",
    ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    #[test]
    fn too_cool_too_hot_unsaid() {
        check(
            &RULE,
            "
prep: A
  400 g strawberries
  600 g water
  - sous vide for 2 hours, strain
    ^^^^^^^^^^^^^^^^^^^^^
prep: B
  500 ml milk
  10 g cinnamon stick
  - sous vide at 45 C for 8 hours, strain
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
prep: C
  700 ml overproof rum
  10 g cinnamon stick
  - sous vide at 85 C for 1 hour, strain
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^
",
        );
        let text = "prep: B\n  500 ml milk\n  - sous vide at 45 C for 8 hours, strain\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("8 hours at 45 °C: what is alive in it grows")
        );
    }

    #[test]
    fn how_grave_it_is() {
        let of = |text: &str| severity(&RULE, text, "");
        assert_eq!(of("prep: A\n  1 l water\n  - sous vide\n"), Some(Severity::Information));
        assert_eq!(
            of("prep: A\n  700 ml overproof rum\n  - sous vide at 90 C for 1 hour\n"),
            Some(Severity::Warning)
        );
    }

    /// A cordial at 60 °C, a rum at 55 °C for a day, a syrup, a short warm bag, something sour.
    #[test]
    fn silent_where_it_is_right() {
        check(
            &RULE,
            "
prep: A
  400 g strawberries
  600 g water
  - sous vide at 60 C for 6 hours, strain
prep: B
  700 ml aged rum
  200 g pineapple
  - sous vide at 52 C for 24 hours, strain
prep: C
  1000 g sugar
  500 g water
  - sous vide at 50 C for 12 hours
prep: D
  500 ml milk
  - sous vide at 50 C for 2 hours
prep: E
  500 ml lemon juice
  100 g sugar
  - sous vide at 50 C for 6 hours
",
        );
    }
}
