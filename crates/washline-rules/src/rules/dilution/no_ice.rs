//! A shake that never meets ice.

use washline_book::{ActRead, Melt};
use washline_reference::Sort;
use washline_syntax::{Key, Technique};
use washline_text::{Severity, Span, fold};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A shake without ice makes foam, and no cold. A card whose only shake is dry, with no ice before
    /// or behind it, pours a warm drink at full strength. A shake that never says its ice is read as
    /// with ice: the card is asked, no more.
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
    if iced || record.terms(Key::Serve).any(|(word, _)| matches!(&*fold(word), "rocks" | "long")) {
        return;
    }
    if watered {
        unsaid(context, sink);
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

/// A shake is read as with ice; a card that never says the word is only asked for it.
fn unsaid(context: &Context<'_>, sink: &mut Sink<'_>) {
    let method = &context.record.method;
    let wet = [Technique::Shake, Technique::HardShake, Technique::WetShake];
    let unsaid = |act: &&ActRead| act.is(&wet) && !act.act.no_ice && act.act.stated.is_none();
    let Some(act) = method.acts.iter().find(unsaid) else { return };
    if method.acts.iter().any(|act| act.says(&context.record.entry, &["ice", "cube", "rock"])) {
        return;
    }
    sink.report(
        Report::at(context, act.span(), "shaken, and ice is said nowhere: it is read as with ice")
            .severity(Severity::Hint)
            .help("say the ice it is shaken with")
            .fix(
                "write ` with ice`",
                false,
                vec![context.edit(Span::at(act.act.verb.end), " with ice")],
            ),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, severity};
    use washline_text::Severity;

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
    fn a_shake_that_says_no_ice_is_asked() {
        let text = "drink: A\n  60 ml gin\n  22.5 ml lemon juice\n  - shake for 12 s, strain\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Hint));
        let mended = fixed(&RULE, text, "").unwrap();
        assert!(mended.contains("- shake with ice for 12 s, strain"), "{mended}");
    }

    #[test]
    fn ice_anywhere_is_silent() {
        for steps in [
            "- dry shake, shake with ice, strain",
            "- dry shake, strain over crushed ice",
            "- shake with ice, strain into the tin, dry shake, strain",
            "- reverse dry shake, strain",
            "- shake, strain over the rocks",
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml gin\n  22.5 ml lemon juice\n  {steps}\n"));
        }
    }
}
