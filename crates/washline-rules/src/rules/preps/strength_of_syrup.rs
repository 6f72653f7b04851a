//! A syrup that is not as sweet as it says.

use washline_book::{Makes, Read};
use washline_measure::Estimate;
use washline_reference::Sort;
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
    if let Some(ratio) = misnamed(context) {
        sink.report(of_name(context, &ratio));
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

/// A ratio that the name states and the lines do not have.
struct Ratio {
    /// Parts of sugar to one of water, as the name says.
    said: f64,
    by_volume: bool,
    by_weight: f64,
    /// The same by volume, dry sugar as it lies, where its bulk density is known.
    volumes: Option<f64>,
}

/// The least share of what sweetens that makes a syrup: 1:2 has a third. Common practice, no source.
const SYRUP: f64 = 0.3;
/// How far from its name a ratio may be. Common practice, no source.
const NEAR: f64 = 0.12;

fn misnamed(context: &Context<'_>) -> Option<Ratio> {
    let record = context.record;
    let (said, by_volume) = record.ratio_in_name()?;
    let rich = !record.name.contains(':');
    let sweet = || record.reads.iter().filter(|read| read.counted && sweetens(read));
    let thin = || record.reads.iter().filter(|read| read.counted && thins(read));
    let total = |of: &dyn Fn(&Read) -> Option<f64>, all: &mut dyn Iterator<Item = &Read>| {
        all.map(of).sum::<Option<f64>>()
    };
    let grams = |read: &Read| read.g.map(|g| g.value);
    let whole: f64 = record.reads.iter().filter(|read| read.counted).filter_map(grams).sum();
    let sugar = total(&grams, &mut sweet())?;
    if sugar < SYRUP * whole {
        return None;
    }
    let by_weight = sugar / total(&grams, &mut thin()).filter(|g| *g > 0.0)?;
    let volumes = total(&poured_ml, &mut sweet())
        .zip(total(&poured_ml, &mut thin()))
        .map(|(sweet, thin)| sweet / thin)
        .filter(|ratio| ratio.is_finite());
    let near = |ratio: f64| {
        let off = (ratio - said).abs() / ratio.max(said);
        // `rich` promises no more than clearly over 1:1.
        off <= NEAR || rich && ratio >= 1.45
    };
    let agrees = near(by_weight) || volumes.is_some_and(near);
    (by_weight > 0.0 && !agrees).then_some(Ratio { said, by_volume, by_weight, volumes })
}

/// Sugar, and liquid sugar that is thinned with water.
fn sweetens(read: &Read) -> bool {
    let thick = read.composition.sugar > 0.55 * read.composition.mass();
    thick && read.composition.sugar > 0.0 && !read.sort_is(&[Sort::Liqueur, Sort::Fruit])
}

fn thins(read: &Read) -> bool {
    let liquid = read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid);
    liquid && !sweetens(read) || read.water
}

/// The volume of a line, ml; of dry sugar as it lies.
fn poured_ml(read: &Read) -> Option<f64> {
    if read.unit_makeup.as_ref()?.liquid {
        return read.ml.map(|ml| ml.value);
    }
    Some(read.g?.value / read.ingredient()?.density?.value)
}

fn of_name(context: &Context<'_>, ratio: &Ratio) -> Report {
    let record = context.record;
    let said = if ratio.by_volume {
        format!("{}:1 by volume", number(ratio.said))
    } else {
        format!("{}:1", number(ratio.said))
    };
    let volumes = ratio
        .volumes
        .map_or_else(String::new, |volumes| format!(", {}:1 by volume", number(volumes)));
    let message =
        format!("named {said}, but the lines are {}:1 by weight{volumes}", number(ratio.by_weight));
    let mut report = Report::entry(context, message)
        .key(typed_lines(record))
        .help("weigh out what the name says, or name it after what is weighed out");
    let first = record.reads.iter().find(|read| read.counted && sweetens(read));
    if let Some(read) = first {
        report = report.related(record.place(read.span), "what sweetens it");
    }
    report
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
