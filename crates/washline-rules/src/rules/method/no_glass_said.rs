//! A card without a glass.

use washline_syntax::Key;

use super::{asks, is_asked_by_house};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// The glass decides the wash line, the ice and the look. A card without one is poured into what is
    /// nearest.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
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
    "no-glass-said", Method, Hint, Fixes::None, Check::Entry(find),
    why: "the same drink comes in three glasses, and fits in one"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let told = is_asked_by_house(context, Key::Glass);
    if told || !asks(context) || context.record.says_glass() {
        return;
    }
    sink.report(
        Report::entry(context, "no glass is said")
            .help("write `glass:` with the glass, and its size where the house's differs"),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn silence_is_told() {
        check(
            &RULE,
            "
drink: A
       ^
  60 ml gin
  - stir with ice, strain
",
        );
    }

    #[test]
    fn a_field_or_a_step_says_it() {
        for said in [
            "glass: coupe",
            "- stir with ice, strain into a chilled coupe",
            "status: draft",
            "serve: bottled",
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml gin\n  {said}\n"));
        }
    }

    #[test]
    fn a_batch_without_steps_is_silent() {
        check(&RULE, "\ndrink: A\n  400 ml gin\n  200 ml rum\n  serves: 8\n");
    }
}
