//! A card without a garnish, and without saying so.

use super::{asks, is_asked_by_house};
use washline_syntax::{Key, Role, Technique};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A garnish is part of the spec; so is none. A card that is silent leaves it to whoever is on.
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
    ///   - shake with ice for 12 s, double strain
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
    ///   garnish: none
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "no-garnish-said", Method, Hint, Fixes::None, Check::Entry(find),
    why: "the next shift guesses, and every glass looks different"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let shown = [Technique::Garnish, Technique::Express, Technique::Grate, Technique::Dust];
    let rimmed = record.reads.iter().any(|read| matches!(read.role, Role::Rim | Role::Garnish));
    let told = is_asked_by_house(context, Key::Garnish);
    if told || rimmed || is_poured_as_it_is(context) {
        return;
    }
    if !asks(context) || record.field(Key::Garnish).is_some() || record.method.has(&shown) {
        return;
    }
    sink.report(
        Report::entry(context, "no garnish is said")
            .help("write `garnish:` with the garnish, or `garnish: none`"),
    );
}

/// One thing by the glass, or a neat pour: there is nothing to dress.
fn is_poured_as_it_is(context: &Context<'_>) -> bool {
    let record = context.record;
    record.reads.len() == 1 && record.method.mixes.is_empty() || record.families.is("neat")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn silence_is_told_and_none_is_said() {
        check(
            &RULE,
            "
drink: A
       ^
  60 ml gin
  - stir with ice, strain
",
        );
        for said in [
            "garnish: none",
            "garnish: lemon twist",
            "- garnish with a twist",
            "status: draft",
            "status: retired",
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml gin\n  10 ml rum\n  {said}\n"));
        }
        check(&RULE, "\ndrink: A\n  60 ml gin\n  10 ml rum\n  rim (half) salt\n");
        check(&RULE, "\ndrink: House White\n  150 ml white wine\n  - pour\n");
        check(&RULE, "\nprep: A\n  60 ml gin\n");
    }

    #[test]
    fn a_batch_without_steps_is_silent() {
        check(&RULE, "\ndrink: A\n  400 ml gin\n  200 ml rum\n  serves: 8\n");
    }
}
