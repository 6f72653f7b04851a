//! A card without a step.

use super::asks;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Shaken, stirred or built, the same lines make three drinks. Without a step there is no dilution, no
    /// finished strength and no next shift that pours the same.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: wine glass
    ///   contains: sulphites
    ///
    ///   90 ml white wine
    ///   10 ml crème de cassis
    ///
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: wine glass
    ///   contains: sulphites
    ///
    ///   90 ml white wine
    ///   10 ml crème de cassis
    ///
    ///   - build in the glass
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "no-method", Method, Hint, Fixes::None, Check::Entry(find),
    why: "how it is made decides its strength, and nobody can compute it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !asks(context)
        || record.unread
        || !record.method.acts.is_empty()
        || record.reads.len() < 2
        || record.serves > 1.5
    {
        return;
    }
    sink.report(
        Report::entry(context, "no step says how it is made")
            .help("write how it is made: a line that starts with `- `"),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn lines_without_a_step_are_told() {
        check(
            &RULE,
            "
drink: A
       ^
  90 ml white wine
  10 ml creme de cassis
",
        );
    }

    #[test]
    fn a_step_a_batch_a_draft_and_a_single_pour_are_silent() {
        for more in [
            "- build",
            "serve: bottled",
            "serves: 12",
            "status: draft",
            "status: retired",
            "family: punch",
        ] {
            check(
                &RULE,
                &format!("\ndrink: A\n  90 ml white wine\n  10 ml creme de cassis\n  {more}\n"),
            );
        }
        check(&RULE, "\ndrink: A\n  40 ml pear brandy\n");
    }
}
