//! A shake or a stir that no arm does.

use washline_syntax::Technique;

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `shake for 12 min` is 12 s in haste, and `stir for 3 s` is 30. Whoever reads it on the first night
    /// does something else than was meant, and the water gained is reckoned with the time. Past what
    /// an arm does, or too short to chill at all, is told; preps work by the hour.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 min, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// How long each is done: common practice, no source.
    "unlikely-time", Measures, Warning, Fixes::None, Check::Entry(find),
    why: "the first who reads it does something else than was meant"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    for act in &record.method.acts {
        let Some((low, high)) = act.act.seconds else { continue };
        let Some((least, most)) = act.act.technique.and_then(usual) else { continue };
        // Dry, there is no ice to chill with: a short one is a short one.
        let short = high < least && act.act.ice.is_some();
        if low <= most && !short {
            continue;
        }
        let verb = record.text(act.act.verb);
        let message = if short {
            format!("{verb} for {}: too short to chill anything", said(high))
        } else {
            format!("{verb} for {}: nobody does that for more than {}", said(low), said(most))
        };
        sink.report(
            Report::at(context, act.span(), message)
                .help("look at the number and at its unit: seconds for an arm, minutes for a rest"),
        );
    }
}

/// The least and the most seconds that a bar does it for, with room to spare.
const fn usual(technique: Technique) -> Option<(f64, f64)> {
    match technique {
        Technique::Shake | Technique::HardShake | Technique::WetShake => Some((3.0, 90.0)),
        Technique::DryShake | Technique::ReverseDryShake | Technique::WhipShake => {
            Some((1.0, 120.0))
        }
        Technique::Stir => Some((4.0, 180.0)),
        Technique::Swizzle | Technique::Churn | Technique::Throw | Technique::Roll => {
            Some((2.0, 120.0))
        }
        Technique::Blend | Technique::FlashBlend => Some((1.0, 240.0)),
        Technique::Muddle => Some((0.0, 120.0)),
        _ => None,
    }
}

fn said(seconds: f64) -> String {
    if seconds >= 120.0 {
        return format!("{} min", number(seconds / 60.0));
    }
    format!("{} s", number(seconds))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    fn of(step: &str) -> String {
        format!(
            "drink: A\n  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n  - {step}\n"
        )
    }

    #[test]
    fn minutes_of_shaking_are_told() {
        let said = "shake for 12 min: nobody does that for more than 90 s";
        let text = of("shake with ice for 12 min, strain");
        assert_eq!(message(&RULE, &text, "").as_deref(), Some(said));
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - stir with ice for 30 min, strain
    ^^^^^^^^^^^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_stir_too_short_to_chill_is_told() {
        let said = "stir for 3 s: too short to chill anything";
        let text = of("stir with ice for 3 s, strain");
        assert_eq!(message(&RULE, &text, "").as_deref(), Some(said));
    }

    #[test]
    fn what_arms_do_is_silent() {
        for step in [
            "shake hard with ice for 12 s, double strain",
            "dry shake for 60 s, shake with ice for 1 min, strain",
            "stir with ice for 45 s, strain",
            "stir with cracked ice for 2 min, strain",
            "blend with ice for 20 s, pour",
            "dry shake for 2 s, shake with ice for 10-15 s, strain",
        ] {
            check(&RULE, &of(step));
        }
    }

    #[test]
    fn a_rest_takes_its_time() {
        check(&RULE, &of("combine, rest for 2 hours, stir with ice for 20 s, strain"));
    }

    #[test]
    fn a_lift_with_the_spoon_needs_no_ice_of_its_own() {
        check(&RULE, &of("build over ice, stir for 2 s"));
    }

    #[test]
    fn preps_work_by_the_hour() {
        check(
            &RULE,
            "prep: A\n  100 g sugar\n  100 g water\n  - stir for 10 min\n  - blend for 8 min\n",
        );
    }

    #[test]
    fn last_years_card_is_left_alone() {
        check(&RULE, "drink: A\n  status: retired\n  60 ml gin\n  - shake with ice for 12 min\n");
    }
}
