//! A prep that does not say how much it makes.

use washline_book::{Makes, Read};
use washline_measure::{Unit, UnitKind};
use washline_syntax::{Key, LineKind};

use super::whole_in;
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Par levels, batch sheets and the cost of each drink are divided by the yield, and volumes do
    /// not add: nobody gets it right in the head. What the lines come to is offered; measure the
    /// first batch and correct it where something is strained or boiled off.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Honey Syrup
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// prep: Cinnamon Syrup
    ///   keeps: 3 weeks chilled
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///   20 g   cinnamon stick
    ///
    ///   - simmer for 5 min, rest for 2 hours, fine strain
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    aged rum
    ///   22.5 ml  lime juice
    ///   22.5 ml  cinnamon syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 675 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// prep: Cinnamon Syrup
    ///   yields: 750 ml
    ///   keeps: 3 weeks chilled
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///   20 g   cinnamon stick
    ///
    ///   - simmer for 5 min, rest for 2 hours, fine strain
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    aged rum
    ///   22.5 ml  lime juice
    ///   22.5 ml  cinnamon syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// Volumes by OIML R 22 and ICUMSA SPS-4; common practice, no source.
    "no-yield", Preps, Information, Fixes::Both, Check::Entry(find),
    why: "par levels, batch sheets and costs are divided by it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired || says_how_much(context) {
        return;
    }
    // An empty heading is a prep still being written.
    if record.reads.is_empty() {
        return;
    }
    let makes = record.makes.as_ref().filter(|makes| makes.settled && !record.unread);
    let known = makes.filter(|_| !record.reads.iter().any(|read| read.vague));
    sink.report(report(context, known));
}

fn says_how_much(context: &Context<'_>) -> bool {
    [Key::Yields, Key::Serves].iter().any(|key| context.record.field(*key).is_some())
}

fn report(context: &Context<'_>, makes: Option<&Makes>) -> Report {
    let record = context.record;
    let report = Report::entry(context, format!("{} does not say how much it makes", record.name));
    let liquid = record.makeup.as_ref().is_some_and(|makeup| makeup.liquid);
    let unit = if liquid { Unit::Ml } else { Unit::G };
    let (Some(makes), Some(text)) = (makes, whole_in(context, record, unit)) else {
        return report.help("measure it and write `yields:`");
    };
    let whole = if liquid { makes.ml } else { makes.g };
    let spread = whole.interval(0.0, f64::MAX);
    let help = format!(
        "by its lines it makes {} {} ({} to {}): measure it and write `yields:`",
        number(whole.value),
        unit.name(),
        number(spread.low),
        number(spread.high)
    );
    let report = report.help(help);
    match context.line_below(0, &format!("yields: {text}")) {
        Some(edit) => {
            report.fix(format!("write `yields: {text}`"), is_certain(context), vec![edit])
        }
        None => report,
    }
}

/// Whether all that goes in is measured, and stays in.
fn is_certain(context: &Context<'_>) -> bool {
    let record = context.record;
    let weighed = |read: &&Read| {
        read.unit.is_some_and(|unit| {
            matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary | UnitKind::Mass)
        })
    };
    let makes = record.makes.as_ref();
    makes.is_some_and(|makes| !makes.heated && !makes.strained)
        && record.reads.iter().filter(|read| read.counted).all(|read| weighed(&read))
        && !record.entry.lines.iter().any(|line| matches!(line.what, LineKind::Unread))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed, severity};
    use washline_text::Severity;

    /// ICUMSA SPS-4: 500 g of each make 813 ml.
    #[test]
    fn what_the_lines_come_to_is_offered() {
        let text = "prep: A\n  500 g sugar\n  500 g water\n";
        check(&RULE, "\nprep: A\n      ^\n  500 g sugar\n  500 g water\n");
        assert_eq!(
            fixed(&RULE, text, "").as_deref(),
            Some("prep: A\n  yields: 815 ml\n  500 g sugar\n  500 g water\n")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Information));
        let dry = "prep: A\n  200 g sugar\n  20 g salt\n";
        assert!(fixed(&RULE, dry, "").unwrap().contains("yields: 220 g\n"));
    }

    #[test]
    fn safe_only_where_nothing_leaves() {
        let safe = |text: &str| {
            let found = findings(text, "");
            let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
            finding.fixes.first().map(|fix| fix.safe)
        };
        assert_eq!(safe("prep: A\n  500 g sugar\n  500 g water\n"), Some(true));
        assert_eq!(
            safe("prep: A\n  500 g sugar\n  500 g water\n  - simmer for 5 min\n"),
            Some(false)
        );
        assert_eq!(safe("prep: A\n  500 ml gin\n  3 sticks cinnamon stick\n"), Some(false));
        assert_eq!(safe("prep: A\n  1 l water\n  100 g sugar\n  - ferment\n"), None);
        assert_eq!(safe("prep: A\n  1 l water\n  100 g moondust\n"), None);
    }

    #[test]
    fn silent_where_it_is_said() {
        check(
            &RULE,
            "
prep: A
  yields: 800 ml
  500 g sugar
  500 g water
prep: B
  serves: 12
  500 g sugar
  500 g water
prep: C
  status: draft
  500 g sugar
  500 g water
prep: D
  status: retired
  500 g sugar
  500 g water
prep: E
  yields: 20 pieces
  4 oranges
drink: F
  60 ml gin
",
        );
    }
}
