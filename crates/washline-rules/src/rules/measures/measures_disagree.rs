//! The bracketed second measure is not the first.

use washline_measure::{Measure, Ounce, Unit, UnitKind};
use washline_syntax::{Amount, Ingredient, LineKind, Second};
use washline_text::{Severity, Span};

use crate::convert::{millilitres, pourable};
use crate::rule::rule;
use crate::words::{ml, number, percent};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A card that says two amounts is poured by whichever the hand reads first, so the same
    /// drink leaves the bar in two strengths. The ounce is read exactly and as the 30 ml that
    /// many bars pour; pairs that the trade holds equal (25 ml for 3/4 oz) and those the house
    /// lists agree. Grams against spoons are held against the bulk density.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (1 oz)  lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
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
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Ounce: NIST Handbook 44, Appendix C. 5 % and 15 %, and the pairs: common practice, no source.
    "measures-disagree", Measures, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "two hands on two shifts pour two different drinks from one card"
}

/// Millilitres and ounces that the trade holds equal. Common practice, no source.
const PAIRS: &[(f64, f64)] =
    &[(25.0, 0.75), (20.0, 2.0 / 3.0), (20.0, 0.75), (40.0, 1.5), (50.0, 1.75), (50.0, 5.0 / 3.0)];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for (at, line) in context.record.entry.lines.iter().enumerate() {
        let LineKind::Ingredient(line) = &line.what else { continue };
        let Some(second) = line.second else { continue };
        let Some((first, span)) = only_measure(line) else { continue };
        let Some(gap) = gap(context, at, &first, &second) else { continue };
        if gap.share > 0.05 {
            sink.report(report(context, &first, span, &second, &gap));
        }
    }
}

/// How far the two are apart.
struct Gap {
    share: f64,
    first: String,
    second: String,
}

/// The one measure of a line; a count's bracket is its size and disagrees with nothing.
fn only_measure(line: &Ingredient) -> Option<(Measure, Span)> {
    let Amount::Measures(sum) = &line.amount else { return None };
    let [one] = sum.as_slice() else { return None };
    let kind = one.measure.unit?.kind();
    (kind != UnitKind::Count && kind != UnitKind::Part).then_some((one.measure, one.span))
}

fn gap(context: &Context<'_>, at: usize, first: &Measure, second: &Second) -> Option<Gap> {
    let ounce = context.settings.ounce;
    let Some((a, b)) = millilitres(first, ounce).zip(millilitres(&second.measure, ounce)) else {
        return by_size(context, at);
    };
    if is_pair(context, first, &second.measure) {
        return None;
    }
    let thirty = millilitres(first, Ounce::Thirty).zip(millilitres(&second.measure, Ounce::Thirty));
    let poured = thirty.map_or(1.0, |(a, b)| apart(a, b));
    Some(Gap { share: apart(a, b).min(poured), first: ml(a), second: ml(b) })
}

/// Grams against spoons, or a bar measure against millilitres: apart only beyond their spread.
fn by_size(context: &Context<'_>, at: usize) -> Option<Gap> {
    let read = context.record.reads.iter().find(|read| read.line as usize == at)?;
    let (first, second) = (read.first_size()?, read.second_size?);
    let spread = 2.0 * first.u.hypot(second.u);
    if (first.value - second.value).abs() <= spread {
        return None;
    }
    let unit = if read.unit_makeup.as_ref()?.liquid { "ml" } else { "g" };
    Some(Gap {
        share: apart(first.value, second.value),
        first: format!("{} {unit}", number(first.value)),
        second: format!("{} {unit}", number(second.value)),
    })
}

fn apart(a: f64, b: f64) -> f64 {
    let most = a.max(b);
    if most > 0.0 { (a - b).abs() / most } else { 0.0 }
}

fn is_pair(context: &Context<'_>, first: &Measure, second: &Measure) -> bool {
    let sides = |a: &Measure, b: &Measure| {
        let metric = a.unit?.kind() == UnitKind::Metric;
        (metric && b.unit? == Unit::Oz).then_some(())?;
        Some((millilitres(a, Ounce::Us)?, b.quantity.middle().to_f64()))
    };
    let Some((ml, oz)) = sides(first, second).or_else(|| sides(second, first)) else {
        return false;
    };
    let near = |pair: &(f64, f64)| (pair.0 - ml).abs() < 0.01 && (pair.1 - oz).abs() < 0.01;
    PAIRS.iter().any(near) || context.settings.pairs.iter().any(near)
}

