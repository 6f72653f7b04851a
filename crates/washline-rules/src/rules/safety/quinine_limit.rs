//! Quinine of the house's own cinchona.

use washline_measure::Interval;
use washline_reference::{Market, Trait};
use washline_syntax::Technique;
use washline_text::Severity;

use super::{CODES, caution, with};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Bark holds one to eight per cent of quinine and nobody knows which jar has which: a spoon of
    /// house tonic syrup can hold more than a litre of bought tonic. Too much gives ringing ears,
    /// nausea and worse, and powder that is not filtered out goes on giving. Bought tonic is made to the limit.
    ///
    /// # Settings
    /// ```toml
    /// market = "us"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// prep: Bark Syrup
    ///   yields: 690 ml
    ///   keeps: 4 weeks chilled
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///   40 g   cinchona bark
    ///
    ///   - simmer for 10 min, filter through paper
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: highball
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   gin
    ///   15 ml   lime juice
    ///   30 ml   bark syrup
    ///   100 ml  soda water
    ///
    ///   - build over ice, top with soda water
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: highball
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   gin
    ///   120 ml  tonic water
    ///
    ///   - build over ice, top with tonic water
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Source
    /// 21 CFR 172.510 (cinchona bark: 83 ppm of its alkaloids in the finished drink) and 172.575; the bark's share of
    /// quinine from memory. In other markets the figure is a yardstick, no law.
    "quinine-limit", Safety, Warning, Fixes::None, Check::Entry(find),
    why: "too much quinine gives ringing ears, nausea and worse"
}

/// Quinine of a finished drink, mg/l. Source: 21 CFR 172.510 and 172.575.
const LIMIT: f64 = 83.0;
/// The acts that take powder out.
const FILTERS: &[Technique] = &[
    Technique::Filter,
    Technique::Strain,
    Technique::FineStrain,
    Technique::DoubleStrain,
    Technique::Clarify,
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    if context.is_prep() {
        unfiltered(context, sink);
        return;
    }
    if !context.is_drink() {
        return;
    }
    let Some((at, known)) = bark(context) else { return };
    let us = context.settings.follows(Market::Us);
    let yardstick = if us {
        "`us` allows 83 ppm (21 CFR 172.510, 172.575)"
    } else {
        "bought tonic holds some 80 at the most"
    };
    let quinine = context.workspace.own_quinine(record);
    let (severity, said) = match quinine {
        Some(ppm) if ppm.value > LIMIT => (Severity::Warning, range(&ppm)),
        Some(ppm) if ppm.high > LIMIT => (Severity::Information, range(&ppm)),
        Some(_) => return,
        None => (Severity::Warning, "an amount that nobody can reckon".to_owned()),
    };
    let message = format!("own cinchona: {said} of quinine in the finished drink, and {yardstick}");
    sink.report(
        Report::on(record, context.read_place(at), message)
            .severity(severity)
            .why(caution(known))
            .help(format!("pour bought tonic, or have the syrup measured; {CODES}")),
    );
}

fn range(ppm: &Interval) -> String {
    format!("{} ppm ({} to {})", number(ppm.value), number(ppm.low), number(ppm.high))
}

/// The line through which bark of the house's own comes.
fn bark(context: &Context<'_>) -> Option<(usize, &'static washline_reference::Ingredient)> {
    context.record.reaches.iter().find_map(|(id, at)| {
        let known = washline_reference::ingredient(*id)?;
        (known.is(Trait::Cinchona) && !known.liquid).then_some((*at, known))
    })
}

/// Bark that no step takes out again.
fn unfiltered(context: &Context<'_>, sink: &mut Sink<'_>) {
    let method = &context.record.method;
    if method.acts.is_empty() || method.has(FILTERS) {
        return;
    }
    let Some((at, read, _)) = with(context, Trait::Cinchona).find(|(_, _, known)| !known.liquid)
    else {
        return;
    };
    sink.report(
        Report::on(
            context.record,
            context.read_place(at),
            format!("{} is never filtered out: its powder goes on giving quinine", read.name),
        )
        .help(format!("filter it through paper until nothing settles; {CODES}")),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    const OWN: &str = "prep: Bark Syrup\n  yields: 800 ml\n  500 g sugar\n  500 g water\n  40 g cinchona bark\n  - simmer, filter\ndrink: A\n  45 ml gin\n  30 ml Bark Syrup\n  100 ml soda water\n  - build over ice\n";

    #[test]
    fn own_bark_in_ppm() {
        check(
            &RULE,
            "
prep: Bark Syrup
  yields: 800 ml
  500 g sugar
  500 g water
  40 g cinchona bark
  - simmer, filter
drink: A
  45 ml gin
  30 ml Bark Syrup
        ^^^^^^^^^^
  100 ml soda water
  - build over ice
",
        );
        let us = message(&RULE, OWN, "market = \"us\"\n").unwrap();
        assert!(us.contains("21 CFR 172.510") && us.contains("ppm ("), "{us}");
        assert!(!message(&RULE, OWN, "market = \"eu\"\n").unwrap().contains("CFR"));
    }

    /// A pinch may be above or below: said more softly.
    #[test]
    fn a_little_leans_out() {
        let text = OWN.replace("40 g", "6 g");
        assert_eq!(severity(&RULE, OWN, ""), Some(Severity::Warning));
        assert_eq!(severity(&RULE, &text, ""), Some(Severity::Information));
        let less = OWN.replace("40 g", "0.1 g");
        assert_eq!(severity(&RULE, &less, ""), None);
    }

    #[test]
    fn powder_that_stays_in() {
        check(
            &RULE,
            "
prep: A
  500 g sugar
  500 g water
  20 g cinchona bark
       ^^^^^^^^^^^^^
  - simmer for 10 min, cool, bottle
",
        );
    }

    /// Bought tonic, quinquina, quinine syrup; last year's.
    #[test]
    fn bought_tonic_is_made_to_the_limit() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  120 ml tonic water
  - build over ice
drink: B
  45 ml white quinquina
  15 ml quinine syrup
  - build over ice
prep: C
  status: retired
  500 g water
  20 g cinchona bark
  - simmer
",
        );
    }
}
