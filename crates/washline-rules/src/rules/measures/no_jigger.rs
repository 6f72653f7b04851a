//! An amount that the house's jiggers cannot pour.

use washline_book::{Figure, Standing};
use washline_measure::{Ounce, Unit, UnitKind};
use washline_reference::{Sort, bar_measure};
use washline_syntax::{Key, Role};
use washline_text::fold;

use crate::convert::{millilitres, trimmed};
use crate::rule::rule;
use crate::words::{list, ml};
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Measured, measured};

rule! {
    /// # Why
    /// An amount between the marks is poured to the nearest one by some hands and guessed by
    /// others. What two measures of the house's jiggers, their marks and its bar spoon come to is
    /// poured the same by all. It holds for one serve; batches, tops and bowls are measured in jugs.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   50 ml    gin
    ///   22 ml    lemon juice
    ///   20 ml    sugar syrup, 1:1
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
    ///   50 ml    gin
    ///   20 ml    lemon juice
    ///   20 ml    sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// jiggers = [20, 25, 40, 50]
    ///
    /// [bar]
    /// barspoon = "5 ml"
    /// ```
    ///
    /// # Source
    /// The house's `jiggers` and bar spoon; the 2.5 % of a careful pour: common practice, no source.
    "no-jigger", Measures, Hint, Fixes::Unsafe, Check::Entry(find),
    why: "between the marks each hand pours its own amount"
}

/// How near two measures must come: a careful pour. Common practice, no source.
const NEAR: f64 = 0.025;
/// What is smaller is dropped or dashed, ml. Common practice, no source.
const SMALLEST: f64 = 2.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.settings.jiggers.is_empty() || !context.is_drink() || made_in_jugs(context) {
        return;
    }
    for line in measured(context.record) {
        let Some(asked) = asked(context, &line) else { continue };
        if !asked.iter().any(|ml| pours(context, *ml)) {
            sink.report(report(context, &line, asked.first().copied().unwrap_or_default()));
        }
    }
}

fn made_in_jugs(context: &Context<'_>) -> bool {
    let mut serve = context.record.terms(Key::Serve).map(|(word, _)| fold(word));
    context.record.families.is("punch")
        || serve.any(|word| matches!(word.as_str(), "bottled" | "draught" | "bowl"))
}

/// What a line asks of the jigger for one serve, ml, by the house's ounce and by the 30 ml that
/// bars pour.
fn asked(context: &Context<'_>, line: &Measured<'_>) -> Option<[f64; 2]> {
    let exact = matches!(line.unit.kind(), UnitKind::Metric | UnitKind::Customary);
    let spoon = matches!(line.unit, Unit::Tsp | Unit::Tbsp);
    let jug = line.read.role != Role::Poured || line.read.sort_is(&[Sort::Soda, Sort::Water]);
    if !exact || spoon || jug || !line.liquid() {
        return None;
    }
    let of = |ounce: Ounce| millilitres(&line.placed.measure, ounce);
    let serves = context.record.serves;
    let own = of(context.settings.ounce)? / serves;
    (own >= SMALLEST).then_some([own, of(Ounce::Thirty)? / serves])
}

/// The bar spoon, ml: as the house says, else both that are traditional.
fn spoons(context: &Context<'_>) -> Vec<f64> {
    let house = context.settings.bar.get(&Unit::Bsp);
    house.map_or_else(
        || vec![2.5, bar_measure(Unit::Bsp).map_or(4.0, |ml| ml.value), 5.0],
        |said| vec![said.0],
    )
}

/// All that one or two measures come to, ml, with the measures.
fn measures(context: &Context<'_>) -> impl Iterator<Item = (f64, Vec<f64>)> {
    let mut single = context.settings.jiggers.clone();
    single.extend(spoons(context));
    let pairs = (0..single.len()).flat_map({
        let single = single.clone();
        move |n| {
            let rest = single.get(n..).unwrap_or_default().to_vec();
            let first = single.get(n).copied().unwrap_or_default();
            rest.into_iter().map(move |second| (first + second, vec![first, second]))
        }
    });
    single.clone().into_iter().map(|one| (one, vec![one])).chain(pairs)
}

fn pours(context: &Context<'_>, ml: f64) -> bool {
    measures(context).any(|(sum, _)| (sum - ml).abs() <= NEAR * ml)
}

fn report(context: &Context<'_>, line: &Measured<'_>, asked: f64) -> Report {
    let serves = context.record.serves;
    let a_serve = if serves > 1.0 { " a serve" } else { "" };
    let message = format!(
        "{}{a_serve} of {}: no two measures of the house come to it",
        ml(asked),
        line.read.name
    );
    let report = Report::at(context, line.placed.span, message)
        .help("round it to what two measures of the jiggers and the bar spoon come to");
    match nearest(context, line, asked) {
        Some((sum, parts)) => {
            let text = trimmed_in(context, line, sum * serves);
            let parts: Vec<String> = parts.iter().map(|part| ml(*part)).collect();
            let title = format!("write {text}: {}", list(&parts));
            report.fix(title, false, vec![context.edit(line.placed.span, text)])
        }
        None => report,
    }
}

