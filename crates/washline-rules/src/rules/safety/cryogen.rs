//! Dry ice or liquid nitrogen in a drink.

use washline_book::is_shaken;
use washline_reference::Trait;
use washline_syntax::{Key, Role, Technique};
use washline_text::{Severity, fold};

use super::{CODES, caution, with};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Dry ice is at −78 °C and liquid nitrogen at −196 °C: swallowed, they have cost guests their
    /// stomachs. Closed in a shaker, a bottle or a keg they burst it, and their gas displaces the air of
    /// a small room. No piece and no drop may reach the guest.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///   1 piece  dry ice
    ///
    ///   - shake all but the dry ice with ice for 12 s, double strain
    ///   - add the dry ice
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
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source; sublimation and boiling points from memory.
    "cryogen", Safety, Error, Fixes::None, Check::Entry(find),
    why: "swallowed it burns through the stomach, and closed in it bursts"
}

/// Acts that close a vessel.
const CLOSES: &[Technique] =
    &[Technique::Bottle, Technique::Seal, Technique::Keg, Technique::Charge];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    if let Some((at, read, known)) = with(context, Trait::Cryogen).next() {
        let aside = read.role == Role::Side;
        let place = context.read_place(at);
        let message = if aside {
            format!("{} stands beside the drink, in a guest's reach", read.name)
        } else {
            format!("{} goes into what a guest drinks", read.name)
        };
        let report = Report::on(record, place, message)
            .severity(if aside { Severity::Warning } else { Severity::Error })
            .why(caution(known))
            .help(help());
        sink.report(match closed_in(context, at) {
            Some(place) => report.related(place, "closes it in: it bursts"),
            None => report,
        });
        return;
    }
    let Some(field) = record.field(Key::Ice) else { return };
    if fold(record.text(field.value_span)).contains("dry ice") {
        let message = "served over dry ice";
        sink.report(Report::at(context, field.value_span, message).help(help()));
    }
}

fn help() -> String {
    format!(
        "keep it behind the bar, in an open vessel and a ventilated room, with gloves and eye \
         protection; a drink leaves only when all of it has gone; {CODES}"
    )
}

/// The act that closes the vessel with the cryogen in it.
fn closed_in(context: &Context<'_>, line: usize) -> Option<washline_text::Place> {
    let acts = &context.record.method.acts;
    let act = acts.iter().find(|act| {
        let closes = act.is(CLOSES) || act.act.technique.is_some_and(is_shaken);
        closes
            && !act.but.contains(&line)
            && (act.mentions.is_empty() || act.mentions.contains(&line))
    })?;
    Some(context.record.place(act.span()))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, severity};
    use washline_text::Severity;

    #[test]
    fn in_the_drink_the_prep_the_ice() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  1 piece dry ice
          ^^^^^^^
drink: B
  60 ml gin
  50 ml liquid nitrogen
        ^^^^^^^^^^^^^^^
drink: C
  ice: dry ice
       ^^^^^^^
  60 ml gin
prep: D
  500 ml cream
  100 ml liquid nitrogen
         ^^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn closed_in_it_bursts() {
        let related = |text: &str| {
            let found = findings(text, "");
            let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
            finding.related.len()
        };
        assert_eq!(related("drink: A\n  60 ml gin\n  1 piece dry ice\n  - shake, strain\n"), 1);
        assert_eq!(
            related(
                "drink: A\n  60 ml gin\n  1 piece dry ice\n  - shake all but the dry ice, strain\n"
            ),
            0
        );
    }

    #[test]
    fn beside_the_drink_is_said_more_softly() {
        let text = "drink: A\n  60 ml gin\n  1 piece dry ice, on the side\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(
            severity(&RULE, "drink: A\n  60 ml gin\n  1 piece dry ice\n", ""),
            Some(Severity::Error)
        );
    }

    /// A dry shake, dry curaçao, dry vermouth, block ice, carbon dioxide in a siphon.
    #[test]
    fn dry_is_no_dry_ice() {
        check(
            &RULE,
            "
drink: A
  ice: block
  45 ml gin
  15 ml dry curaçao
  15 ml dry vermouth
  1 egg white
  - dry shake for 10 s, shake with ice, strain
drink: B
  ice: none
  60 ml gin
prep: C
  500 ml cream
  1 cartridge nitrous oxide
  - charge
drink: D
  status: retired
  60 ml gin
  1 piece dry ice
",
        );
    }
}
