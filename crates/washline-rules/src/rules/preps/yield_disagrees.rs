//! A stated yield that the lines do not come to.

use washline_book::{Makes, Yield};
use washline_measure::Estimate;
use washline_syntax::{Key, Value};
use washline_text::Span;

use super::whole_in;
use crate::rule::rule;
use crate::words::{number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Par levels, batch sheets and the cost of each drink are divided by the yield. Volumes do not
    /// add: half a kilogram of sugar in half a litre of water makes 813 ml, not a litre. A yield
    /// above what the lines come to is not there; one far below it lost more than a strainer holds
    /// or a boil takes.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Sugar Syrup 1:1
    ///   yields: 1000 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 g   sugar
    ///   500 g   water
    ///
    ///   - warm to 60 C, stir until clear
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Sugar Syrup 1:1
    ///   yields: 810 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 g   sugar
    ///   500 g   water
    ///
    ///   - warm to 60 C, stir until clear
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Volumes by OIML R 22 and ICUMSA SPS-4; what solids hold, boils take and pots keep: common practice,
    /// no source.
    "yield-disagrees", Preps, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "par levels, batch sheets and costs are divided by it"
}

/// A jug is read to 3 %. Common practice, no source.
const READ: f64 = 0.03;
/// What stays in pots, funnels and bottles, as a share. Common practice, no source.
const CLINGS: f64 = 0.06;
/// What dries off over heat beside what boils. Common practice, no source.
const DRIES: f64 = 0.12;
/// What stays in strainers and cloths beside what solids hold. Common practice, no source.
const STRAINS: f64 = 0.20;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(makes) = record.makes.as_ref().filter(|makes| makes.settled) else { return };
    let Some(stated) = Yield::stated(record, context.settings) else { return };
    let (said, computed) = match stated {
        Yield::Ml(ml) => (ml, makes.ml),
        Yield::Grams(g) => (g, makes.g),
    };
    if let Some(side) = side(said, computed, makes) {
        sink.report(report(context, stated, computed, makes, side));
    }
}

/// On which side of what can be the stated yield lies.
#[derive(Clone, Copy)]
enum Side {
    More,
    Less,
}

fn side(said: f64, computed: Estimate, makes: &Makes) -> Option<Side> {
    let spread = computed.interval(0.0, f64::MAX);
    if said > spread.high * (1.0 + READ) {
        return Some(Side::More);
    }
    let heat = if makes.heated { DRIES } else { 0.0 };
    let cloth = if makes.strained { STRAINS } else { 0.0 };
    let least = spread.low * (1.0 - READ - CLINGS - heat - cloth);
    (said < least).then_some(Side::Less)
}

fn report(
    context: &Context<'_>,
    stated: Yield,
    computed: Estimate,
    makes: &Makes,
    side: Side,
) -> Report {
    let record = context.record;
    let span = record.field(Key::Yields).map_or(record.entry.name, |field| field.value_span);
    let unit = if matches!(stated, Yield::Ml(_)) { "ml" } else { "g" };
    let spread = computed.interval(0.0, f64::MAX);
    let come_to = format!(
        "the lines come to {} {unit} ({} to {})",
        number(computed.value),
        number(spread.low),
        number(spread.high)
    );
    let said = record.text(span);
    let message = match side {
        Side::More => format!("{said}, but {come_to}: that much is not there"),
        Side::Less => {
            let lost = match (makes.heated, makes.strained) {
                (true, true) => "boiling and straining take",
                (true, false) => "the heat takes",
                (false, true) => "straining takes",
                (false, false) => "pots and bottles keep",
            };
            format!("{said}, but {come_to}: more is gone than {lost}")
        }
    };
    let help = match side {
        Side::More => {
            "measure it, or write what the lines come to; a missing line would explain it too"
        }
        Side::Less => "measure it; or say what leaves, by a step or `loss:`",
    };
    let report = Report::at(context, span, message).help(help).key(typed_lines(record));
    match recomputed(context) {
        Some((text, span)) => {
            report.fix(format!("write {text}"), false, vec![context.edit(span, text)])
        }
        None => report,
    }
}

/// The computed yield in the unit that the field states first.
fn recomputed(context: &Context<'_>) -> Option<(String, Span)> {
    let field = context.record.field(Key::Yields)?;
    let Value::Amount(first, _) = &field.value else { return None };
    Some((whole_in(context, context.record, first.unit?)?, field.value_span))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    /// ICUMSA SPS-4: 500 g of each make 813 ml.
    #[test]
    fn more_than_the_lines_come_to() {
        let text = "prep: A\n  yields: 1 l\n  500 g sugar\n  500 g water\n";
        let said = message(&RULE, text, "").unwrap();
        assert!(said.starts_with("1 l, but the lines come to 813 ml"), "{said}");
        assert!(fixed(&RULE, text, "").unwrap().contains("yields: 0.81 l"));
        check(
            &RULE,
            "
prep: A
  yields: 1000 ml
          ^^^^^^^
  500 g sugar
  500 g water
prep: B
  yields: 1.5 kg
          ^^^^^^
  500 g sugar
  500 g water
",
        );
    }

    #[test]
    fn less_than_anything_explains() {
        check(
            &RULE,
            "
prep: A
  yields: 600 ml
          ^^^^^^
  500 g sugar
  500 g water
  - stir until clear
",
        );
    }

    /// Rounded, clung, boiled, strained, washed, stated; and what nobody can sum.
    #[test]
    fn what_leaves_explains_it() {
        check(
            &RULE,
            "
prep: A
  yields: 800 ml
  500 g sugar
  500 g water
  - stir until clear
prep: B
  yields: 700 ml
  500 g sugar
  500 g water
  - simmer for 15 min
prep: C
  yields: 600 ml
  700 ml vodka
  60 g ground coffee
  - steep overnight, strain through paper
prep: D
  yields: 680 ml
  700 ml bourbon
  100 g butter
  - fat-wash overnight, freeze, strain
prep: E
  yields: 500 ml
  loss: 40 %
  500 g sugar
  500 g water
prep: F
  yields: 300 ml
  10 limes
  - juice, fine strain
prep: G
  yields: 2 l
  500 g sugar
  500 g water
  - ferment 3 days
prep: H
  yields: 12 serves
  500 g sugar
prep: I
  yields: 400 ml
  500 g strawberries
  250 g sugar
  - macerate 4 h, strain
prep: J
  yields: 400 ml
  1 l apple juice
  - reduce by half
prep: K
  yields: 715 ml
  600 g honey
  300 g water
  - warm to 50 C, stir until even
",
        );
    }

    #[test]
    fn a_prep_with_an_unread_line_is_left_alone() {
        check(&RULE, "\nprep: A\n  yields: 5 l\n  500 g moondust\n  500 g water\n");
    }
}