/// The nearest sum of one or two measures of the jiggers that leaves every figure in the band
/// it is in; of two as near, the one measure.
fn nearest(context: &Context<'_>, line: &Measured<'_>, asked: f64) -> Option<(f64, Vec<f64>)> {
    let mut sums: Vec<(f64, Vec<f64>)> = measures(context)
        .filter(|(sum, _)| line.unit == Unit::Ml || in_unit(context, line, *sum).is_some())
        .collect();
    sums.sort_by(|a, b| {
        let off = |sum: f64| (sum - asked).abs();
        off(a.0).total_cmp(&off(b.0)).then(a.1.len().cmp(&b.1.len()))
    });
    sums.into_iter().take(6).find(|(sum, _)| keeps_balance(context, line, *sum))
}

fn keeps_balance(context: &Context<'_>, line: &Measured<'_>, sum: f64) -> bool {
    let ml = sum * context.record.serves;
    let Some(after) = context.workspace.with_amount(context.record, line.at, ml) else {
        return true;
    };
    [Figure::Ratio, Figure::Abv, Figure::Sugar, Figure::Acid].into_iter().all(|figure| {
        let Some((band, _, now)) = context.record.standing(figure, context.settings) else {
            return true;
        };
        now != Standing::Inside || after.value(figure).is_none_or(|value| band.holds(value))
    })
}

/// The number of the line's own unit that `ml` is, where a card can write it.
fn in_unit(context: &Context<'_>, line: &Measured<'_>, ml: f64) -> Option<f64> {
    let one = line.unit.ml(context.settings.ounce)?.to_f64();
    let number = ml / one;
    let eighths = number * 8.0;
    let ounces = matches!(line.unit, Unit::Oz | Unit::ImpOz);
    (!ounces || (eighths - eighths.round()).abs() <= 0.05 * eighths).then_some(number)
}

fn trimmed_in(context: &Context<'_>, line: &Measured<'_>, ml: f64) -> String {
    let ounce = context.settings.ounce;
    if matches!(line.unit, Unit::Oz | Unit::ImpOz) {
        return crate::convert::pourable(ml, line.unit, ounce).unwrap_or_default();
    }
    let one = line.unit.ml(ounce).map_or(1.0, washline_measure::Exact::to_f64);
    format!("{} {}", trimmed(ml / one), line.unit.name())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed, message};

    const JIGGERS: &str =
        "jiggers = [{ size = 50, marks = [20, 25, 40] }]\n[bar]\nbarspoon = \"5 ml\"\n";

    #[test]
    fn silent_until_the_house_lists_its_jiggers() {
        check(&RULE, "\ndrink: A\n  37 ml gin\n  22 ml lime juice\n");
    }

    #[test]
    fn what_two_measures_cannot_pour() {
        check_under(
            &RULE,
            JIGGERS,
            "
drink: A
  50 ml gin
  33 ml rum
  ^^^^^
  45 ml brandy
  30 ml lime juice
  10 ml sugar syrup
  90 ml apple juice
",
        );
        let text = "drink: A\n  33 ml rum\n";
        assert_eq!(
            message(&RULE, text, JIGGERS).as_deref(),
            Some("33 ml of rum: no two measures of the house come to it")
        );
    }

    /// 12.5 ml where the jigger has that mark.
    #[test]
    fn a_mark_is_a_measure() {
        let marked = "jiggers = [{ size = 25, marks = [12.5] }]\n";
        check_under(&RULE, marked, "\ndrink: A\n  12.5 ml lime juice\n  37.5 ml gin\n");
        check_under(
            &RULE,
            "jiggers = [25]\n[bar]\nbarspoon = \"5 ml\"\n",
            "
drink: A
  12.5 ml lime juice
  ^^^^^^^
",
        );
    }

    /// Ounces pour by the exact ounce and by 30 ml.
    #[test]
    fn ounces_are_poured_by_either_reading() {
        let jiggers = "jiggers = [\"30 ml\", \"60 ml\", \"22.5 ml\", \"15 ml\"]\n";
        check_under(
            &RULE,
            jiggers,
            "\ndrink: A\n  2 oz gin\n  3/4 oz lime juice\n  1 1/2 oz rum\n",
        );
    }

    /// Per serve; and what is made in jugs, topped, dashed or spooned asks no jigger.
    #[test]
    fn a_serve_is_what_counts() {
        check_under(
            &RULE,
            JIGGERS,
            "
drink: A
  serves: 4
  200 ml gin
  132 ml lime juice
  ^^^^^^
drink: B
  serve: bottled
  serves: 7
  333 ml gin
drink: C
  family: punch
  serves: 12
  2 l apple juice
  333 ml rum
drink: D
  top (93 ml) soda water
  1 tsp absinthe
  2 dashes orange bitters
  1 ml saline
prep: E
  333 ml water
",
        );
    }

    #[test]
    fn the_nearest_that_can_be_poured() {
        let text = "drink: A\n  33 ml rum\n";
        assert!(fixed(&RULE, text, JIGGERS).unwrap().contains("30 ml rum"));
    }
}
