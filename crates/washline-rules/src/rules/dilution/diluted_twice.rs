//! A batch with its water in it that is diluted again.

use washline_book::{Figure, Melt, Mix, Read, Record, Referent};
use washline_reference::Sort;
use washline_text::{Kind, Place};

use crate::rule::rule;
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
/// A batch is a drink already, not an infusion in water, % vol; and has so much water, a share
/// of what was poured. Common practice, no source.
const BATCH_ABV: f64 = 10.0;
const LIGHT: f64 = 0.12;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink()
        || record.retired
        || record.families.any(&["hot", "punch", "highball", "blended"])
    {
        return;
    }
    let Some(gained) = record.figures.get(Figure::Dilution) else { return };
    let mixed = record.method.mixes.iter().find_map(|mix| match mix.melt {
        Melt::Stir => Some((mix, STIRRED)),
        Melt::Shake => Some((mix, SHAKEN)),
        _ => None,
    });
    let Some((mix, most)) = mixed else { return };
    let Some(act) = record.method.act(mix.act) else { return };
    if let Some((batch, water)) = batch(context, mix) {
        let message = format!("{} has its water, and the ice brings more", batch.name);
        sink.report(
            Report::at(context, act.span(), message)
                .help("pour the batch as it is, well chilled, or leave the water out of it")
                .related(water, "water measured in"),
        );
        return;
    }
    let water: Option<&Read> =
        record.reads.iter().find(|read| read.counted && read.water && read.sort_is(&[Sort::Water]));
    let Some(water) = water.filter(|_| gained.low > most) else { return };
    let message = format!(
        "the water of the line and of the ice come to {} % of the pour",
        crate::words::number(gained.value)
    );
    sink.report(
        Report::at(context, act.span(), message)
            .help("pour the batch as it is, well chilled, or leave the water out of it")
            .related(record.place(water.name_span), "water measured in"),
    );
}

/// The batch that a mix is mostly made of, and the place of the water in its lines: a prep of
/// some strength with as much water as a light stir brings.
fn batch<'a>(context: &Context<'a>, mix: &Mix) -> Option<(&'a Record, Place)> {
    let record = context.record;
    let reads = || mix.lines.iter().filter_map(|line| record.reads.get(*line));
    let whole: f64 = reads().filter(|read| read.counted).map(Read::volume).sum();
    reads().filter(|read| read.counted && read.volume() > whole / 2.0).find_map(|read| {
        let Referent::Entry(id) = read.referent()? else { return None };
        let prep = context.workspace.record(id).filter(|prep| prep.kind == Kind::Prep)?;
        prep.figures.value(Figure::Abv).filter(|abv| *abv > BATCH_ABV)?;
        let water = prep.reads.iter().find(|line| line.counted && line.water)?;
        let poured: f64 = prep.reads.iter().filter(|line| line.counted).map(Read::volume).sum();
        (water.volume() > LIGHT * poured).then(|| (prep, prep.place(water.name_span)))
    })
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
