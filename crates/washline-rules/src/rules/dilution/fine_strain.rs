//! Muddled bits that nothing holds back.

use washline_reference::{Sort, Trait};
use washline_syntax::Technique;
use washline_text::fold;

use super::served_up;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// What is muddled leaves leaf, seed and pulp. Served up, through one coarse strainer, they swim in
    /// the glass.
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
    ///   6 mint leaves
    ///
    ///   - muddle the mint, shake with ice for 12 s, strain into the coupe
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
    ///   6 mint leaves
    ///
    ///   - muddle the mint, shake with ice for 12 s, double strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "fine-strain", Dilution, Information, Fixes::Unsafe, Check::Entry(find),
    why: "a leaf or a seed on the guest\u{2019}s lip is what the drink is remembered by"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired || !served_up(context) {
        return;
    }
    let method = &record.method;
    let Some(muddle) = method.acts.iter().find(|act| act.is(&[Technique::Muddle])) else { return };
    if method.has(&[Technique::DoubleStrain, Technique::FineStrain, Technique::Filter]) {
        return;
    }
    let bits = muddle.mentions.iter().filter_map(|line| record.reads.get(*line)).find(|read| {
        read.is(Trait::LeavesBits)
            || read.sort_is(&[Sort::Herb, Sort::Fruit, Sort::Spice, Sort::Vegetable])
    });
    let strain = method.acts.iter().rev().find(|act| act.is(&[Technique::Strain]) && act.leaves());
    let (Some(bits), Some(strain)) = (bits, strain) else { return };
    if fold(record.text(strain.act.span)).contains("fine") {
        return;
    }
    sink.report(
        Report::at(context, strain.span(), format!("muddled {}, strained once", bits.name))
            .help("double strain it through a fine strainer")
            .related(record.place(bits.name_span), "leaves bits when it is muddled")
            .fix(
                "write `double strain`",
                false,
                vec![context.edit(strain.act.verb, "double strain")],
            ),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn muddled_leaf_served_up_is_told() {
        check(
            &RULE,
            "
drink: A
  serve: up
  60 ml gin
  22.5 ml lime juice
  6 mint leaves
  - muddle the mint, shake with ice, strain
                                     ^^^^^^
",
        );
    }

    #[test]
    fn fine_strained_or_over_ice_is_silent() {
        for (head, steps) in [
            ("serve: up", "- muddle the mint, shake with ice, double strain"),
            ("serve: up", "- muddle the mint, shake with ice, fine strain"),
            ("serve: rocks", "- muddle the mint, shake with ice, strain over fresh ice"),
            ("serve: up", "- shake with ice, strain"),
        ] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  {head}\n  60 ml gin\n  22.5 ml lime juice\n  6 mint leaves\n  {steps}\n"
                ),
            );
        }
    }
}
