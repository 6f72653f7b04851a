//! A step before the one it follows.

use washline_book::{Goes, is_shaken};
use washline_reference::Trait;
use washline_syntax::Technique;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Steps are read top to bottom behind a busy bar. A strain before the shake, or a top that goes in
    /// before it, is either a slip of the card or a mess on the bar.
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
    ///   - double strain into the coupe
    ///   - shake with ice for 12 s, pour
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
    ///   - shake with ice for 12 s, double strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "step-out-of-order", Dilution, Warning, Fixes::None, Check::Entry(find),
    why: "followed as it is written, the drink cannot be made"
}

const STRAINS: &[Technique] = &[Technique::Strain, Technique::DoubleStrain, Technique::FineStrain];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    let method = &record.method;
    let mixes = |act: &washline_book::ActRead| {
        act.act.technique.is_some_and(|t| is_shaken(t) || t == Technique::Stir)
    };
    let Some(first) = method.acts.iter().position(mixes) else { return };
    let shakes = method.acts.iter().skip(first).any(|a| a.act.technique.is_some_and(is_shaken));
    for act in method.acts.iter().take(first) {
        if act.is(STRAINS) && act.goes == Goes::Out {
            sink.report(
                Report::at(context, act.span(), "strained before it is mixed")
                    .help("strain it behind the shake or the stir"),
            );
            return;
        }
        let topped = act.is(&[Technique::Top]) && shakes;
        let fizzy = act.mentions.iter().filter_map(|line| record.reads.get(*line));
        if topped && fizzy.into_iter().any(|read| read.is(Trait::Carbonated)) {
            sink.report(
                Report::at(context, act.span(), "topped before it is shaken")
                    .help("top it last, in the glass"),
            );
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_strain_before_the_shake_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  - strain into the coupe
    ^^^^^^^^^^^^^^^^^^^^^
  - shake with ice, pour
",
        );
    }

    #[test]
    fn a_top_before_the_shake_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  top soda water
  - top with soda water
    ^^^^^^^^^^^^^^^^^^^
  - shake with ice, strain
",
        );
    }

    #[test]
    fn the_usual_orders_are_silent() {
        for steps in [
            "- shake with ice, strain, top with soda water",
            "- shake with ice, strain into the tin, dry shake, strain",
            "- muddle the lemon juice, shake with ice, strain",
            "- rinse the glass, stir with ice, strain",
            "- fill the glass with ice, shake with ice, strain",
        ] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  60 ml gin\n  22.5 ml lemon juice\n  top soda water\n  {steps}\n"
                ),
            );
        }
    }
}
