//! A step before the one it follows.

use washline_book::{ActRead, Goes, is_shaken};
use washline_reference::Trait;
use washline_syntax::Technique;

use crate::lines;
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
    ///   - shake with ice for 12 s
    ///   - double strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "step-out-of-order", Dilution, Warning, Fixes::Unsafe, Check::Entry(find),
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
            let report = Report::at(context, act.span(), "strained before it is mixed")
                .help("strain it behind the shake or the stir");
            let stays = !method.leaves_after(first);
            sink.report(if stays { moved_last(context, act, report) } else { report });
            return;
        }
        let topped = act.is(&[Technique::Top]) && shakes;
        let fizzy = act.mentions.iter().filter_map(|line| record.reads.get(*line));
        if topped && fizzy.into_iter().any(|read| read.is(Trait::Carbonated)) {
            let report = Report::at(context, act.span(), "topped before it is shaken")
                .help("top it last, in the glass");
            sink.report(moved_last(context, act, report));
            return;
        }
    }
}

/// The same with a mend: a step of this act alone goes behind all others.
fn moved_last(context: &Context<'_>, act: &ActRead, report: Report) -> Report {
    let acts = &context.record.method.acts;
    let alone = acts.iter().filter(|other| other.line == act.line).count() == 1;
    let Some(last) = acts.last().filter(|_| alone) else { return report };
    let words = context.record.text(act.span());
    match lines::moved(context.record, &[act.line as usize], last.line as usize) {
        Some(edits) => report.fix(format!("do `{words}` last"), false, edits),
        None => report,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed};

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
    fn a_step_of_its_own_goes_last() {
        let text = "drink: A\r\n  60 ml gin\r\n  22.5 ml lemon juice\r\n  top soda water\r\n  - top with soda water # cold\r\n  - shake with ice, strain\r\n";
        let mended = "drink: A\r\n  60 ml gin\r\n  22.5 ml lemon juice\r\n  top soda water\r\n  - shake with ice, strain\r\n  - top with soda water # cold\r\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(mended));
        let bound = "drink: A\n  60 ml gin\n  22.5 ml lemon juice\n  - strain, shake with ice\n";
        assert_eq!(fixed(&RULE, bound, ""), None, "one line does both");
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
