//! Metric and ounces on different lines of one spec.

use washline_measure::Unit;
use washline_syntax::Role;
use washline_text::Edit;

use crate::rule::rule;
use crate::words::list;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Measured, System, measured, system};

rule! {
    /// # Why
    /// A hand that has just poured 60 off a metric jigger reads the next figure by the same jigger.
    /// One spec in two systems, with nothing beside the odd lines, is poured wrong by whoever is new.
    /// Spoons, dashes, counts and a gram or two of a powder stand beside both.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   3/4 oz   sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// ounce = "us"
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "mixed-systems", Measures, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "the hand reads every figure of a card by the one jigger it holds"
}

/// Grams of a solid up to which a spec weighs it whatever its system: acids, salts, a pinch of
/// spice. Common practice, no source.
const WEIGHED_ANYWAY: f64 = 20.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some(odd) = odd(context) {
        sink.report(report(context, &odd));
    }
}

/// The lines of the system that fewer lines are in, and one of the others.
pub(super) struct Odd<'a> {
    lines: Vec<Measured<'a>>,
    other: Measured<'a>,
    to: System,
}

/// What is odd in an entry, if anything: the lines that the fewer are; of as many, the ounces,
/// unless the house pours them.
pub(super) fn odd<'a>(context: &Context<'a>) -> Option<Odd<'a>> {
    let (mut metric, mut ounces) = (0_usize, 0_usize);
    for line in measured(context.record) {
        match side(&line) {
            Some(System::Metric) => metric += 1,
            Some(System::Ounces) => ounces += 1,
            None => {}
        }
    }
    if metric == 0 || ounces == 0 {
        return None;
    }
    let house = context.settings.units.get("liquid").and_then(|unit| system(*unit));
    let to = match metric.cmp(&ounces) {
        std::cmp::Ordering::Less => System::Ounces,
        std::cmp::Ordering::Greater => System::Metric,
        std::cmp::Ordering::Equal => house.unwrap_or(System::Metric),
    };
    let other = measured(context.record).find(|line| side(line) == Some(to))?;
    let odd = |line: &Measured<'_>| side(line).is_some_and(|side| side != to);
    Some(Odd { lines: measured(context.record).filter(odd).collect(), other, to })
}

/// The system of a line that stands in one alone.
fn side(line: &Measured<'_>) -> Option<System> {
    let first = system(line.unit)?;
    if line.second().and_then(system).is_some_and(|second| second != first) {
        return None;
    }
    if matches!(line.read.role, Role::Garnish | Role::Rim | Role::Side) {
        return None;
    }
    let pinch = !line.liquid() && line.read.g.is_some_and(|g| g.value <= WEIGHED_ANYWAY);
    (!pinch).then_some(first)
}

fn report(context: &Context<'_>, odd: &Odd<'_>) -> Report {
    let record = context.record;
    let said = |line: &Measured<'_>| format!("{} {}", line.placed.measure, line.read.name);
    let odds: Vec<String> = odd.lines.iter().map(said).collect();
    let (these, others) = match odd.to {
        System::Metric => ("ounces", "metric"),
        System::Ounces => ("metric", "ounces"),
    };
    let message = format!("{} in {these}, {} in {others}", list(&odds), said(&odd.other));
    let at = odd.lines.first().map_or(record.entry.name, |line| line.placed.span);
    let mut report = Report::at(context, at, message)
        .related(record.place(odd.other.placed.span), format!("in {others}"))
        .help("write one system, or the second measure in brackets on every line");
    for line in odd.lines.iter().skip(1) {
        report = report.related(record.place(line.placed.span), format!("in {these} too"));
    }
    let edits: Option<Vec<_>> = odd
        .lines
        .iter()
        .map(|line| {
            let unit = target(line, odd, context);
            let text = line.written_in(unit, context.settings.ounce)?;
            Some(context.edit(line.placed.span, text))
        })
        .collect();
    let Some(edits) = edits else { return report };
    let texts: Vec<&str> = edits.iter().map(|(_, Edit { text, .. })| text.as_str()).collect();
    let title = format!("write {}", list(&texts));
    report.fix(title, false, edits)
}

/// The unit of the other system that says a line.
fn target(line: &Measured<'_>, odd: &Odd<'_>, context: &Context<'_>) -> Unit {
    let house = |kind: &str| {
        let unit = context.settings.units.get(kind).copied();
        unit.filter(|unit| system(*unit) == Some(odd.to))
    };
    let liquid = line.liquid();
    let usual = match (odd.to, liquid) {
        (System::Metric, true) => Unit::Ml,
        (System::Metric, false) => Unit::G,
        (System::Ounces, true) => Unit::Oz,
        (System::Ounces, false) => Unit::OzWt,
    };
    house(if liquid { "liquid" } else { "solid" }).unwrap_or(usual)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed, message};

    #[test]
    fn the_fewer_lines_are_the_odd_ones() {
        check(
            &RULE,
            "
drink: A
  2 oz gin
  3/4 oz lime juice
  20 ml sugar syrup
  ^^^^^
",
        );
        check(
            &RULE,
            "
drink: A
  60 ml gin
  3/4 oz lime juice
  ^^^^^^
",
        );
    }

    #[test]
    fn the_message_names_both() {
        let text = "drink: A\n  60 ml gin\n  20 ml lime juice\n  3/4 oz sugar syrup\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("0.75 oz sugar syrup in ounces, 60 ml gin in metric")
        );
    }

    /// Spoons, dashes and counts stand beside both.
    #[test]
    fn neutral_measures_are_silent() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  1 tsp maraschino liqueur
  2 dashes orange bitters
  1 bsp absinthe
  8 mint leaves
  top (4 oz) soda water
",
        );
        check(
            &RULE,
            "
drink: B
  2 oz gin
  3/4 oz lime juice
  5 g salt
  1 can (330 ml) cola
",
        );
    }

    /// A second measure on the odd line says it in the other system too.
    #[test]
    fn a_second_measure_mends_it() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  3/4 oz (22.5 ml) lime juice
  22.5 ml (3/4 oz) sugar syrup
",
        );
    }

    #[test]
    fn a_prep_weighs_and_pours_in_one_system() {
        check(
            &RULE,
            "
prep: A
  500 g sugar
  500 ml water
",
        );
        check(
            &RULE,
            "
prep: A
  500 g sugar
  2 cups water
  ^^^^^^
",
        );
    }

    #[test]
    fn the_odd_lines_are_converted() {
        let text = "drink: A\n  2 oz gin\n  3/4 oz lime juice\n  20 ml sugar syrup\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("2/3 oz sugar syrup"));
        let even = "drink: A\n  60 ml gin\n  3/4 oz lime juice\n";
        assert!(fixed(&RULE, even, "").unwrap().contains("22.5 ml lime juice"));
        let house = "[units]\nliquid = \"oz\"\n";
        assert!(fixed(&RULE, even, house).unwrap().contains("2 oz gin"));
        check_under(&RULE, house, "\ndrink: A\n  2 oz gin\n  1 oz lime juice\n");
    }
}
