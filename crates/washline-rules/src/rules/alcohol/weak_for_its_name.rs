//! A bottle below what the law asks of its name.

use washline_reference::{Market, Minimum, ingredient};
use washline_syntax::{Key, Value};
use washline_text::{Kind, Span};

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// The law of a market sets the least strength, or sugar, at which a bottle may carry a name.
    /// A stock entry below it is a slip of the pen, or a bottle that may not be sold by that name
    /// there; either way the figures of each drink that pours it are wrong.
    ///
    /// # Flagged
    /// ```pour
    /// stock: Harbour Gin
    ///   kind: gin
    ///   abv: 34 %
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// stock: Harbour Gin
    ///   kind: gin
    ///   abv: 43 %
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// market = "eu"
    /// ```
    ///
    /// # Source
    /// Regulation (EU) 2019/787, Annex I, as each category's data name it; several from memory.
    "weak-for-its-name", Alcohol, Warning, Fixes::None, Check::Entry(find),
    why: "each drink that pours it is weaker than its card, or the bottle is misnamed"
}

/// What a label may be off, % vol. Source: Regulation (EU) 1169/2011, Annex XII (number from memory).
const LABEL: f64 = 0.3;
/// Grams of invert sugar that a gram of sucrose is: C12H22O11 with one H2O.
const INVERT: f64 = 1.0526;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind != Kind::Stock || context.settings.markets.is_empty() {
        return;
    }
    let known = record.reaches.first().and_then(|(id, _)| ingredient(*id));
    let Some(known) = known else { return };
    for minimum in known.minima.iter().filter(|m| context.settings.follows(m.market)) {
        if let Some((abv, span)) = stated(context, Key::Abv)
            && let Some(least) = minimum.abv
            && abv + LABEL < least
        {
            let said = format!("{} % vol", number(abv));
            let asked = format!("{} % vol", number(least));
            sink.report(report(context, span, &said, &asked, minimum, known.name));
        }
        if let Some((sugar, span)) = stated(context, Key::Sugar)
            && let Some(least) = minimum.sugar_g_per_l
            && sugar * 10.0 * INVERT < least
        {
            let said = format!("{} g/l of sugar", number(sugar * 10.0));
            let asked = format!("{} g/l as invert sugar", number(least));
            sink.report(report(context, span, &said, &asked, minimum, known.name));
        }
    }
}

fn stated(context: &Context<'_>, key: Key) -> Option<(f64, Span)> {
    let field = context.record.field(key)?;
    let Value::Number(number) = &field.value else { return None };
    Some((number.to_f64(), field.value_span))
}

fn report(
    context: &Context<'_>,
    span: Span,
    said: &str,
    asked: &str,
    minimum: &Minimum,
    kind: &str,
) -> Report {
    let market: Market = minimum.market;
    let record = context.record;
    let message = format!(
        "{said}, and {kind} has at least {asked} in `{}`: {}",
        market.id(),
        minimum.source.text
    );
    let report = Report::at(context, span, message).help(
        "read the label again, or give the kind that it may be sold as; the law itself decides",
    );
    match record.field(Key::Kind) {
        Some(field) => report.related(record.place(field.value_span), "the name that asks for it"),
        None => report,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message};

    #[test]
    fn below_the_minimum_of_a_named_market() {
        let settings = "market = [\"eu\", \"us\"]\n";
        check_under(
            &RULE,
            settings,
            "
stock: A
  kind: gin
  abv: 34 %
       ^^^^
stock: B
  kind: triple sec
  abv: 40 %
  sugar: 5 g/100 ml
         ^^^^^^^^^^
",
        );
        let said = message(&RULE, "stock: A\n  kind: gin\n  abv: 34 %\n", settings).unwrap();
        assert!(said.starts_with("34 % vol, and gin has at least 37.5 % vol in `eu`"), "{said}");
    }

    /// The rule of one market alone holds only where the house named it.
    #[test]
    fn silent_where_no_market_is_named() {
        check(&RULE, "\nstock: A\n  kind: gin\n  abv: 34 %\n");
        check_under(&RULE, "market = \"us\"\n", "\nstock: A\n  kind: gin\n  abv: 34 %\n");
    }

    /// At the minimum, within a label's tolerance, of an alcohol-free kind, or nothing stated.
    #[test]
    fn silent_where_the_name_is_met() {
        check_under(
            &RULE,
            "market = \"eu\"\n",
            "
stock: A
  kind: gin
  abv: 37.5 %
stock: B
  kind: gin
  abv: 37.3 %
stock: C
  kind: alcohol-free spirit
  abv: 0 %
stock: D
  kind: gin
stock: E
  kind: triple sec
  abv: 40 %
  sugar: 9.6 g/100 ml
stock: F
  kind: dry vermouth
  abv: 17 %
",
        );
    }
}
