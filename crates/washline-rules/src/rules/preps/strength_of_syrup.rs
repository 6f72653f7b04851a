//! A syrup that is not as sweet as it says.

use washline_book::{Makes, Proportion};
use washline_measure::Estimate;
use washline_syntax::{Key, Value};
use washline_text::Span;

use crate::rule::rule;
use crate::words::{number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A spec is balanced on the syrup that its name promises: 2:1 has 44 % more sugar in a measure
    /// than 1:1. A ratio is held against the lines by weight and by volume, and agrees if either
    /// does. A Brix that the lines contradict was read wrong, or is another batch's.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Sugar Syrup 1:1
    ///   yields: 810 ml
    ///   brix: 66
    ///   keeps: 2 weeks chilled
    ///
    ///   500 g   sugar
    ///   500 g   water
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   15 ml    sugar syrup 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Sugar Syrup 1:1
    ///   yields: 810 ml
    ///   brix: 50
    ///   keeps: 2 weeks chilled
    ///
    ///   500 g   sugar
    ///   500 g   water
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   15 ml    sugar syrup 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Sugar of syrups by weight and by volume: ICUMSA SPS-4, and 200 g of sugar a US cup (USDA SR26 19335).
    "strength-of-syrup", Preps, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "the drinks that pour it are balanced on the sugar it says it has"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_prep() {
        return;
    }
    if let Some(brix) = contradicted(context) {
        sink.report(of_brix(context, &brix));
        return;
    }
    if let Some((said, proportion)) = misnamed(context) {
        sink.report(of_name(context, &said, &proportion));
    }
}

/// A refractometer is read to half a unit, and a kitchen's syrup to another. Common practice, no source.
const READ: f64 = 1.5;
/// A refractometer reads a solution of anything else too; above this share of alcohol it cannot be read.
const MISLED: f64 = 0.01;

/// A stated Brix that the lines contradict.
struct Brix {
    said: f64,
    computed: Estimate,
    span: Span,
}

fn contradicted(context: &Context<'_>) -> Option<Brix> {
    let record = context.record;
    let field = record.field(Key::Brix)?;
    let Value::Number(said) = &field.value else { return None };
    let makes = record.makes.as_ref().filter(|makes| makes.settled)?;
    let (said, whole) = (said.to_f64(), makes.composition.mass());
    if whole <= 0.0 || makes.composition.ethanol > MISLED * whole {
        return None;
    }
    // It reads acid, salt and other solids with the sugar.
    let c = &makes.composition;
    let beside = 100.0 * (c.acid + c.salt + c.other + c.protein) / whole;
    let low = makes.brix.value - 2.0 * makes.brix.u - READ - sank(makes);
    let high = makes.brix.value + 2.0 * makes.brix.u + READ + beside + rose(makes);
    let out = said < low || said > high;
    out.then_some(Brix { said, computed: makes.brix, span: field.value_span })
}

/// Brix by which fruit that gives up its water may lower it. Common practice, no source.
const fn sank(makes: &Makes) -> f64 {
    if makes.strained { 4.0 } else { 0.0 }
}

/// Brix by which what dries off over heat may raise it. Common practice, no source.
const fn rose(makes: &Makes) -> f64 {
    if makes.heated { 4.0 } else { 0.0 }
}

fn of_brix(context: &Context<'_>, brix: &Brix) -> Report {
    let computed = brix.computed.interval(0.0, 100.0);
    let text = number(brix.computed.value.round());
    let message = format!(
        "{} Brix, but the lines come to {} ({} to {})",
        number(brix.said),
        number(computed.value),
        number(computed.low),
        number(computed.high)
    );
    Report::at(context, brix.span, message)
        .key(typed_lines(context.record))
        .help("read the refractometer again at 20 °C, or weigh out what the Brix asks for")
        .fix(format!("write {text}"), false, vec![context.edit(brix.span, text)])
}

/// How far from its name a proportion may be. Common practice, no source.
const NEAR: f64 = 0.12;
/// What `rich` promises at the least: clearly over 1:1. Common practice, no source.
const RICH: f64 = 1.45;

