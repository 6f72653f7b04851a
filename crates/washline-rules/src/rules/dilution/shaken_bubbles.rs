//! Something carbonated, shaken or blended.

use washline_book::{ActRead, Read};
use washline_reference::Trait;
use washline_syntax::{Key, Technique};
use washline_text::{Severity, Span, fold};

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
    "shaken-bubbles", Dilution, Error, Fixes::Unsafe, Check::Entry(find),
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
        let report = Report::at(context, act.span(), message)
            .help("leave it out until the end, and top with it")
            .related(record.place(fizzy.name_span), "carbonated");
        sink.report(topped(context, act, fizzy, report));
        return;
    }
    if let Some(act) = closed_ferment(context) {
        sink.report(
            Report::at(context, act.span(), "closed on a live ferment, with no vent said").help(
                "ferment under an airlock or a loose lid, vent it daily, and chill it once it is bottled",
            ),
        );
        return;
    }
    caution(context, sink);
}

/// The same with a last step that tops with it, unless a step says that it is closed in.
fn topped(context: &Context<'_>, closed: &ActRead, fizzy: &Read, report: Report) -> Report {
    let record = context.record;
    let reads = record.reads.iter();
    let named = closed.mentions.iter().filter_map(|at| record.reads.get(*at));
    let alone = reads.filter(|read| read.is(Trait::Carbonated)).count() == 1;
    if !context.is_drink() || !alone || named.into_iter().any(|read| read.line == fizzy.line) {
        return report;
    }
    let Some(last) = record.method.acts.last() else { return report };
    let end = Span::at(last.span().end);
    let text = format!("top with {}", fizzy.name);
    report.fix(format!("write `{text}` last"), false, vec![context.edit(end, format!(", {text}"))])
}

/// Carbonating under pressure is right: what it needs is said once, till the card says it.
fn caution(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let method = &record.method;
    let Some(at) = method.position(&[Technique::Carbonate]) else { return };
    let closed = method.has(&[Technique::Bottle, Technique::Keg, Technique::Seal]);
    let Some(act) = method.act(at).filter(|_| closed) else { return };
    let says = |text: &str| {
        let text = fold(text);
        ["pressure", "rated", "headspace", " bar", "psi"].iter().any(|word| text.contains(word))
    };
    let notes = [Key::Note, Key::Store, Key::Vessel];
    let noted =
        notes.iter().any(|key| record.fields(*key).any(|f| says(record.text(f.value_span))));
    if noted || method.acts.iter().any(|act| says(record.text(act.act.span))) {
        return;
    }
    sink.report(
        Report::at(context, act.span(), "carbonated and closed: the card says no pressure rating")
            .severity(Severity::Information)
            .why("a bottle that is not made for the pressure can burst")
            .help(
                "note bottles rated for the pressure, the cold and the headspace, and follow the makers' ratings",
            ),
    );
}

/// What a ferment is closed with while it still works: before it or as it works, with no vent
/// said; behind it, where nothing stops it and nothing keeps it cold.
fn closed_ferment<'a>(context: &'a Context<'_>) -> Option<&'a ActRead> {
    let record = context.record;
    let method = &record.method;
    let ferments = method.position(&[Technique::Ferment])?;
    let vents =
        ["loose", "loosely", "airlock", "cloth", "vent", "vented", "burp", "open", "muslin"];
    let vented = |act: &ActRead| act.is(&[Technique::Purge]) || act.says(&record.entry, &vents);
    if method.acts.iter().any(vented) {
        return None;
    }
    let closes = [Technique::Seal, Technique::Bottle];
    if let Some(before) = method.acts.iter().take(ferments).find(|act| act.is(&closes)) {
        return Some(before);
    }
    let own = method.act(ferments)?;
    if own.says(&record.entry, &["sealed", "airtight", "closed"]) {
        return Some(own);
    }
    let stops = [
        Technique::Boil,
        Technique::Simmer,
        Technique::Heat,
        Technique::SousVide,
        Technique::Freeze,
        Technique::Refrigerate,
        Technique::Chill,
    ];
    let cold = |key: Key| {
        let kept = record.field(key).map(|field| fold(record.text(field.value_span)));
        kept.is_some_and(|kept| ["chill", "fr", "cold"].iter().any(|word| kept.contains(word)))
    };
    if method.has_after(ferments, &stops) || cold(Key::Keeps) || cold(Key::Store) {
        return None;
    }
    method.acts.iter().skip(ferments + 1).find(|act| act.is(&closes))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, severity};
    use washline_text::Severity;

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
            "- combine, chill, carbonate at 3 bar, bottle",
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
  - combine, ferment for 5 days in a sealed jar
             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
",
        );
        check(
            &RULE,
            "
prep: Bug
  keeps: 1 week ambient
  500 g fresh ginger
  100 g sugar
  1 l water
  - combine, ferment for 5 days, strain, bottle
                                         ^^^^^^
",
        );
        check(
            &RULE,
            "
prep: Bug
  keeps: 1 week chilled
  500 g fresh ginger
  100 g sugar
  1 l water
  - combine, ferment for 5 days, strain, bottle
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

    #[test]
    fn what_is_carbonated_is_closed_with_its_caution() {
        let text = "prep: A\n  1 l cloudy apple juice\n  - chill to 1 C, carbonate, bottle\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Information));
        let noted = format!("{text}  note: bottles rated for 6 bar, 5 cm of headspace\n");
        assert_eq!(severity(&RULE, &noted, ""), None);
    }
}
