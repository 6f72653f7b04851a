//! A batch with its water in it that is diluted again.

use washline_book::Melt;

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A batch that carries its water is poured cold and straight. Stirred or shaken as well, it gains
    /// its dilution twice over.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   serves: 1
    ///   contains: sulphites
    ///
    ///   50 ml rye whiskey
    ///   25 ml sweet vermouth
    ///   30 ml water
    ///
    ///   - stir with ice for 20 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   50 ml rye whiskey
    ///   25 ml sweet vermouth
    ///
    ///   - stir with ice for 20 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// D. Arnold, Liquid Intelligence (W. W. Norton, 2014), pp. 125-126: stirred drinks gain 41 to 49 %,
    /// shaken 51 to 60 %.
    "diluted-twice", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "watered in the bottle and again in the tin, it reaches the guest thin"
}

/// The most water, as a share of the pour, that a stir and a shake bring, with room. Published
/// 49 and 60 %; the room is common practice, no source.
const STIRRED: f64 = 60.0;
const SHAKEN: f64 = 75.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink()
        || record.retired
        || record.families.any(&["hot", "punch", "highball", "blended"])
    {
        return;
    }
    let mixed = record.method.mixes.iter().find_map(|mix| match mix.melt {
        Melt::Stir => Some((mix, STIRRED)),
        Melt::Shake => Some((mix, SHAKEN)),
        _ => None,
    });
    let Some((mix, most)) = mixed else { return };
    let Some(watered) = context.workspace.watered(record) else { return };
    let Some(act) = record.method.act(mix.act).filter(|_| watered.percent.low > most) else {
        return;
    };
    let message = format!(
        "the water measured in and that of the ice come to {} % of the pour",
        number(watered.percent.value)
    );
    sink.report(
        Report::at(context, act.span(), message)
            .help("pour the batch as it is, well chilled, or leave the water out of it")
            .related(watered.measured, "water measured in"),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn water_and_a_stir_is_told_at_the_stir() {
        check(
            &RULE,
            "
drink: A
  50 ml rye whiskey
  25 ml sweet vermouth
  30 ml water
  - stir with ice, strain
    ^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_batch_that_has_its_water_is_not_stirred_again() {
        check(
            &RULE,
            "
drink: A
  100 ml Wet Batch
  - stir with ice, strain
    ^^^^^^^^^^^^^
prep: Wet Batch
  500 ml rye whiskey
  250 ml sweet vermouth
  250 ml water
  - combine, bottle, refrigerate
",
        );
        check(
            &RULE,
            "
drink: A
  100 ml Wet Batch
  - pour into a frozen coupe
drink: B
  60 ml gin
  15 ml Tea Spirit
  - stir with ice, strain
prep: Wet Batch
  500 ml rye whiskey
  250 ml sweet vermouth
  250 ml water
  - combine, bottle, refrigerate
prep: Tea Spirit
  500 ml gin
  20 g black tea leaves
  100 ml water
  - infuse, strain
",
        );
    }

    #[test]
    fn a_batch_with_a_little_water_has_room_for_a_short_stir() {
        check(
            &RULE,
            "
drink: A
  100 ml Damp Batch
  - stir with ice, strain
prep: Damp Batch
  500 ml rye whiskey
  250 ml sweet vermouth
  60 ml water
  - combine, bottle, refrigerate
",
        );
    }

    #[test]
    fn a_splash_a_toddy_and_a_bottle_are_silent() {
        check(
            &RULE,
            "
drink: A
  45 ml bourbon
  1 sugar cube
  1 dash water
  2 dashes aromatic bitters
  - muddle the sugar, bitters and water, add the bourbon, stir with ice
",
        );
        check(
            &RULE,
            "
drink: A
  family: hot
  45 ml dark rum
  15 ml honey
  120 ml hot water
  - stir
",
        );
        check(
            &RULE,
            "
drink: A
  status: retired
  50 ml rye whiskey
  25 ml sweet vermouth
  30 ml water
  - stir with ice, strain
",
        );
        check(
            &RULE,
            "
drink: A
  serve: bottled
  500 ml rye whiskey
  250 ml sweet vermouth
  300 ml water
  - stir, bottle, refrigerate
",
        );
    }
}
