//! More than the glass holds.

use washline_syntax::Key;
use washline_text::fold;

use crate::words::ml;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// The drink with its melt does not fit the glass named, ice and all. Foam may stand above the rim;
    /// liquid may not.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe 120 ml, chilled
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
    ///   glass: coupe 180 ml, chilled
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
    /// Displacement of ice and wash lines: common practice, no source. Capacities: the house's own.
    "overflows-glass", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "the last of it goes down the sink, and with it the balance"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let bowl =
        record.terms(Key::Serve).any(|(word, _)| matches!(fold(word).as_str(), "bowl" | "bottled"));
    if !context.is_drink() || record.retired || bowl {
        return;
    }
    let (Some(room), Some(field)) = (record.room, record.field(Key::Glass)) else { return };
    if room.liquid.low <= room.brim.high {
        return;
    }
    let message = format!(
        "{} ({} to {}) in a glass that holds {} to the brim{}",
        ml(room.liquid.value),
        crate::words::number(room.liquid.low),
        ml(room.liquid.high),
        ml(room.brim.value),
        if room.ice.is_some() { " with its ice" } else { "" },
    );
    sink.report(
        Report::at(context, field.value_span, message)
            .help("take a larger glass, or write what this one holds behind its name"),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_small_coupe_overflows() {
        check(
            &RULE,
            "
drink: A
  glass: coupe 120 ml
         ^^^^^^^^^^^^
  60 ml gin
  22.5 ml lemon juice
  22.5 ml sugar syrup, 1:1
  - shake with ice, strain
",
        );
    }

    #[test]
    fn what_fits_is_silent() {
        for (glass, steps) in [
            ("coupe 180 ml", "- shake with ice, strain"),
            ("highball", "- build over ice, stir"),
            ("rocks", "- shake with ice, strain over fresh ice"),
        ] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  glass: {glass}\n  60 ml gin\n  22.5 ml lemon juice\n  \
                 22.5 ml sugar syrup, 1:1\n  {steps}\n"
                ),
            );
        }
    }

    #[test]
    fn a_head_above_the_rim_is_silent() {
        check(
            &RULE,
            "
drink: A
  family: fizz
  glass: highball 300 ml
  45 ml gin
  30 ml lemon juice
  15 ml sugar syrup, 1:1
  1 egg white
  90 ml soda water
  - dry shake all but the soda water, shake with ice, strain
  - top with the soda water
",
        );
    }
}
