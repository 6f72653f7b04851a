//! The card promises another strength than the glass holds.

use washline_book::Figure;
use washline_measure::Interval;
use washline_syntax::Key;
use washline_text::fold;

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A strength on a menu is what a guest drives, doses and takes a tablet by. It is held to the
    /// computed strength with its whole range, and 1.5 % vol beside it; what is bottled and labelled
    /// to the tolerance of a label.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   strength: 12 %
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
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
    ///   strength: 16 %
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   20 ml    sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The tolerance of a label: Regulation (EU) 1169/2011, Annex XII; the number from memory.
    /// 1.5 % vol over a bar: common practice, no source.
    "strength-promise", Balance, Error, Fixes::Unsafe, Check::Figures(find),
    why: "a guest drives, doses and takes a tablet by the strength on the menu"
}

/// How far a promise over the bar may be out, % vol. Common practice, no source.
const OVER_THE_BAR: f64 = 1.5;
/// How far a label may be out, % vol. Regulation (EU) 1169/2011, Annex XII; number from memory.
const ON_A_LABEL: f64 = 0.3;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() {
        return;
    }
    let Some(promised) = context.record.number(Key::Strength) else { return };
    let Some(strength) = context.record.figures.get(Figure::Abv) else { return };
    let bottled = context.record.terms(Key::Serve).any(|(word, _)| fold(word) == "bottled");
    let tolerance = if bottled { ON_A_LABEL } else { OVER_THE_BAR };
    let within = strength.low <= promised && promised <= strength.high;
    if within || (promised - strength.value).abs() <= tolerance {
        return;
    }
    sink.report(report(context, promised, strength, tolerance));
}

fn report(
    context: &Context<'_>,
    promised: f64,
    Interval { value, low, high }: Interval,
    tolerance: f64,
) -> Report {
    let message = format!(
        "promised {} % vol, computed {} ({} to {}): {} apart, more than the {} allowed",
        number(promised),
        number(value),
        number(low),
        number(high),
        number((promised - value).abs()),
        number(tolerance),
    );
    let span = context.record.field(Key::Strength).map(|field| field.value_span);
    let report = match span {
        Some(span) => Report::at(context, span, message),
        None => Report::entry(context, message),
    };
    let report = report
        .key(crate::words::typed_lines(context.record))
        .help("measure it; then promise what it has, or mend the lines");
    let Some(span) = span else { return report };
    let text = format!("{value:.1} %");
    report.fix(format!("promise {text}, as computed"), false, vec![context.edit(span, text)])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed, severity};
    use washline_text::Severity;

    fn sour(promise: &str) -> String {
        format!(
            "drink: A\n  strength: {promise}\n  60 ml gin, 40 % abv\n  22.5 ml lemon juice\n  \
             20 ml sugar syrup, 1:1\n  - shake with ice for 12 s, strain\n"
        )
    }

    #[test]
    fn it_points_at_the_promise() {
        check(
            &RULE,
            "
drink: A
  strength: 12 %
            ^^^^
  60 ml gin, 40 % abv
  22.5 ml lemon juice
  20 ml sugar syrup, 1:1
  - shake with ice for 12 s, strain
",
        );
        assert_eq!(severity(&RULE, &sour("12 %"), ""), Some(Severity::Error));
    }

    #[test]
    fn the_computed_strength_is_offered_and_never_safe() {
        let text = sour("30 %");
        let after = fixed(&RULE, &text, "").unwrap();
        assert!(findings(&after, "").iter().all(|finding| finding.rule != RULE.name), "{after}");
        let found = findings(&text, "");
        let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert!(finding.fixes.iter().all(|fix| !fix.safe));
    }

    #[test]
    fn a_promise_nearby_is_kept() {
        for promise in ["14.5 %", "15.4 %", "16.5 %"] {
            check(&RULE, &sour(promise));
        }
    }

    /// The water is a line, so only what is poured is uncertain: a label is held closer.
    #[test]
    fn a_bottle_is_held_to_its_label() {
        let bottle = |serve: &str, promise: &str| {
            format!(
                "drink: A\n  serve: {serve}\n  strength: {promise}\n  700 ml gin, 40 % abv\n  \
                 300 ml water\n  - bottle\n"
            )
        };
        let flagged = |text: &str| findings(text, "").iter().any(|f| f.rule == RULE.name);
        assert!(flagged(&bottle("bottled", "29.3 %")) || flagged(&bottle("bottled", "29.1 %")));
        assert!(!flagged(&bottle("up", "27 %")));
        assert!(!flagged(&bottle("bottled", "28 %")));
    }

    #[test]
    fn unknown_dilution_is_held_to_nothing() {
        check(
            &RULE,
            "
drink: A
  strength: 12 %
  60 ml gin
  20 ml dry vermouth
",
        );
    }

    #[test]
    fn nothing_promised_is_nothing_broken() {
        check(&RULE, &sour("15 %").replace("  strength: 15 %\n", ""));
    }
}
