//! Milk poured into the punch at a milk wash.

use washline_book::{ActRead, Read};
use washline_reference::{Sort, Trait};
use washline_syntax::Technique;
use washline_text::{Kind, fold};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// The punch goes into the milk: the first drops curdle gently and the curd grows coarse
    /// enough to filter through. Milk poured into the acid breaks at once into a fine curd that
    /// clouds the punch and blocks the cloth.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Clear Punch
    ///   contains: milk
    ///   yields: 960 ml
    ///   keeps: 4 weeks chilled
    ///
    ///   500 ml  aged rum
    ///   200 ml  lemon juice
    ///   150 g   sugar
    ///   250 ml  milk
    ///
    ///   - combine all but the milk, stir until clear
    ///   - milk-wash: pour the milk into the punch, rest for 1 hour
    ///   - strain through cloth, filter
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: punch
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: milk
    ///
    ///   90 ml  clear punch, chilled
    ///
    ///   - pour over the large cube, stir for 10 s
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Clear Punch
    ///   contains: milk
    ///   yields: 960 ml
    ///   keeps: 4 weeks chilled
    ///
    ///   500 ml  aged rum
    ///   200 ml  lemon juice
    ///   150 g   sugar
    ///   250 ml  milk
    ///
    ///   - combine all but the milk, stir until clear
    ///   - milk-wash: pour the punch into the milk, rest for 1 hour
    ///   - strain through cloth, filter
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: punch
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: milk
    ///
    ///   90 ml  clear punch, chilled
    ///
    ///   - pour over the large cube, stir for 10 s
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "milk-into-punch", Preps, Warning, Fixes::None, Check::Entry(find),
    why: "a fine curd clouds the punch and blocks the cloth"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind == Kind::Stock || !washes(context) {
        return;
    }
    let Some(milk) = record.reads.iter().position(is_milk) else { return };
    let acts = &record.method.acts;
    let late = acts.iter().enumerate().find(|(at, act)| {
        let first = acts.iter().take(*at).all(|before| !goes_in(before));
        goes_last(context, act, milk) && !first
    });
    let Some((_, act)) = late else { return };
    let name = record.reads.get(milk).map_or("milk", |read| read.name.as_str());
    sink.report(
        Report::at(context, act.span(), format!("the {name} goes into the punch"))
            .help("put the milk in the vessel first and pour the punch into it, in a thin stream"),
    );
}

/// Whether milk is meant to curdle and be filtered out.
fn washes(context: &Context<'_>) -> bool {
    let method = &context.record.method;
    let through =
        &[Technique::Strain, Technique::FineStrain, Technique::DoubleStrain, Technique::Filter];
    let acid = || context.record.reads.iter().any(|read| read.counted && read.sours());
    method.has(&[Technique::MilkWash])
        || method.has(&[Technique::Clarify]) && method.has(through) && acid()
}

fn is_milk(read: &Read) -> bool {
    let milk = read.sort_is(&[Sort::Dairy, Sort::PlantMilk]) && read.is(Trait::Curdles);
    read.counted && milk
}

fn goes_in(act: &ActRead) -> bool {
    act.is(&[Technique::Combine, Technique::Add, Technique::Mix, Technique::Pour, Technique::Stir])
}

/// Whether the act puts the milk into what is there: `add the milk`, `pour the milk into the punch`.
fn goes_last(context: &Context<'_>, act: &ActRead, milk: usize) -> bool {
    if !act.mentions.contains(&milk) || act.but.contains(&milk) || act.everything {
        return false;
    }
    let words = fold(context.record.text(act.span()));
    let onto = [
        "into the milk",
        "to the milk",
        "over the milk",
        "into hot milk",
        "into warm milk",
        "into cold milk",
        "into milk",
        "to milk",
        "onto the milk",
    ];
    if onto.iter().any(|words_| words.contains(words_)) {
        return false;
    }
    let alone = act.mentions.iter().all(|line| *line == milk);
    let into = words.contains(" into ") || words.contains(" to the ");
    match act.act.technique {
        Some(Technique::Add | Technique::AddBack) => alone,
        Some(Technique::Pour | Technique::MilkWash | Technique::Whisk | Technique::Mix) => into,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn milk_into_the_punch() {
        check(
            &RULE,
            "
prep: A
  500 ml rum
  200 ml lemon juice
  250 ml milk
  - combine the rum and lemon juice
  - milk-wash: pour the milk into the punch
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  - strain
prep: B
  500 ml rum
  200 ml lemon juice
  250 ml milk
  - combine the rum and lemon juice
  - add the milk, rest for 1 hour, clarify, filter
    ^^^^^^^^^^^^
",
        );
        let text = "prep: A\n  500 ml rum\n  200 ml lemon juice\n  250 ml milk\n  - combine the rum and lemon juice\n  - milk-wash: pour the milk into the punch\n";
        assert!(message(&RULE, text, "").unwrap().starts_with("the milk goes into the punch"));
    }

    #[test]
    fn the_punch_into_the_milk() {
        check(
            &RULE,
            "
prep: A
  500 ml rum
  200 ml lemon juice
  250 ml milk
  - combine all but the milk
  - milk-wash: pour the punch into the milk
  - strain
prep: B
  500 ml rum
  200 ml lemon juice
  250 ml milk
  - combine the rum and lemon juice
  - milk-wash: add the punch to the milk, strain
prep: C
  500 ml rum
  200 ml lemon juice
  250 ml milk
  - pour the milk into a jug
  - pour the rum and lemon juice over the milk
  - milk-wash, strain
",
        );
    }

    /// A milky drink, a ferment of milk, an agar clarification, spirit washed with milk alone.
    #[test]
    fn silent_where_nothing_is_washed() {
        check(
            &RULE,
            "
drink: A
  45 ml rum
  100 ml milk
  - build, add the milk, stir
prep: B
  500 ml coffee
  200 ml milk
  - combine, add the milk, strain
prep: C
  500 ml lime juice
  1 g agar
  - heat, clarify, filter
prep: D
  500 ml coconut milk
  100 g sugar
  - add the coconut milk, stir
",
        );
    }
}
