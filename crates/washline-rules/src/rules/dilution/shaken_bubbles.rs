//! Something carbonated, shaken or blended.

use washline_book::ActRead;
use washline_reference::Trait;
use washline_syntax::Technique;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Carbon dioxide leaves a liquid that is shaken all at once: the tin or the blender bursts open, over
    /// whoever holds it. Bubbles go in last, poured down the side. Carbonating under pressure, and
    /// bottling what is carbonated, need vessels rated for the pressure, cold liquid and headspace. A
    /// ferment makes gas of its own: closed without a vent, its bottle can burst. Follow the makers'
    /// ratings and local codes.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: fizz
    ///   glass: highball, chilled
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml gin
    ///   30 ml lemon juice
    ///   15 ml sugar syrup, 1:1
    ///   60 ml soda water
    ///
    ///   - shake with ice for 10 s, strain over fresh ice
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: fizz
    ///   glass: highball, chilled
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml gin
    ///   30 ml lemon juice
    ///   15 ml sugar syrup, 1:1
    ///   60 ml soda water
    ///
    ///   - shake all but the soda water with ice for 10 s, strain over fresh ice
    ///   - top with the soda water
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "shaken-bubbles", Dilution, Error, Fixes::None, Check::Entry(find),
    why: "a closed tin of bubbles opens by itself, and what is left is flat"
}

const CLOSED: &[Technique] = &[
    Technique::Shake,
    Technique::HardShake,
    Technique::DryShake,
    Technique::WetShake,
    Technique::WhipShake,
    Technique::ReverseDryShake,
    Technique::Blend,
    Technique::FlashBlend,
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    for mix in &record.method.mixes {
        let Some(act) = record.method.act(mix.act).filter(|act| act.is(CLOSED)) else { continue };
        let fizzy = mix
            .lines
            .iter()
            .filter_map(|line| record.reads.get(*line))
            .find(|read| read.is(Trait::Carbonated));
        let Some(fizzy) = fizzy else { continue };
        let message = format!("{} is in what `{}` closes", fizzy.name, record.text(act.act.verb));
        sink.report(
            Report::at(context, act.span(), message)
                .help("leave it out until the end, and top with it")
                .related(record.place(fizzy.name_span), "carbonated"),
        );
        return;
    }
    if let Some(act) = closed_ferment(context) {
        sink.report(
            Report::at(context, act.span(), "closed before it has fermented, with no vent said")
                .help("ferment under an airlock or a loose lid, vent it daily, and chill it once it is bottled"),
        );
    }
}

/// A seal or a bottling before the ferment is done, and no vent anywhere.
fn closed_ferment<'a>(context: &'a Context<'_>) -> Option<&'a ActRead> {
    let method = &context.record.method;
    let ferments = method.position(&[Technique::Ferment])?;
    if method.has(&[Technique::Purge]) {
        return None;
    }
    let closes = [Technique::Seal, Technique::Bottle];
    let before = method.acts.iter().take(ferments).find(|act| act.is(&closes));
    before.filter(|act| {
        let words = context.record.text(act.act.span).to_lowercase();
        !["loose", "airlock", "cloth", "vent"].iter().any(|word| words.contains(word))
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn soda_in_the_shaker_is_told_at_the_shake() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  30 ml lemon juice
  60 ml soda water
  - shake with ice, strain
    ^^^^^^^^^^^^^^
",
        );
        check(
            &RULE,
            "
drink: A
  45 ml white rum
  60 ml cola
  - blend with crushed ice
    ^^^^^^^^^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn bubbles_that_go_in_last_are_silent() {
        for steps in [
            "- shake all but the soda with ice, strain, top with soda",
            "- shake the gin and lemon juice with ice, strain\n  - add the soda water",
            "- build over ice, stir",
            "- combine, carbonate, bottle",
        ] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  45 ml gin\n  30 ml lemon juice\n  60 ml soda water\n  {steps}\n"
                ),
            );
        }
        check(
            &RULE,
            "
drink: A
  45 ml gin
  30 ml lemon juice
  top soda water
  - shake with ice, strain
",
        );
    }

    #[test]
    fn last_years_card_is_silent() {
        check(
            &RULE,
            "
drink: A
  status: retired
  45 ml gin
  60 ml soda water
  - shake with ice, strain
",
        );
    }

    #[test]
    fn a_ferment_needs_its_vent() {
        check(
            &RULE,
            "
prep: Bug
  500 g fresh ginger
  100 g sugar
  1 l water
  - combine, seal, ferment for 5 days
             ^^^^
",
        );
        check(
            &RULE,
            "
prep: Bug
  500 g fresh ginger
  100 g sugar
  1 l water
  - combine, cover loosely, ferment for 5 days, bottle, refrigerate
",
        );
    }
}
