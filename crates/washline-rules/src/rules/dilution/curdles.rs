//! Milk or cream with acid, and no clarification meant.

use washline_book::{Melt, Read};
use washline_reference::{Allergen, Sort, Trait};
use washline_syntax::{Key, Technique};
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Acid curdles milk, cream and cream liqueurs. Shaken and served at once, cream holds; stirred,
    /// built or kept, it parts. Where the curd is wanted, the steps say so: milk-wash, clarify, filter.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: cream
    ///   glass: coupe, chilled
    ///   contains: milk
    ///
    ///   45 ml cream liqueur
    ///   15 ml lime juice
    ///   15 ml vodka
    ///
    ///   - stir with ice for 20 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: cream
    ///   glass: coupe, chilled
    ///   contains: milk
    ///
    ///   45 ml cream liqueur
    ///   15 ml vodka
    ///
    ///   - shake with ice for 12 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "curdles", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "it turns to curd in the glass, or in the bottle overnight"
}

/// From so much acid or wine on, ml. Common practice, no source.
const ENOUGH_ML: f64 = 5.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    let milky = |read: &&Read| {
        read.counted
            && (read.is(Trait::Curdles) || read.is(Trait::CreamLiqueur) && is_of_milk(read))
    };
    let sharp = |read: &&Read| {
        let juice = read.is(Trait::Citrus) && !read.sort_is(&[Sort::Syrup, Sort::Fruit]);
        let wine = read.sort_is(&[Sort::Wine, Sort::SparklingWine]);
        let tonic = read.is(Trait::Cinchona) && read.sort_is(&[Sort::Soda]);
        read.counted && (juice || wine || tonic) && read.volume() >= ENOUGH_ML
    };
    let Some(milk) = record.reads.iter().find(milky) else { return };
    let Some(acid) = record.reads.iter().find(sharp) else { return };
    let method = &record.method;
    let meant = [
        Technique::MilkWash,
        Technique::Clarify,
        Technique::Filter,
        Technique::Skim,
        Technique::Boil,
        Technique::Simmer,
        Technique::Cook,
        Technique::Blend,
    ];
    if method.has(&meant)
        || is_clarified(context)
        || context.is_prep() && method.has(&[Technique::Strain, Technique::FineStrain])
    {
        return;
    }
    let kept = context.is_prep()
        || record
            .terms(Key::Serve)
            .any(|(word, _)| matches!(fold(word).as_str(), "bottled" | "draught"));
    let shaken = method.mixes.iter().any(|mix| mix.melt == Melt::Shake);
    if !kept && (shaken || method.acts.is_empty()) {
        return;
    }
    sink.report(
        Report::at(context, milk.name_span, format!("{} curdles with {}", milk.name, acid.name))
            .help("shake it and serve it at once, leave the acid out, or clarify it and say so")
            .related(record.place(acid.name_span), "the acid"),
    );
}

/// A liqueur of egg does not curdle as one of cream does.
fn is_of_milk(read: &Read) -> bool {
    let carries = |known: &washline_reference::Ingredient| {
        known.carries.iter().any(|carried| carried.certain && carried.allergen == Allergen::Milk)
    };
    read.ingredient().is_some_and(carries)
}

/// Whether the curd is meant: it rests and is strained, or the steps speak of it.
fn is_clarified(context: &Context<'_>) -> bool {
    let record = context.record;
    let method = &record.method;
    let says = ["curd", "filter", "cheesecloth", "muslin", "clarified", "curdle"];
    let strains = [Technique::Strain, Technique::DoubleStrain, Technique::FineStrain];
    let rests = method.position(&[Technique::Rest, Technique::Refrigerate]);
    rests.is_some_and(|at| method.has_after(at, &strains))
        || method.acts.iter().any(|act| act.says(&record.entry, &says))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn cream_liqueur_stirred_with_lime_is_told() {
        check(
            &RULE,
            "
drink: A
  45 ml irish cream liqueur
        ^^^^^^^^^^^^^^^^^^^
  15 ml lime juice
  - stir with ice, strain
",
        );
    }

    #[test]
    fn a_bottle_of_it_is_told() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  300 ml heavy cream
         ^^^^^^^^^^^
  100 ml lemon juice
  300 ml vodka
  - shake with ice, strain, bottle
",
        );
    }

    #[test]
    fn served_at_once_or_clarified_is_silent() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  15 ml lemon juice
  15 ml lime juice
  30 ml sugar syrup, 1:1
  30 ml cream
  - shake with ice, strain
",
        );
        check(
            &RULE,
            "
prep: Milk Punch
  500 ml dark rum
  200 ml lemon juice
  250 ml whole milk
  - combine, rest for 1 h, filter
",
        );
        check(
            &RULE,
            "
drink: A
  45 ml vodka
  30 ml coffee liqueur
  30 ml cream
  - build over ice, stir
",
        );
    }

    #[test]
    fn a_liqueur_of_egg_and_a_curd_that_is_meant_are_silent() {
        check(
            &RULE,
            "
drink: A
  50 ml advocaat
  12.5 ml lime juice
  100 ml lemon-lime soda
  - build over ice
",
        );
        check(
            &RULE,
            "
drink: A
  serve: bottled
  500 ml rum
  250 ml lemon juice
  300 ml milk
  - combine all but the milk, pour into the milk, rest overnight, strain
",
        );
    }
}
