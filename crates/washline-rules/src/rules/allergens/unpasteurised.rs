//! Something raw that is sold sealed.

use washline_reference::Trait;
use washline_syntax::{Key, Technique};
use washline_text::{Kind, fold};

use super::{Raw, raw};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Raw milk, raw cream and raw juice that are bottled, kegged or sealed are no longer
    /// poured within the hour: what lives in them has days to grow, and a sealed pack is sold
    /// under rules of its own, a warning label or a treatment among them. Served from the
    /// shaker the same juice is an ordinary drink. Local codes and licensed practice decide.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   serve: bottled
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///   40 ml    water
    ///
    ///   - combine, bottle, label, refrigerate
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   serve: bottled
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice, pasteurised
    ///   22.5 ml  sugar syrup, 1:1
    ///   40 ml    water
    ///
    ///   - combine, bottle, label, refrigerate
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// 21 CFR 101.17 (g), warning on packed juice that was not treated, and 21 CFR 1240.61, raw
    /// milk (both from memory); local codes decide.
    "unpasteurised", Allergens, Warning, Fixes::None, Check::Entry(find),
    why: "what lives in it has days to grow, and a sealed pack has rules of its own"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.record.kind != Kind::Drink {
        return;
    }
    let Some(how) = sealed(context) else { return };
    if let Some(raw) = raw(context, Trait::RawPerishable) {
        sink.report(report(context, &raw, how));
    }
}

/// How the drink is sealed, if it is.
fn sealed(context: &Context<'_>) -> Option<&'static str> {
    let record = context.record;
    let serve = record.terms(Key::Serve).find_map(|(word, _)| match fold(word).as_str() {
        "bottled" => Some("sold bottled"),
        "draught" => Some("kept on draught"),
        _ => None,
    });
    serve.or_else(|| {
        let mut acts = record.method.acts.iter().filter_map(|act| act.act.technique);
        acts.find_map(|technique| match technique {
            Technique::Bottle => Some("bottled"),
            Technique::Keg => Some("kegged"),
            Technique::Seal => Some("sealed"),
            _ => None,
        })
    })
}

fn report(context: &Context<'_>, raw: &Raw, how: &str) -> Report {
    let message = format!("{} is raw, and the drink is {how}", raw.way);
    Report::on(context.record, raw.place, message)
        .help("pasteurise it and write `pasteurised` on the line, or add it when the drink is served; local codes decide")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn raw_juice_in_a_bottle_is_told() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  60 ml gin
  20 ml lime juice
        ^^^^^^^^^^

drink: B
  60 ml gin
  20 ml raw milk
        ^^^^^^^^
  - combine, keg
",
        );
        let text = "drink: A\n  serve: bottled\n  20 ml lime juice\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("lime juice is raw, and the drink is sold bottled")
        );
    }

    #[test]
    fn from_the_shaker_it_is_an_ordinary_drink() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  20 ml lime juice
  - shake with ice, strain
",
        );
    }

    #[test]
    fn a_prep_in_its_bottle_is_not_sold() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  20 ml Lime Mix
  - shake with ice, strain

prep: Lime Mix
  100 ml lime juice
  100 g sugar
  - bottle, seal, label
",
        );
    }

    #[test]
    fn pasteurised_or_cooked_is_not_raw() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  60 ml gin
  20 ml lime juice, pasteurised
  20 ml Lime Cordial

prep: Lime Cordial
  100 ml lime juice
  100 g sugar
  - heat to 75 C, cool
",
        );
    }

    #[test]
    fn warmed_is_not_cooked() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  20 ml Lime Cordial
        ^^^^^^^^^^^^

prep: Lime Cordial
  100 ml lime juice
  100 g sugar
  - heat to 45 C until clear
",
        );
    }
}
