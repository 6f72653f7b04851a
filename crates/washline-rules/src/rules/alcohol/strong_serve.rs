//! More ethanol in one serve than the house allows.

use washline_book::Figure;
use washline_measure::Interval;
use washline_reference::Market;
use washline_syntax::Key;
use washline_text::Severity;

use crate::rule::rule;
use crate::words::{ml, number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

use super::strong_lines;

rule! {
    /// # Why
    /// A serve above the house's limit puts a guest where the bar must stop serving after one. The
    /// limit is the house's own, 30 g of ethanol unless it says otherwise; what the law asks, and
    /// when to stop, local codes and licensed practice decide.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 350 ml
    ///   ice: large cube
    ///   contains: none
    ///
    ///   90 ml     bourbon
    ///   45 ml     rye whiskey
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 30 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 350 ml
    ///   ice: large cube
    ///   contains: none
    ///
    ///   45 ml     bourbon
    ///   22.5 ml   rye whiskey
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 30 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// `ethanol-g` of the house's `[limits]`; 30 g: common practice, no source. Standard drinks by market:
    /// as the markets' data name them.
    "strong-serve", Alcohol, Warning, Fixes::None, Check::Figures(find),
    why: "one of these is a guest's evening, and nobody at the bar can see it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() {
        return;
    }
    let limit = context.settings.limits.ethanol_g;
    let Some(ethanol) = context.record.figures.get(Figure::Ethanol) else { return };
    if ethanol.value > limit {
        sink.report(report(context, ethanol, limit));
    }
}

fn report(context: &Context<'_>, ethanol: Interval, limit: f64) -> Report {
    let record = context.record;
    let outside = ethanol.low > limit;
    let leaning = if outside { "" } else { "; what is not known exactly could still bring it in" };
    let message = format!(
        "{} g of ethanol a serve ({} to {}), the house allows {} g: {}{leaning}",
        number(ethanol.value),
        number(ethanol.low),
        number(ethanol.high),
        number(limit),
        drinks(context),
    );
    let batch =
        record.serves <= 1.0 && record.field(Key::Serves).is_none() && ethanol.value > 3.0 * limit;
    let help = if batch {
        "say how many it `serves`; or pour less of what is strong. Local codes and licensed practice decide what may be served"
    } else {
        "pour less of what is strong, or serve it smaller; local codes and licensed practice decide what may be served"
    };
    let severity = if outside { Severity::Warning } else { Severity::Hint };
    let mut report =
        Report::entry(context, message).severity(severity).help(help).key(typed_lines(record));
    if let Some(read) = strong_lines(record).first() {
        let most = format!("most of it: {} g", number(read.composition.ethanol / record.serves));
        report = report.related(record.place(read.span), most);
    }
    report
}

/// The serve in the standard drinks of the house's first market, or as a volume of spirit.
fn drinks(context: &Context<'_>) -> String {
    let record = context.record;
    let market = context.settings.markets.first();
    let at = market.and_then(|market| Market::ALL.iter().position(|known| known == market));
    let counted = at.and_then(|at| record.figures.standard_drinks.get(at).copied().flatten());
    if let (Some(drinks), Some(market)) = (counted, market) {
        return format!("{} standard drinks ({})", number(drinks.value), market.id());
    }
    let ethanol = record.figures.value(Figure::Ethanol).unwrap_or_default();
    format!("as much as {} of spirit of 40 % vol", ml(ethanol / 0.789_24 / 0.4))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    #[test]
    fn above_the_houses_limit() {
        check(
            &RULE,
            "
drink: Lantern Row
       ^^^^^^^^^^^
  120 ml rum
  - stir with ice, strain
",
        );
        let text = "drink: A\n  120 ml rum\n  - stir with ice, strain\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert!(message(&RULE, text, "").unwrap().contains("the house allows 30 g"));
    }

    /// 95 ml of gin at 40 % vol is 30 g by 0.78924 g/ml (OIML R 22): neither side is sure.
    #[test]
    fn near_the_limit_is_a_hint() {
        let text = "drink: A\n  96 ml gin\n  - stir with ice, strain\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Hint));
        assert!(message(&RULE, text, "").unwrap().contains("could still bring it in"));
    }

    #[test]
    fn per_serve_and_by_the_houses_own_limit() {
        let four = "
drink: A
  serves: 4
  240 ml gin
  - stir with ice, strain
drink: B
  serve: bottled
  portion: 100 ml
  350 ml gin
  350 ml sweet vermouth
  300 ml water
prep: C
  1 l gin
";
        check(&RULE, four);
        check_under(
            &RULE,
            "[limits]\nethanol-g = 60\n",
            "\ndrink: A\n  150 ml gin\n  - stir with ice, strain\n",
        );
        check_under(
            &RULE,
            "[limits]\nethanol-g = 10\n",
            "
drink: A
       ^
  60 ml gin
  - stir with ice, strain
",
        );
    }

    #[test]
    fn a_market_counts_its_own_drinks() {
        let text = "drink: A\n  120 ml rum\n  - stir with ice, strain\n";
        assert!(
            message(&RULE, text, "market = \"uk\"\n").unwrap().contains("standard drinks (uk)")
        );
    }
}
