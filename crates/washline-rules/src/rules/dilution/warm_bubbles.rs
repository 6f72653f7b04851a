//! Carbonating, or topping, what is warm.

use washline_book::Temperature;
use washline_reference::Trait;
use washline_syntax::Technique;
use washline_text::fold;

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A liquid takes up carbon dioxide only when it is cold, and gives it back when it warms. What is
    /// carbonated is chilled first, near freezing; what is topped is not hot. Vessels under pressure
    /// have their rating and their maker's instructions: follow both, and local codes.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: carbonated
    ///   glass: flute, chilled
    ///   serve: bottled
    ///   serves: 10
    ///   contains: none
    ///   note: bottles rated for 6 bar, filled to 5 cm below the lip
    ///
    ///   300 ml gin
    ///   100 ml lime juice, clarified, pasteurised
    ///   100 ml sugar syrup, 1:1
    ///   700 ml water
    ///
    ///   - combine, carbonate, bottle
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: carbonated
    ///   glass: flute, chilled
    ///   serve: bottled
    ///   serves: 10
    ///   contains: none
    ///   note: bottles rated for 6 bar, filled to 5 cm below the lip
    ///
    ///   300 ml gin
    ///   100 ml lime juice, clarified, pasteurised
    ///   100 ml sugar syrup, 1:1
    ///   700 ml water
    ///
    ///   - combine, chill to 1 C, carbonate, bottle
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "warm-bubbles", Dilution, Warning, Fixes::None, Check::Entry(find),
    why: "warm liquid holds no gas: it foams out and the drink is flat"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    let method = &record.method;
    if let Some(at) = method.position(&[Technique::Carbonate]) {
        carbonated(context, at, sink);
        return;
    }
    let Some(read) = record.reads.iter().find(|read| read.counted && read.is(Trait::Carbonated))
    else {
        return;
    };
    let hot = record.reads.iter().any(|read| {
        let warm = read.temperature == Some(Temperature::Hot) || read.is(Trait::Hot);
        read.counted && warm
    });
    let warm = read.qualifiers.iter().any(|said| is_warm(&fold(record.text(*said))));
    let message = match (hot, warm) {
        (true, _) => format!("{} goes onto something hot", read.name),
        (false, true) => format!("{} is poured warm", read.name),
        (false, false) => return,
    };
    sink.report(
        Report::at(context, read.name_span, message)
            .help("chill both before it is topped: what is cold keeps its gas"),
    );
}

/// Warmer than this a liquid takes up little gas, °C. Common practice, no source.
const COLD_C: f64 = 8.0;

/// What is carbonated at the act `at` is warm, or never chilled.
fn carbonated(context: &Context<'_>, at: usize, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(act) = record.method.act(at) else { return };
    let words = fold(record.text(act.act.span));
    let help = "chill it to 0 to 2 °C first, in a vessel rated for the pressure, with headspace";
    let message = match act.act.celsius {
        Some(celsius) if celsius > COLD_C => format!("carbonated at {} °C", number(celsius)),
        Some(_) => return,
        None if is_warm(&words) => "carbonated warm".to_owned(),
        None if is_chilled(context, at) => return,
        None => "carbonated, and never chilled before".to_owned(),
    };
    sink.report(Report::at(context, act.span(), message).help(help));
}

/// Whether anything chills it up to the act `at`, or a line comes cold.
fn is_chilled(context: &Context<'_>, at: usize) -> bool {
    let record = context.record;
    let chills = [
        Technique::Chill,
        Technique::Refrigerate,
        Technique::Cool,
        Technique::Freeze,
        Technique::Stir,
        Technique::Shake,
    ];
    let cold = |act: &washline_book::ActRead| {
        let words = fold(record.text(act.act.span));
        let at = act.act.celsius.is_some_and(|celsius| celsius <= COLD_C);
        at || act.is(&chills) || words.contains("cold") || words.contains("chilled")
    };
    let lines = [Some(Temperature::Chilled), Some(Temperature::Frozen)];
    record.method.acts.iter().take(at + 1).any(cold)
        || record.reads.iter().any(|read| lines.contains(&read.temperature))
}

fn is_warm(folded: &str) -> bool {
    ["room temperature", "warm", "ambient"].iter().any(|word| folded.contains(word))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn carbonating_warm_is_told() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  300 ml gin
  700 ml water
  - combine, carbonate, bottle
             ^^^^^^^^^
",
        );
    }

    #[test]
    fn soda_on_hot_water_is_told() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  60 ml hot water
  60 ml soda water
        ^^^^^^^^^^
  - build
",
        );
    }

    #[test]
    fn warm_is_told_where_it_is_said() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  300 ml gin
  700 ml water
  - combine, chill, carbonate at 20 C, bottle
                    ^^^^^^^^^^^^^^^^^
",
        );
        check(
            &RULE,
            "
drink: A
  50 ml gin
  150 ml tonic water, room temperature
         ^^^^^^^^^^^
  - build over ice
",
        );
    }

    #[test]
    fn chilled_first_is_silent() {
        for steps in [
            "- combine, chill, carbonate, bottle",
            "- combine, refrigerate overnight, carbonate, bottle",
            "- combine, carbonate cold, bottle",
            "- combine, carbonate at 2 C, bottle",
        ] {
            check(
                &RULE,
                &format!("\ndrink: A\n  serve: bottled\n  300 ml gin\n  700 ml water\n  {steps}\n"),
            );
        }
    }
}
