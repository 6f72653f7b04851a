//! A shake that never leaves the tin.

use washline_book::{ActRead, Melt, is_shaken};
use washline_syntax::{Key, Technique};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A shake ends when the drink leaves its ice. A card that stops at the shake leaves open whether it
    /// is strained up, over fresh ice, or poured as it is.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s
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
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "unstrained", Dilution, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "the next shift serves it with its shards of ice, or waters it on old ice"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    let method = &record.method;
    let shaken = method.mixes.iter().rev().find(|mix| matches!(mix.melt, Melt::Shake));
    let Some(mix) = shaken else { return };
    let serves = [Technique::Serve, Technique::Top, Technique::Dump, Technique::Bottle];
    if method.leaves_after(mix.act) || method.has_after(mix.act, &serves) {
        return;
    }
    let Some(act) = method.act(mix.act) else { return };
    // `shake and dump` is one act that does both.
    if act.says(&record.entry, &["dump", "pour", "strain"]) || record.field(Key::Vessel).is_some() {
        return;
    }
    let report = Report::at(context, act.span(), "shaken, and never strained or poured")
        .help("say how it leaves the tin: strain, double strain, or an open pour");
    // Behind the last shake: what is strained and shaken again is in the tin again.
    let shaken = |act: &&ActRead| act.act.technique.is_some_and(is_shaken);
    let last = method.acts.iter().rev().find(shaken).map_or(act.line, |last| last.line);
    let below = |text| context.line_below(last as usize, text).into_iter().collect();
    sink.report(report.fix("write `- strain`", false, below("- strain")).fix(
        "write `- double strain`",
        false,
        below("- double strain"),
    ));
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_shake_that_ends_the_card_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  - shake with ice
    ^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn every_way_out_is_silent() {
        for steps in [
            "- shake with ice, strain",
            "- shake with ice, double strain",
            "- shake with ice, open pour",
            "- shake and dump",
            "- shake with ice, dirty dump into the glass",
            "- shake with ice, pour into a rocks glass",
            "- shake with ice, strain into the tin, dry shake, strain",
            "- stir with ice",
            "- dry shake, shake with ice, fine strain",
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml gin\n  22.5 ml lemon juice\n  {steps}\n"));
        }
    }
}
