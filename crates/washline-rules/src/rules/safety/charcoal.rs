//! Activated charcoal in a drink.

use washline_reference::Trait;
use washline_syntax::Technique;
use washline_text::Severity;

use super::{CODES, caution, notes, with};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Activated charcoal binds medicines: a drink blackened with it can make the pill, a heart medicine or an
    /// antidepressant fail that day. Guests cannot know it from the colour, so the menu says it; some authorities
    /// do not allow it in food at all.
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
    ///   0.5 g    activated charcoal
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
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common knowledge of pharmacy, from memory.
    "charcoal", Safety, Warning, Fixes::None, Check::Entry(find),
    why: "it binds medicines, the contraceptive pill among them"
}

/// Words by which the menu or the note tells the guest.
const TOLD: &[&str] = &["medicine", "medication", "the pill", "contracept"];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    let Some((at, read, known)) = with(context, Trait::Charcoal).next() else { return };
    let filtered = record.method.has(&[Technique::Filter]) && context.is_prep();
    let told = notes(record, TOLD);
    let message = match (filtered, told) {
        (true, _) => format!("{} is filtered out again, as far as the filter holds it", read.name),
        (false, true) => format!("{} in what is drunk, and the card tells the guest", read.name),
        (false, false) => {
            format!(
                "{} in what is drunk, and neither `menu:` nor `note:` tells the guest",
                read.name
            )
        }
    };
    let soft = filtered || told;
    sink.report(
        Report::on(record, context.read_place(at), message)
            .severity(if soft { Severity::Information } else { Severity::Warning })
            .why(caution(known))
            .help(format!(
                "colour it with something else (sesame, squid ink and their allergens declared), or say in `menu:` that it makes medicines fail; {CODES}"
            )),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, severity};
    use washline_text::Severity;

    #[test]
    fn in_a_drink_and_a_prep() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  1 g activated charcoal
      ^^^^^^^^^^^^^^^^^^
prep: B
  500 ml sugar syrup
  5 g coconut charcoal
      ^^^^^^^^^^^^^^^^
drink: C
  30 ml B
",
        );
    }

    #[test]
    fn told_or_filtered_is_said_more_softly() {
        let of = |text: &str| severity(&RULE, text, "");
        let plain = "drink: A\n  60 ml gin\n  1 g activated charcoal\n";
        assert_eq!(of(plain), Some(Severity::Warning));
        let told = "drink: A\n  menu: black with charcoal, which makes medicines fail\n  60 ml gin\n  1 g activated charcoal\n";
        assert_eq!(of(told), Some(Severity::Information));
        let fined =
            "prep: A\n  700 ml vodka\n  5 g activated charcoal\n  - rest, filter through paper\n";
        assert_eq!(of(fined), Some(Severity::Information));
    }

    /// A spirit filtered through it, a grilled lime, a smoky spirit, last year's.
    #[test]
    fn charcoal_filtered_is_none() {
        check(
            &RULE,
            "
drink: A
  60 ml vodka, charcoal-filtered
drink: B
  60 ml mezcal
  15 ml lime juice
  garnish: charred lime wheel
prep: C
  700 ml vodka
  - filter through a charcoal filter
drink: D
  status: retired
  60 ml gin
  1 g activated charcoal
",
        );
    }
}
