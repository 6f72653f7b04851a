//! A price that does not pay for the drink.

use washline_book::Figure;
use washline_measure::Interval;
use washline_syntax::{Field, Key, Value};
use washline_text::Severity;

use super::{is_poured, money};
use crate::rule::rule;
use crate::words::{percent, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// The pour cost is what a serve costs over what the guest pays. A price below the cost is a slip
    /// in one of the two whatever the house; beyond that the house says its share (`pour-cost` under
    /// `[limits]`), and drinks whose bottles became dearer than their price show. The price is taken
    /// as it is written, tax and all.
    ///
    /// # Settings
    /// ```toml
    /// [limits]
    /// pour-cost = "25 %"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: neat
    ///   glass: nosing glass
    ///   contains: none
    ///   price: 9.00 EUR
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
    ///   price: 16.00 EUR
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
    /// # Source
    /// Cost over price: common practice, no source. The share: the house's `washline.toml`.
    "pour-cost", House, Warning, Fixes::None, Check::Figures(find),
    why: "each glass that goes out earns less than the house reckons with"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(field) = record.field(Key::Price).filter(|_| is_poured(context)) else { return };
    let Value::Money { amount, currency } = &field.value else { return };
    let Some(cost) = record.figures.get(Figure::Cost) else { return };
    let price = amount.to_f64();
    let paid_in = record.text(*currency).trim().to_ascii_uppercase();
    if record.figures.currency.as_deref() != Some(&paid_in) || price <= 0.0 {
        return;
    }
    if cost.low > price {
        sink.report(below_cost(context, field, price, cost));
    } else if record.serves <= 1.0
        && let Some(share) = context.settings.limits.pour_cost
        && cost.value > share * price
    {
        sink.report(above_share(context, field, price, cost, share));
    }
}

fn below_cost(context: &Context<'_>, field: &Field, price: f64, cost: Interval) -> Report {
    let currency = context.record.figures.currency.as_deref();
    let message = format!(
        "the price is {}, and a serve costs {}",
        money(price, currency),
        money(cost.value, currency)
    );
    Report::at(context, field.value_span, message)
        .why("every glass that goes out loses money")
        .help("look at the price, and at the pack and cost of the dearest bottle")
        .key(typed_lines(context.record))
}

fn above_share(
    context: &Context<'_>,
    field: &Field,
    price: f64,
    cost: Interval,
    share: f64,
) -> Report {
    let currency = context.record.figures.currency.as_deref();
    let outside = cost.low > share * price;
    let leaning =
        if outside { "" } else { "; as exactly as it is measured it could still be less" };
    let message = format!(
        "a serve costs {}, {} of its price; the house holds it to {}{leaning}",
        money(cost.value, currency),
        percent(100.0 * cost.value / price),
        percent(100.0 * share),
    );
    let severity = if outside { Severity::Warning } else { Severity::Hint };
    let enough = money((cost.value / share * 10.0).ceil() / 10.0, currency);
    Report::at(context, field.value_span, message)
        .severity(severity)
        .help(format!("at {enough} it would pay; or pour less of what is dear"))
        .key(typed_lines(context.record))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    const SHARE: &str = "[limits]\npour-cost = '20 %'\n";

    fn at(price: &str, more: &str) -> String {
        format!(
            "drink: A\n  price: {price}\n{more}  50 ml House Gin\n  - pour\n\
             stock: House Gin\n  kind: gin\n  pack: 700 ml\n  cost: 28 EUR\n"
        )
    }

    #[test]
    fn the_share_is_said_and_the_price_that_would_pay() {
        let said = "a serve costs 2.00 EUR, 25 % of its price; the house holds it to 20 %";
        assert_eq!(message(&RULE, &at("8 EUR", ""), SHARE).as_deref(), Some(said));
        assert_eq!(severity(&RULE, &at("8 EUR", ""), SHARE), Some(Severity::Warning));
        assert_eq!(severity(&RULE, &at("9.9 EUR", ""), SHARE), Some(Severity::Hint));
        check_under(&RULE, SHARE, &at("10.50 EUR", ""));
    }

    #[test]
    fn a_price_below_the_cost_is_told_in_any_house() {
        let said = "the price is 1.20 EUR, and a serve costs 2.00 EUR";
        assert_eq!(message(&RULE, &at("1.20 EUR", ""), "").as_deref(), Some(said));
        check(&RULE, &at("2.50 EUR", ""));
    }

    #[test]
    fn it_points_at_the_price() {
        check(
            &RULE,
            "
drink: A
  price: 1.20 EUR
         ^^^^^^^^
  50 ml House Gin
  - pour
stock: House Gin
  kind: gin
  pack: 700 ml
  cost: 28 EUR
",
        );
    }

    #[test]
    fn another_currency_can_not_be_compared() {
        check_under(&RULE, SHARE, &at("1 GBP", ""));
    }

    #[test]
    fn a_bowl_has_one_price_for_all_its_serves() {
        check_under(&RULE, SHARE, &at("8 EUR", "  serves: 2\n"));
    }

    #[test]
    fn a_bottle_with_no_cost_leaves_nothing_to_hold_the_price_to() {
        let text = at("1 EUR", "").replace("  cost: 28 EUR\n", "");
        check_under(&RULE, SHARE, &text);
    }
}
