//! An up drink in a glass that nobody chills.

use washline_book::Melt;
use washline_syntax::{Key, Technique};
use washline_text::fold;

use super::served_up;
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A drink served up has no ice to keep it. A chilled glass holds its cold for the first half; a
    /// warm one takes it at once.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe
    ///   serve: up
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
    ///   serve: up
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
    "cold-glass", Dilution, Information, Fixes::Unsafe, Check::Entry(find),
    why: "a warm glass gives back what the ice took out"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired || record.families.is("hot") || !served_up(context) {
        return;
    }
    let Some(glass) = record.field(Key::Glass) else { return };
    let cold = |text: &str| {
        let text = fold(text);
        ["chill", "frozen", "cold", "frost", "iced"].iter().any(|word| text.contains(word))
    };
    let method = &record.method;
    let mixed = method.mixes.iter().any(|mix| mix.melt != Melt::None);
    let said = cold(record.text(glass.value_span))
        || method.has(&[Technique::Chill])
        || method.acts.iter().any(|act| cold(record.text(act.act.span)));
    if said || !mixed || !strained(context) {
        return;
    }
    let end = washline_text::Span::at(glass.value_span.end);
    sink.report(
        Report::at(context, glass.value_span, "served up, and no cold glass said")
            .help("write `chilled` behind the glass")
            .fix("write `, chilled`", false, vec![context.edit(end, ", chilled")]),
    );
}

/// Whether it leaves its ice behind; a drink that says `serve: up` does.
fn strained(context: &Context<'_>) -> bool {
    let record = context.record;
    let strains = [Technique::Strain, Technique::DoubleStrain, Technique::FineStrain];
    record.field(Key::Serve).is_some() || record.method.has(&strains)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed};

    #[test]
    fn a_warm_coupe_is_told() {
        check(
            &RULE,
            "
drink: A
  glass: coupe
         ^^^^^
  serve: up
  60 ml gin
  - stir with ice, strain
",
        );
        let text =
            "drink: A\n  glass: coupe\n  serve: up\n  60 ml gin\n  - stir with ice, strain\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("glass: coupe, chilled\n"));
    }

    #[test]
    fn a_stem_with_no_ice_is_up() {
        check(
            &RULE,
            "
drink: A
  glass: coupe
         ^^^^^
  60 ml gin
  - stir with ice, strain
",
        );
        check(
            &RULE,
            "\ndrink: A\n  glass: wine glass\n  60 ml gin\n  - stir with ice, strain over ice\n",
        );
    }

    #[test]
    fn cold_said_anywhere_is_silent() {
        for (glass, steps) in [
            ("coupe, chilled", "- stir with ice, strain"),
            ("coupe, frozen", "- stir with ice, strain"),
            ("coupe", "- stir with ice, strain into a chilled coupe"),
            ("coupe", "- chill the glass, stir with ice, strain"),
        ] {
            check(
                &RULE,
                &format!("\ndrink: A\n  glass: {glass}\n  serve: up\n  60 ml gin\n  {steps}\n"),
            );
        }
        check(&RULE, "\ndrink: A\n  glass: rocks\n  60 ml gin\n  - stir with ice, strain\n");
        check(&RULE, "\ndrink: A\n  glass: coupe\n  90 ml sparkling wine\n  - pour\n");
    }
}
