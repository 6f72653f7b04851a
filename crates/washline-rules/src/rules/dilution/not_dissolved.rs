//! Sugar that cold spirit does not take up.

use washline_book::{Read, Temperature};
use washline_measure::Unit;
use washline_reference::{Sort, Trait};
use washline_syntax::{Property, Technique};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Dry sugar, honey and other thick sweets hardly dissolve in cold spirit. They need water, juice or
    /// warmth, a muddle, or to be a syrup first.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: old-fashioned
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml bourbon
    ///   1 tsp honey
    ///   2 dashes aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain over ice
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: old-fashioned
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml bourbon
    ///   10 ml honey syrup, 2:1
    ///   2 dashes aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain over ice
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "not-dissolved", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "it lies at the bottom, and the drink above it is dry"
}

/// Less than this dissolves anyway, g. Common practice, no source.
const LITTLE_G: f64 = 3.0;
/// A teaspoon of water or juice takes it up, ml. Common practice, no source.
const ENOUGH_ML: f64 = 4.5;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired || record.families.any(&["hot", "coffee"]) {
        return;
    }
    let thick = |read: &&Read| {
        read.counted
            && read.is(Trait::SlowToDissolve)
            && read.g.is_some_and(|g| g.value > LITTLE_G)
            && !read.properties.iter().any(|(_, p)| matches!(p, Property::Ratio { .. }))
    };
    let Some(read) = record.reads.iter().find(thick) else { return };
    // A cube soaked in bitters is crushed where it lies, said or not.
    let soaked = record.reads.iter().any(|read| read.counted && read.sort_is(&[Sort::Bitters]));
    if soaked && read.unit == Some(Unit::Cube) {
        return;
    }
    let helps = [
        Technique::Muddle,
        Technique::Dissolve,
        Technique::Warm,
        Technique::Heat,
        Technique::Steam,
        Technique::Blend,
        Technique::FlashBlend,
        Technique::Melt,
        Technique::Whisk,
    ];
    if record.method.has(&helps) {
        return;
    }
    let wet: f64 = record
        .reads
        .iter()
        .filter(|read| {
            read.counted && (takes_up(read) || read.temperature == Some(Temperature::Hot))
        })
        .map(Read::volume)
        .sum();
    if wet >= ENOUGH_ML {
        return;
    }
    sink.report(
        Report::at(context, read.name_span, format!("{} goes neat into cold spirit", read.name))
            .help("muddle it with a little water or bitters, or make it a syrup first"),
    );
}

fn takes_up(read: &Read) -> bool {
    read.sort_is(&[
        Sort::Juice,
        Sort::Water,
        Sort::Soda,
        Sort::Tea,
        Sort::Coffee,
        Sort::Puree,
        Sort::Wine,
        Sort::SparklingWine,
        Sort::FortifiedWine,
        Sort::Beer,
        Sort::Cider,
        Sort::Dairy,
        Sort::PlantMilk,
        Sort::Egg,
        Sort::Fruit,
    ])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn honey_neat_into_spirit_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml bourbon
  2 tsp honey
        ^^^^^
  - stir with ice, strain
",
        );
        check(
            &RULE,
            "
drink: A
  60 ml bourbon
  1 tsp granulated sugar
        ^^^^^^^^^^^^^^^^
  - build over ice, stir
",
        );
    }

    #[test]
    fn muddled_wet_or_warm_is_silent() {
        for (lines, steps) in [
            ("1 sugar cube\n  2 dashes aromatic bitters", "- muddle the sugar cube, stir with ice"),
            ("1 sugar cube\n  2 dashes aromatic bitters", "- stir with ice, strain"),
            ("1 tsp granulated sugar\n  1 tsp water", "- build over ice, stir"),
            ("2 tsp honey\n  22.5 ml lemon juice", "- shake with ice, strain"),
            ("2 tsp granulated sugar\n  30 ml lime juice", "- build over crushed ice, stir"),
            ("15 ml honey syrup, 2:1", "- stir with ice, strain"),
            ("15 ml agave syrup\n  30 ml lime juice", "- shake with ice, strain"),
            ("15 ml honey\n  120 ml hot water", "- stir"),
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml bourbon\n  {lines}\n  {steps}\n"));
        }
    }
}
