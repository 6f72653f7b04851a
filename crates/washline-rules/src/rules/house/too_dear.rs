//! A serve that costs more than the house allows.

use washline_book::Figure;
use washline_measure::Interval;
use washline_text::Severity;

use super::{is_poured, money};
use crate::rule::rule;
use crate::words::typed_lines;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A drink that costs too much to pour is found out at the end of the quarter, unless the card
    /// says so. The cost of a serve is each line's share of its pack and waste, as the `stock:`
    /// entries have it, held against `cost` under `[limits]`. Where one line has no price there is no
    /// cost, and nothing is said.
    ///
    /// # Settings
    /// ```toml
    /// [limits]
    /// cost = 2.50
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: neat
    ///   glass: nosing glass
    ///   contains: none
    ///
    ///   50 ml  Orchard Row Pear Brandy
    ///
    ///   - pour
    ///   garnish: none
    ///
    /// stock: Orchard Row Pear Brandy
    ///   kind: pear brandy
    ///   abv: 43 %
    ///   contains: none
    ///   pack: 700 ml
    ///   cost: 49.00 EUR
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: neat
    ///   glass: nosing glass
    ///   contains: none
    ///
    ///   30 ml  Orchard Row Pear Brandy
    ///
    ///   - pour
    ///   garnish: none
    ///
    /// stock: Orchard Row Pear Brandy
    ///   kind: pear brandy
    ///   abv: 43 %
    ///   contains: none
    ///   pack: 700 ml
    ///   cost: 49.00 EUR
    /// ```
    ///
    /// # Source
    /// The house's `washline.toml`.
    "too-dear", House, Warning, Fixes::None, Check::Figures(find),
    why: "what it loses a glass is found out at the end of the quarter"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let Some(limit) = context.settings.limits.cost else { return };
    if !is_poured(context) {
        return;
    }
    let Some(cost) = context.record.figures.get(Figure::Cost) else { return };
    if cost.value > limit {
        sink.report(report(context, cost, limit));
    }
}

fn report(context: &Context<'_>, cost: Interval, limit: f64) -> Report {
    let figures = &context.record.figures;
    let currency = figures.currency.as_deref();
    let outside = cost.low > limit;
    let leaning =
        if outside { "" } else { "; as exactly as it is measured it could still be less" };
    let message = format!(
        "a serve costs {}, the house holds it to {}{leaning}",
        money(cost.value, currency),
        money(limit, currency),
    );
    let severity = if outside { Severity::Warning } else { Severity::Hint };
    Report::entry(context, message)
        .severity(severity)
        .help("pour less of what is dear, or something of its kind that costs less")
        .key(typed_lines(context.record))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    const LIMIT: &str = "[limits]\ncost = 2.50\n";
    const STOCK: &str = "stock: House Gin\n  kind: gin\n  pack: 700 ml\n  cost: 28 EUR\n";

    fn of(ml: u32) -> String {
        format!("drink: A\n  {ml} ml House Gin\n  - pour\n{STOCK}")
    }

    #[test]
    fn the_cost_and_the_limit_are_said() {
        let said = "a serve costs 4.00 EUR, the house holds it to 2.50 EUR";
        assert_eq!(message(&RULE, &of(100), LIMIT).as_deref(), Some(said));
        assert_eq!(severity(&RULE, &of(100), LIMIT), Some(Severity::Warning));
    }

    #[test]
    fn what_the_jigger_could_bring_in_is_a_hint() {
        assert_eq!(severity(&RULE, &of(63), LIMIT), Some(Severity::Hint));
    }

    #[test]
    fn it_points_at_the_name() {
        check_under(&RULE, LIMIT, &format!("drink: A\n       ^\n  100 ml House Gin\n{STOCK}"));
    }

    #[test]
    fn without_a_limit_nothing_is_dear() {
        check(&RULE, &of(500));
        check_under(&RULE, LIMIT, &of(60));
    }

    #[test]
    fn a_line_without_a_price_leaves_no_cost_to_speak_of() {
        let text = format!("drink: A\n  100 ml House Gin\n  10 ml peach liqueur\n{STOCK}");
        check_under(&RULE, LIMIT, &text);
    }

    #[test]
    fn a_bowl_is_reckoned_by_the_serve() {
        let text = format!("drink: A\n  serves: 4\n  200 ml House Gin\n  - pour\n{STOCK}");
        check_under(&RULE, LIMIT, &text);
    }
}
