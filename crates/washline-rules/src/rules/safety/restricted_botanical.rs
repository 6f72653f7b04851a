//! Own infusions of plants that are restricted or harmful.

use washline_book::Read;
use washline_reference::{Ingredient, Restriction, Trait, Trust};
use washline_text::Severity;

use super::{CODES, caution, named, with};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A maker who sells a bitter or a vermouth has its wormwood, its tonka or its calamus measured;
    /// a jar on the back bar is not. What the plant holds goes into spirit better than into water,
    /// and a stronger jar than last week's looks the same. Bought, labelled products are lawful: their
    /// makers answer for them.
    ///
    /// # Settings
    /// ```toml
    /// market = "us"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// prep: Tonka Rum
    ///   yields: 690 ml
    ///   keeps: 3 months dark
    ///
    ///   700 ml  aged rum
    ///   5 g     tonka bean
    ///
    ///   - infuse for 24 hours, fine strain
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: old-fashioned
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml  tonka rum
    ///   5 ml   rich sugar syrup
    ///
    ///   - stir with ice for 20 s, strain over the large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Vanilla Rum
    ///   yields: 690 ml
    ///   keeps: 3 months dark
    ///
    ///   700 ml  aged rum
    ///   5 g     vanilla pod
    ///
    ///   - infuse for 24 hours, fine strain
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: old-fashioned
    ///   glass: rocks
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml  vanilla rum
    ///   5 ml   rich sugar syrup
    ///
    ///   - stir with ice for 20 s, strain over the large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// 21 CFR 189.110, 189.130, 189.180 and 172.510; of other markets each restriction names its law, from
    /// memory. A law holds only in the market that the house names.
    "restricted-botanical", Safety, Error, Fixes::None, Check::Entry(find),
    why: "nobody has measured what the plant gives off into it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.record.retired {
        return;
    }
    for (at, read, known) in with(context, Trait::Restricted) {
        // Cinchona is reckoned in ppm; what is poisonous is told as that.
        if !known.is(Trait::Cinchona) && !known.is(Trait::ToxicPlant) {
            sink.report(report(context, at, read, known));
        }
    }
}

fn report(context: &Context<'_>, at: usize, read: &Read, known: &'static Ingredient) -> Report {
    let laws: Vec<&Restriction> =
        known.restrictions.iter().filter(|law| context.settings.follows(law.market)).collect();
    let forbidden = laws.iter().find(|law| law.forbidden && law.source.trust == Trust::Published);
    let grave = forbidden.is_some() || known.is(Trait::Poisonous);
    let what = if context.is_drink() { "goes into the glass" } else { "own infusion" };
    let said: Vec<String> = laws
        .iter()
        .map(|law| format!("in `{}` {} ({})", law.market.id(), law.says, law.source.text))
        .collect();
    let message = if said.is_empty() {
        format!("{}, {what}: nobody has measured it", named(read, known))
    } else {
        format!("{}, {what}: {}", named(read, known), said.join("; "))
    };
    let report = Report::on(context.record, context.read_place(at), message)
        .severity(if grave { Severity::Error } else { Severity::Warning })
        .help(format!("pour a bought, labelled product in its place, or leave it out; {CODES}"));
    if known.cautions.is_empty() { report } else { report.why(caution(known)) }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    const TONKA: &str = "prep: A\n  700 ml rum\n  5 g tonka bean\n";

    #[test]
    fn own_infusions_and_gratings() {
        check(
            &RULE,
            "
prep: A
  700 ml rum
  5 g tonka bean
      ^^^^^^^^^^
drink: B
  60 ml rum
  garnish: grated tonka
           ^^^^^^^^^^^^
prep: C
  700 ml gin
  10 g wormwood
       ^^^^^^^^
",
        );
    }

    /// 21 CFR 189.130.
    #[test]
    fn a_law_holds_in_its_market_alone() {
        assert_eq!(severity(&RULE, TONKA, "market = \"us\"\n"), Some(Severity::Error));
        assert_eq!(severity(&RULE, TONKA, ""), Some(Severity::Warning));
        assert_eq!(severity(&RULE, TONKA, "market = \"uk\"\n"), Some(Severity::Warning));
        let us = message(&RULE, TONKA, "market = \"us\"\n").unwrap();
        assert!(us.contains("21 CFR 189.130") && us.contains("Dipteryx odorata"), "{us}");
        assert!(!message(&RULE, TONKA, "market = \"eu\"\n").unwrap().contains("CFR"));
        assert_eq!(
            message(&RULE, TONKA, "").as_deref(),
            Some("tonka bean (Dipteryx odorata), own infusion: nobody has measured it")
        );
    }

    /// What poisons in a jar is an error anywhere; a law from memory is a warning at most.
    #[test]
    fn how_grave_it_is() {
        let tobacco = "prep: A\n  700 ml rum\n  10 g tobacco\n";
        assert_eq!(severity(&RULE, tobacco, ""), Some(Severity::Error));
        let kernels = "prep: A\n  700 ml brandy\n  50 g apricot kernels\n";
        assert_eq!(severity(&RULE, kernels, "market = \"eu\"\n"), Some(Severity::Error));
        let kava = "prep: A\n  700 ml rum\n  10 g kava\n";
        assert_eq!(severity(&RULE, kava, "market = \"uk\"\n"), Some(Severity::Warning));
    }

    /// Told where the plant goes in, not again by each drink that pours the prep.
    #[test]
    fn told_once() {
        check(
            &RULE,
            "
prep: Tonka Rum
  700 ml rum
  5 g tonka bean
      ^^^^^^^^^^
drink: A
  60 ml Tonka Rum
drink: B
  30 ml Tonka Rum
",
        );
    }

    /// Bought vermouth and absinthe with wormwood, a bought tincture, last year's jar.
    #[test]
    fn bought_and_labelled_is_lawful() {
        check(
            &RULE,
            "
drink: A
  45 ml sweet vermouth
  5 ml absinthe
  30 ml americano
stock: Green Lane Wormwood Tincture
  kind: wormwood
  abv: 55 %
drink: B
  60 ml gin
  2 dashes Green Lane Wormwood Tincture
prep: C
  status: retired
  700 ml rum
  5 g tonka bean
",
        );
    }
}