fn report(
    context: &Context<'_>,
    first: &Measure,
    span: Span,
    second: &Second,
    gap: &Gap,
) -> Report {
    // What is written in the unit it is compared in is not said twice.
    let meant = |written: String, size: &str, joint: &str| {
        if written == size { written } else { format!("{written}{joint}{size}") }
    };
    let message = format!(
        "{}, the bracket says {}: {} apart",
        meant(first.to_string(), &gap.first, " is "),
        meant(second.measure.to_string(), &gap.second, ", "),
        percent(100.0 * gap.share),
    );
    let severity = if gap.share > 0.15 { Severity::Error } else { Severity::Warning };
    let report = Report::at(context, span.cover(second.span), message)
        .severity(severity)
        .help("keep the amount that the bar pours and rewrite the other");
    with_fixes(context, report, first, span, second)
}

fn with_fixes(
    context: &Context<'_>,
    mut report: Report,
    first: &Measure,
    span: Span,
    second: &Second,
) -> Report {
    let ounce = context.settings.ounce;
    let rewrite =
        |from: &Measure, to: Option<Unit>| pourable(millilitres(from, ounce)?, to?, ounce);
    if let Some(text) = rewrite(first, second.measure.unit) {
        let title = format!("keep {first}, write ({text})");
        report = report.fix(title, false, vec![context.edit(second.inner, text)]);
    }
    if let Some(text) = rewrite(&second.measure, first.unit) {
        let title = format!("keep ({}), write {text}", second.measure);
        report = report.fix(title, false, vec![context.edit(span, text)]);
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn says_how_far_apart() {
        let text = "drink: A\n  1 oz (20 ml) gin\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("1 oz is 29.6 ml, the bracket says 20 ml: 32.4 % apart")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
        let other = "drink: A\n  20 ml (1 oz) gin\n";
        assert_eq!(
            message(&RULE, other, "").as_deref(),
            Some("20 ml, the bracket says 1 oz, 29.6 ml: 32.4 % apart")
        );
        let close = "drink: A\n  1 oz (27.5 ml) gin\n";
        assert_eq!(severity(&RULE, close, ""), Some(Severity::Warning));
    }

    #[test]
    fn points_at_both_amounts() {
        check(
            &RULE,
            "
drink: A
  1 oz (20 ml) gin
  ^^^^^^^^^^^^
  60 ml (2 oz) rum
",
        );
    }

    /// The pairs are held equal in the trade: common practice, no source.
    #[test]
    fn pairs_agree() {
        check(
            &RULE,
            "
drink: A
  25 ml (3/4 oz) gin
  20 ml (3/4 oz) gin
  20 ml (2/3 oz) gin
  40 ml (1 1/2 oz) gin
  50 ml (1 3/4 oz) gin
  50 ml (1 2/3 oz) gin
  22.5 ml (3/4 oz) gin
  30 ml (1 oz) gin
  45 ml (1 1/2 oz) gin
",
        );
    }

    #[test]
    fn the_house_may_list_its_own_pairs() {
        let settings = "pairs = [[\"35 ml\", \"1 oz\"]]\n";
        check(
            &RULE,
            "
drink: A
  35 ml (1 oz) gin
  ^^^^^^^^^^^^
",
        );
        check_under(
            &RULE,
            settings,
            "
drink: A
  35 ml (1 oz) gin
",
        );
    }

    /// USDA SR26, NDB 19335: a US cup of granulated sugar is 200 g.
    #[test]
    fn grams_against_cups_by_bulk_density() {
        check(
            &RULE,
            "
prep: A
  200 g (1 cup) granulated sugar
  100 g (1 cup) granulated sugar
  ^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_count_has_its_size_in_the_bracket() {
        check(
            &RULE,
            "
drink: A
  juice of 1/2 lime (15 ml)
  1 can (330 ml) cola
  1 bsp (5 ml) maraschino liqueur
  2 dashes (1.5 ml) aromatic bitters
",
        );
    }

    #[test]
    fn either_side_can_be_kept() {
        let text = "drink: A\n  3/4 oz (30 ml) gin\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  3/4 oz (22.5 ml) gin\n"));
    }
}
