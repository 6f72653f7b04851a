//! Coffee, tea, plant milk or vegetable juice shut away from the air.

use washline_book::{Guard, Read, Shelf};
use washline_reference::{Sort, Trait};

use super::{CODES, SHUTS, on};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Cold brew, tea, nut milk and carrot juice have hardly any acid. In a keg under gas, a vacuum bag or a sealed
    /// can no air comes to them, which is what spores of botulism wait for; kegged coffee has been recalled for it.
    /// Cold, and gone within the week, they are an ordinary drink.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Kegged Cold Brew
    ///   yields: 780 ml
    ///   keeps: 3 weeks chilled
    ///
    ///   100 g   ground coffee
    ///   1000 g  water
    ///
    ///   - steep for 14 hours, chilled, strain, filter
    ///   - keg, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   150 ml  kegged cold brew
    ///   15 ml   sugar syrup, 1:1
    ///
    ///   - build over ice, stir
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Kegged Cold Brew
    ///   yields: 780 ml
    ///   keeps: 5 days chilled
    ///
    ///   100 g   ground coffee
    ///   1000 g  water
    ///
    ///   - steep for 14 hours, chilled, strain, filter
    ///   - keg, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   150 ml  kegged cold brew
    ///   15 ml   sugar syrup, 1:1
    ///
    ///   - build over ice, stir
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// FDA Food Code 1-201.10(B), pH 4.6; reduced oxygen packaging 3-502.12, from memory.
    "sealed-low-acid", Safety, Warning, Fixes::None, Check::Figures(find),
    why: "with no air and no acid spores of botulism can wake"
}

/// A week in the fridge, hours. From memory.
const WEEK: f64 = 168.0;
/// pH above which spores wake. Source: FDA Food Code 1-201.10(B).
const ACID_PH: f64 = 4.6;
/// Water activity and strength beyond which they do not, as for infusions.
const WET: f64 = 0.945;
const STRONG: f64 = 10.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired || record.is_treated() {
        return;
    }
    let Some(at) = record.method.position(SHUTS) else { return };
    let Some(keeps) = record.keeps() else { return };
    let shelf = record.shelf();
    let short = shelf == Some(Shelf::Fridge) && keeps.hours <= WEEK;
    if short || shelf == Some(Shelf::Freezer) {
        return;
    }
    let Some(base) = base(context).filter(|read| has_no_acid(read)) else { return };
    let Some(guard) = record.guard().filter(wakes) else { return };
    let Some(act) = record.method.act(at) else { return };
    let message = format!(
        "{} shut from the air, kept {}, {}: {} % acid, {} % vol",
        base.name,
        record.text(keeps.span),
        on(shelf),
        number(guard.acid),
        number(guard.abv)
    );
    sink.report(
        Report::at(context, act.span(), message)
            .help(format!(
                "keep it chilled and a week at the most, or acidify it below pH 4.2 by the meter and write `ph:`; {CODES}"
            ))
            .related(record.place(keeps.span), "how long and where"),
    );
}

/// What most of it is made of, water apart.
fn base<'a>(context: &Context<'a>) -> Option<&'a Read> {
    let counted = context.record.reads.iter().filter(|read| read.counted && !read.water);
    counted.max_by(|a, b| a.composition.mass().total_cmp(&b.composition.mass()))
}

fn has_no_acid(read: &Read) -> bool {
    let kind =
        read.sort_is(&[Sort::Coffee, Sort::Tea, Sort::PlantMilk, Sort::Nut, Sort::Vegetable]);
    let vegetable = read.sort_is(&[Sort::Juice]) && !read.is(Trait::Citrus);
    let known = read.ingredient().and_then(|known| known.ph);
    (kind || vegetable) && known.map_or(kind, |ph| ph.value > ACID_PH)
}

fn wakes(guard: &Guard) -> bool {
    let sour = if guard.ph_measured { guard.ph <= ACID_PH } else { guard.acid >= 0.3 };
    !sour && guard.abv < STRONG && guard.water_activity > WET && guard.liquid
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, names};

    #[test]
    fn shut_from_the_air() {
        check(
            &RULE,
            "
prep: A
  keeps: 3 weeks chilled
  100 g ground coffee
  1 kg water
  - steep, strain, keg
                   ^^^
prep: B
  keeps: 5 days ambient
  20 g black tea leaves
  1 kg water
  - steep, strain, seal
                   ^^^^
prep: C
  keeps: 2 weeks chilled
  1 l carrot juice
  - bottle, vacuum seal
            ^^^^^^^^^^^
",
        );
    }

    /// Too long for what holds it, and shut: told once.
    #[test]
    fn one_cause_is_told_once() {
        let text = "prep: A\n  yields: 800 ml\n  keeps: 3 weeks chilled\n  100 g ground coffee\n  1 kg water\n  - steep for 3 hours, strain, keg\ndrink: B\n  family: none\n  glass: highball\n  ice: cubed\n  contains: none\n  150 ml A\n  - build over ice\n  garnish: none\n";
        assert_eq!(names(text, ""), ["sealed-low-acid"]);
    }

    /// Within the week, open, sour, sweet, strong, at a measured pH, frozen.
    #[test]
    fn what_is_safe_is_silent() {
        check(
            &RULE,
            "
prep: A
  keeps: 5 days chilled
  100 g ground coffee
  1 kg water
  - steep, strain, keg
prep: B
  keeps: 3 weeks chilled
  100 g ground coffee
  1 kg water
  - steep, strain, bottle
prep: C
  keeps: 3 weeks chilled
  500 ml carrot juice
  300 ml lemon juice
  - seal
prep: D
  keeps: 3 weeks chilled
  100 ml espresso
  300 g sugar
  100 ml vodka
  - seal
prep: E
  keeps: 3 weeks chilled
  ph: 4
  1 l carrot juice
  - seal
prep: F
  keeps: 3 months frozen
  1 l carrot juice
  - vacuum seal
prep: G
  keeps: 3 weeks chilled
  1 l orange juice
  - keg
",
        );
    }
}
