//! A shake that never meets ice.

use washline_book::Melt;
use washline_reference::Sort;
use washline_syntax::{Key, Technique};
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A shake without ice makes foam, and no cold. A card whose only shake is dry, with no ice before
    /// or behind it, pours a warm drink at full strength.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: egg-sour
    ///   glass: coupe, chilled
    ///   contains: egg
    ///   note: contains raw egg; a guest is told
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///   1 egg white
    ///
    ///   - dry shake for 15 s
    ///   - double strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: egg-sour
    ///   glass: coupe, chilled
    ///   contains: egg
    ///   note: contains raw egg; a guest is told
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///   1 egg white
    ///
    ///   - dry shake for 15 s
    ///   - shake with ice for 12 s
    ///   - double strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "no-ice", Dilution, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "without ice it is neither cold nor diluted"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired || record.families.is("hot") {
        return;
    }
    let method = &record.method;
    let watered = method.mixes.iter().any(|mix| mix.melt != Melt::None);
    let iced = method.acts.iter().any(|act| act.act.ice.is_some())
        || record.reads.iter().any(|read| read.sort_is(&[Sort::Ice]))
        || record.terms(Key::Ice).any(|(word, _)| fold(word) != "none");
    if watered || iced {
        return;
    }
    let shakes = [Technique::DryShake, Technique::Shake, Technique::HardShake];
    let shake = method
        .acts
        .iter()
        .find(|act| act.is(&shakes) && (act.act.no_ice || act.is(&[Technique::DryShake])));
    let Some(shake) = shake else { return };
    let below = context.line_below(shake.line as usize, "- shake with ice for 12 s");
    sink.report(
        Report::at(context, shake.span(), "the only shake is without ice")
            .help("shake it again with ice, before or behind, or serve it over ice")
            .fix("write `- shake with ice for 12 s` below", false, below.into_iter().collect()),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_lone_dry_shake_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  1 egg white
  - dry shake, strain
    ^^^^^^^^^
",
        );
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  - shake without ice, strain
    ^^^^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn ice_anywhere_is_silent() {
        for steps in [
            "- dry shake, shake with ice, strain",
            "- dry shake, strain over crushed ice",
            "- shake with ice, strain into the tin, dry shake, strain",
            "- reverse dry shake, strain",
            "- shake, strain",
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml gin\n  22.5 ml lemon juice\n  {steps}\n"));
        }
    }
}
