//! Smoke and open flame at the bar.

use washline_book::ActRead;
use washline_syntax::Technique;

use super::{CODES, notes};
use crate::rule::rule;
use crate::rules::alcohol::flame_near_spirit::lit;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A torch, a lit sprig or a smoking plank stands among paper, hair and spirit, and smoke in a full
    /// room sets off alarms and asthma. The card says what to have at hand, so that the newest hand behind the bar
    /// knows it too. A peel flamed over the glass is a spark and gone.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: old-fashioned
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml     bourbon
    ///   5 ml      rich sugar syrup
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain over the large cube
    ///   - smoke the glass with cherry wood
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: old-fashioned
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///   note: torch away from bottles and guests, extinguisher and ventilation at hand.
    ///
    ///   60 ml     bourbon
    ///   5 ml      rich sugar syrup
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain over the large cube
    ///   - smoke the glass with cherry wood
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// Common practice of the trade and of fire codes, no source.
    "smoke-or-flame", Safety, Warning, Fixes::None, Check::Entry(find),
    why: "a torch stands among paper, hair and spirit"
}

/// Words by which the card says what to have at hand.
const TOLD: &[&str] = &[
    "extinguish",
    "ventilat",
    "fire blanket",
    "fire code",
    "alarm",
    "away from guests",
    "heatproof",
];
/// What is flamed over a glass for its oils.
const PEELS: &[&str] = &["peel", "zest", "twist", "disc", "coin", "oil", "oils"];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    let Some(act) = record.method.acts.iter().find(|act| burns(context, act)) else { return };
    if notes(record, TOLD) {
        return;
    }
    let smoke = act.act.technique == Some(Technique::Smoke);
    let message = if smoke { "smoke at the bar" } else { "an open flame at the bar" };
    sink.report(
        Report::at(context, act.span(), format!("{message}, and the card says nothing of it")).help(
            format!(
                "untreated wood or herb sold for food alone, away from bottles, sleeves and guests, an extinguisher at hand, \
                 the room ventilated: say so in `note:`; {CODES}"
            ),
        ),
    );
}

/// Whether an act burns something other than a peel over a glass; spirit that is lit is told as that.
fn burns(context: &Context<'_>, act: &ActRead) -> bool {
    match act.act.technique {
        Some(Technique::Smoke) => true,
        Some(Technique::Flame | Technique::Light) => {
            lit(context, act).is_none() && !flames_peel(context, act)
        }
        _ => false,
    }
}

fn flames_peel(context: &Context<'_>, act: &ActRead) -> bool {
    let entry = &context.record.entry;
    let bare = act.act.object.is_empty() || act.says(entry, &["garnish"]);
    let peel = |name: &str| {
        let name = washline_text::fold(name);
        PEELS.iter().any(|word| name.contains(word))
    };
    act.says(entry, PEELS) || bare && context.record.garnishes.iter().any(|read| peel(&read.name))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, severity};
    use washline_text::Severity;

    #[test]
    fn smoke_and_open_flame() {
        check(
            &RULE,
            "
drink: A
  60 ml rum
  - smoke the glass with cherry wood
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
drink: B
  60 ml rum
  - stir with ice, strain
  - light a rosemary sprig, drop it in
    ^^^^^^^^^^^^^^^^^^^^^^
prep: C
  500 g salt
  - smoke over hay for 1 hour
    ^^^^^^^^^^^^^^^^^^^^^^^^^
drink: D
  60 ml rum
  - flame a cinnamon stick
    ^^^^^^^^^^^^^^^^^^^^^^
",
        );
        let text = "drink: A\n  60 ml rum\n  - smoke the glass\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
    }

    /// Spirit that is lit is told by its own rule.
    #[test]
    fn burning_spirit_is_told_once() {
        check(
            &RULE,
            "
drink: A
  15 ml overproof rum
  - light the overproof rum
",
        );
    }

    /// A flamed peel, smoky tea, smoked salt, a peaty whisky; and a card that says what to have at hand.
    #[test]
    fn silent_where_nothing_burns() {
        check(
            &RULE,
            "
drink: A
  60 ml bourbon
  - stir with ice, strain
  - flame an orange zest over the drink
  garnish: flamed orange zest
drink: B
  45 ml peated whisky
  60 ml lapsang tea
  rim smoked salt
  - build, stir
drink: C
  60 ml bourbon
  - stir with ice, strain, flame
  garnish: orange peel
drink: D
  note: under the cloche at the pass, extinguisher at hand
  60 ml bourbon
  - stir with ice, strain, smoke with oak
drink: E
  60 ml bourbon
  2 dashes smoke bitters
  - stir with ice, strain
",
        );
    }
}
