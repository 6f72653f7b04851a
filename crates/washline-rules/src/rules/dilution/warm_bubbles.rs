//! Carbonating, or topping, what is warm.

use washline_book::Temperature;
use washline_reference::Trait;
use washline_syntax::Technique;
use washline_text::fold;

use crate::rule::rule;
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
        let chills = [
            Technique::Chill,
            Technique::Refrigerate,
            Technique::Cool,
            Technique::Freeze,
            Technique::Stir,
            Technique::Shake,
        ];
        let cold =
            method.acts.iter().take(at + 1).any(|act| {
                let words = fold(record.text(act.act.span));
                act.is(&chills) || words.contains("cold") || words.contains("chilled")
            }) || record.reads.iter().any(|read| read.temperature == Some(Temperature::Chilled));
        if let Some(act) = method.act(at).filter(|_| !cold) {
            sink.report(
                Report::at(context, act.span(), "carbonated, and never chilled before")
                    .help("chill it to 0 to 2 °C first, and leave headspace"),
            );
        }
        return;
    }
    let hot = record.reads.iter().any(|read| {
        let warm = read.temperature == Some(Temperature::Hot) || read.is(Trait::Hot);
        read.counted && warm
    });
    let fizzy = record.reads.iter().find(|read| read.counted && read.is(Trait::Carbonated));
    if let Some(read) = fizzy.filter(|_| hot) {
        sink.report(
            Report::at(context, read.name_span, format!("{} goes onto something hot", read.name))
                .help("let it cool and chill it before it is topped"),
        );
    }
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
    fn chilled_first_is_silent() {
        for steps in [
            "- combine, chill, carbonate, bottle",
            "- combine, refrigerate overnight, carbonate, bottle",
            "- combine, carbonate cold, bottle",
        ] {
            check(
                &RULE,
                &format!("\ndrink: A\n  serve: bottled\n  300 ml gin\n  700 ml water\n  {steps}\n"),
            );
        }
    }
}