/// The parts to one that the name states and the lines do not have, and what they have.
fn misnamed(context: &Context<'_>) -> Option<(String, Proportion)> {
    let record = context.record;
    let (said, by_volume) = record.ratio_in_name()?;
    let proportion = record.proportion()?;
    let rich = !record.name.contains(':');
    let near = |parts: f64| {
        let off = (parts - said).abs() / parts.max(said);
        off <= NEAR || rich && parts >= RICH
    };
    if near(proportion.by_weight) || proportion.by_volume.is_some_and(near) {
        return None;
    }
    let by = if by_volume { " by volume" } else { "" };
    Some((format!("{}:1{by}", number(said)), proportion))
}

fn of_name(context: &Context<'_>, said: &str, proportion: &Proportion) -> Report {
    let record = context.record;
    let by_volume = proportion
        .by_volume
        .map_or_else(String::new, |parts| format!(", {}:1 by volume", number(parts)));
    let message = format!(
        "named {said}, but the lines are {}:1 by weight{by_volume}",
        number(proportion.by_weight)
    );
    let report = Report::entry(context, message)
        .key(typed_lines(record))
        .help("weigh out what the name says, or name it after what is weighed out");
    match record.reads.iter().find(|read| read.counted && read.sweetens()) {
        Some(read) => report.related(record.place(read.span), "what sweetens it"),
        None => report,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn rich_and_two_to_one_are_held_to_it() {
        check(
            &RULE,
            "
prep: Rich Sugar Syrup
      ^^^^^^^^^^^^^^^^
  500 g sugar
  500 g water
prep: Demerara Syrup 2:1
      ^^^^^^^^^^^^^^^^^^
  500 g demerara sugar
  500 g water
prep: Sugar Syrup 1:1
      ^^^^^^^^^^^^^^^
  1 kg sugar
  500 g water
",
        );
        let text = "prep: Demerara Syrup 2:1\n  500 g demerara sugar\n  500 g water\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("named 2:1, but the lines are 1:1 by weight, 1.17:1 by volume")
        );
    }

    /// By weight, by volume, 3:2 as rich, honey thinned, with a pinch of gum or a peel.
    #[test]
    fn either_reading_will_do() {
        check(
            &RULE,
            "
prep: Rich Sugar Syrup
  1 kg sugar
  500 ml water
prep: Sugar Syrup 2:1
  2 cups sugar
  1 cup water
prep: Rich Demerara Syrup
  750 g demerara sugar
  500 g water
prep: Honey Syrup 3:1
  300 g honey
  100 g water
prep: Sugar Syrup 1:1 by volume
  1 cup sugar
  1 cup water
prep: Sugar Syrup 2:1, by volume
  200 g sugar
  118 g water
prep: Rich Cream Foam
  500 ml cream
  50 g sugar
prep: Ginger Syrup
  500 g sugar
  400 g ginger juice
",
        );
    }

    /// ICUMSA SPS-4: a kilogram of each is 50 Brix.
    #[test]
    fn a_brix_that_the_lines_contradict() {
        let text = "prep: A\n  brix: 66\n  500 g sugar\n  500 g water\n";
        check(
            &RULE,
            "
prep: A
  brix: 66
        ^^
  500 g sugar
  500 g water
prep: B
  brix: 30
        ^^
  500 g sugar
  500 g water
  - simmer for 5 min
",
        );
        let said = message(&RULE, text, "").unwrap();
        assert!(said.starts_with("66 Brix, but the lines come to 50 ("), "{said}");
        assert!(fixed(&RULE, text, "").unwrap().contains("brix: 50\n"));
    }

    /// Read to half a unit, boiled down, with acid beside the sugar, or with spirit in it.
    #[test]
    fn a_brix_within_what_can_be() {
        check(
            &RULE,
            "
prep: A
  brix: 50.5
  500 g sugar
  500 g water
prep: B
  brix: 56
  500 g sugar
  500 g water
  - simmer for 15 min
prep: C
  brix: 52
  500 g sugar
  450 g lime juice
  25 g citric acid
prep: D
  brix: 20
  500 g sugar
  500 ml vodka
prep: E
  brix: 66.7
  yields: 600 ml
  500 g sugar
  500 g water
  - reduce
",
        );
    }

    #[test]
    fn one_cause_is_told_once() {
        check(
            &RULE,
            "
prep: Rich Sugar Syrup
  brix: 65
        ^^
  500 g sugar
  500 g water
",
        );
    }
}
