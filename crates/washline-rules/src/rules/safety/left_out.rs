//! Something perishable left standing for hours with no cold said.

use washline_book::{ActRead, Guard};
use washline_syntax::Technique;
use washline_text::fold;

use super::CODES;
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Between 5 and 57 °C what is alive in nuts, leaves, milk and juice doubles every half hour. Soaking and steeping
    /// overnight is fine in the fridge and a gamble on the counter; where the card does not say, half of the shifts leave it out.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Almond Milk
    ///   contains: almond
    ///   yields: 780 ml
    ///   keeps: 3 days chilled
    ///
    ///   200 g   almonds
    ///   1000 g  water
    ///
    ///   - soak for 12 hours
    ///   - blend, strain through cloth, press
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: almond
    ///
    ///   45 ml   aged rum
    ///   120 ml  almond milk
    ///
    ///   - shake with ice for 12 s, strain over ice
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Almond Milk
    ///   contains: almond
    ///   yields: 780 ml
    ///   keeps: 3 days chilled
    ///
    ///   200 g   almonds
    ///   1000 g  water
    ///
    ///   - soak for 12 hours, chilled
    ///   - blend, strain through cloth, press
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: almond
    ///
    ///   45 ml   aged rum
    ///   120 ml  almond milk
    ///
    ///   - shake with ice for 12 s, strain over ice
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Source
    /// FDA Food Code 3-501.16 and 3-501.19, four hours out of the cold (from memory).
    "left-out", Safety, Information, Fixes::None, Check::Figures(find),
    why: "between 5 and 57 °C what lives in it doubles every half hour"
}

/// The longest out of the cold, seconds. Source: FDA Food Code 3-501.19, from memory.
const FOUR_HOURS: f64 = 4.0 * 3600.0;
/// Acts in which a thing stands.
const STANDS: &[Technique] = &[
    Technique::Rest,
    Technique::Soak,
    Technique::Steep,
    Technique::Infuse,
    Technique::Macerate,
    Technique::Cool,
    Technique::Bloom,
];
/// Words for the cold.
const COLD: &[&str] = &[
    "chill",
    "fridge",
    "refrigerat",
    "cold room",
    "on ice",
    "ice bath",
    "cooler",
    "freez",
    "in the cold",
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired || record.is_treated() {
        return;
    }
    let acts = &record.method.acts;
    let stands = acts.iter().enumerate().find(|(at, act)| {
        let long = act.act.seconds.is_some_and(|(low, _)| low > FOUR_HOURS);
        long && act.is(STANDS)
            && !is_cold(context, act)
            // `rest overnight, chilled` reads as two acts of one step.
            && !acts.iter().skip(at + 1).any(|next| next.line == act.line && is_cold(context, next))
    });
    let Some((at, act)) = stands else { return };
    let Some(guard) = record.guard_at(at).filter(turns) else { return };
    let hours = act.act.seconds.map_or(0.0, |(low, _)| low / 3600.0);
    let message = format!(
        "{} hours with no cold said, at {} % vol, {} Brix, {} % acid",
        number(hours),
        number(guard.abv),
        number(guard.brix.round()),
        number(guard.acid)
    );
    sink.report(
        Report::at(context, act.span(), message)
            .help(format!("write `chilled` behind the time if it stands in the fridge; {CODES}")),
    );
}

fn is_cold(context: &Context<'_>, act: &ActRead) -> bool {
    let words = fold(context.record.text(act.span()));
    act.is(&[Technique::Chill, Technique::Refrigerate, Technique::Freeze])
        || COLD.iter().any(|cold| words.contains(cold))
        || act.act.celsius.is_some_and(|celsius| celsius <= 8.0)
}

/// Whether it is wet, weak and neither sour nor salt.
fn turns(guard: &Guard) -> bool {
    let sour = if guard.ph_measured { guard.ph <= 4.6 } else { guard.acid >= 0.3 };
    guard.liquid
        && !sour
        && !guard.is_oil()
        && guard.abv < 10.0
        && guard.water_activity > 0.95
        && guard.salt < 3.0
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn hours_on_the_counter() {
        check(
            &RULE,
            "
prep: A
  100 g ground coffee
  1 kg water
  - steep for 14 hours, strain
    ^^^^^^^^^^^^^^^^^^
prep: B
  200 g almonds
  800 g water
  600 g sugar
  - soak the almonds in the water for 8 hours
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  - blend, strain, add the sugar
",
        );
        let text =
            "prep: A\n  500 ml milk\n  10 g cinnamon stick\n  - infuse for 6 hours, strain\n";
        assert!(message(&RULE, text, "").unwrap().starts_with("6 hours with no cold said"));
    }

    /// In the fridge, for two hours, in spirit, in sugar, in vinegar, a ferment, an oleo.
    #[test]
    fn silent_where_it_may_stand() {
        check(
            &RULE,
            "
prep: A
  100 g ground coffee
  1 kg water
  - steep for 14 hours, chilled, strain
prep: B
  100 g ground coffee
  1 kg water
  - steep for 2 hours, strain
prep: C
  700 ml rum
  100 g raspberries
  - infuse for 3 days, strain
prep: D
  500 g raspberries
  400 g sugar
  300 ml cider vinegar
  - macerate for 24 hours, strain
prep: E
  peel of 8 lemons
  400 g sugar
  - muddle, rest for 24 hours
prep: F
  1 l water
  100 g sugar
  - ferment for 3 days
prep: G
  1 l milk
  - steep in the fridge for 12 hours
",
        );
    }
}
