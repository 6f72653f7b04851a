//! A drink of the alcohol-free family that holds alcohol.

use washline_book::Figure;
use washline_measure::Interval;
use washline_reference::{AlcoholFree, Market};
use washline_syntax::Key;
use washline_text::{Severity, Span, fold};

use crate::rule::rule;
use crate::words::{list, number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

use super::strong_lines;

rule! {
    /// # Why
    /// Whoever asks for a drink without alcohol may have to: a driver, a pregnancy, a recovery, a
    /// faith, a medicine. A dash of bitters or vanilla extract counts. The limit is that of the
    /// markets the house named, the strictest of them; with none named 0.5 % vol.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: alcohol-free
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   30 ml     lime juice
    ///   30 ml     sugar syrup, 1:1
    ///   6 dashes  aromatic bitters
    ///   top (120 ml) soda water
    ///
    ///   - build over cubed ice, stir
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: alcohol-free
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   30 ml     lime juice
    ///   30 ml     sugar syrup, 1:1
    ///   top (120 ml) soda water
    ///
    ///   - build over cubed ice, stir
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Source
    /// uk, 0.05 % vol for "alcohol-free": the descriptors' guidance; elsewhere 0.5 % vol, from memory.
    "not-alcohol-free", Alcohol, Error, Fixes::None, Check::Figures(find),
    why: "whoever asks for none may have to, and cannot taste a dash"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() || context.record.families.inferred {
        return;
    }
    if !context.record.families.is("alcohol-free") || claims_it_too(context) {
        return;
    }
    let figures = &context.record.figures;
    let finished = figures.get(Figure::Abv);
    // Where nobody says how it is made, the strength of what is poured, before any water.
    let Some(abv) = finished.or_else(|| figures.get(Figure::AbvBefore)) else { return };
    let (market, limit) = limit(context);
    if abv.high > limit.abv && abv.value > 0.0 {
        let report = report(context, abv, market, limit);
        let unsure = finished.is_none();
        sink.report(if unsure { report.severity(Severity::Warning) } else { report });
    }
}

/// The claim `free-from: alcohol` is held by the rule of broken claims: one cause, one finding.
fn claims_it_too(context: &Context<'_>) -> bool {
    let mut claims = context.record.terms(Key::FreeFrom);
    claims.any(|(word, _)| fold(word) == "alcohol")
}

/// The strictest limit of the house's markets; where it named none, what most of them have.
fn limit(context: &Context<'_>) -> (Option<Market>, AlcoholFree) {
    let strictest = context
        .settings
        .markets
        .iter()
        .map(|market| (Some(*market), market.alcohol_free_limit()))
        .min_by(|a, b| a.1.abv.total_cmp(&b.1.abv));
    strictest.unwrap_or_else(|| (None, Market::Eu.alcohol_free_limit()))
}

fn report(
    context: &Context<'_>,
    abv: Interval,
    market: Option<Market>,
    limit: AlcoholFree,
) -> Report {
    let record = context.record;
    let over = abv.value > limit.abv;
    let whose = market.map_or_else(String::new, |market| format!(" ({})", market.id()));
    let message = if over {
        format!(
            "{} % vol, and `{}`{whose} is {} at most",
            number(abv.value),
            limit.term,
            number(limit.abv)
        )
    } else {
        format!(
            "{} % vol, but it may be {}, and `{}`{whose} is {} at most",
            number(abv.value),
            number(abv.high),
            limit.term,
            number(limit.abv)
        )
    };
    let lines = strong_lines(record);
    let names: Vec<&str> = lines.iter().take(3).map(|read| read.name.as_str()).collect();
    let mut report = Report::at(context, family_span(context), message)
        .severity(if over { Severity::Error } else { Severity::Warning })
        .key(typed_lines(record))
        .help(format!(
            "leave out {}, or call the drink low in alcohol; local codes decide what it may be called",
            list(&names)
        ));
    for read in lines.iter().take(3) {
        let grams = read.composition.ethanol / record.serves;
        let place = record.place(read.span);
        report = report.related(place, format!("{} g of ethanol", number(grams)));
    }
    report
}

fn family_span(context: &Context<'_>) -> Span {
    let mut terms = context.record.terms(Key::Family);
    let own = terms.find(|(word, _)| fold(word) == "alcohol free");
    own.map_or(context.record.entry.name, |(_, span)| span)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    fn spec(bitters: &str) -> String {
        format!(
            "drink: A\n  family: alcohol-free\n  30 ml lime juice\n  30 ml sugar syrup\n  {bitters}\n  top (120 ml) soda water\n  - build over ice\n"
        )
    }

    #[test]
    fn bitters_count() {
        check(
            &RULE,
            "
drink: A
  family: alcohol-free
          ^^^^^^^^^^^^
  30 ml lime juice
  6 dashes aromatic bitters
  top (120 ml) soda water
  - build over ice
",
        );
    }

    #[test]
    fn error_above_the_limit_warning_where_only_the_high_end_is() {
        assert_eq!(severity(&RULE, &spec("6 dashes aromatic bitters"), ""), Some(Severity::Error));
        let two = spec("2 dashes aromatic bitters");
        assert_eq!(severity(&RULE, &two, ""), Some(Severity::Warning));
        assert!(message(&RULE, &two, "").unwrap().contains("it may be"));
        assert_eq!(severity(&RULE, &spec("2 drops aromatic bitters"), ""), None);
    }

    /// uk: 0.05 % vol; the market's word is said.
    #[test]
    fn the_markets_limit_holds() {
        let one = spec("1 dash aromatic bitters");
        assert_eq!(severity(&RULE, &one, "market = \"uk\"\n"), Some(Severity::Error));
        assert!(
            message(&RULE, &one, "market = \"uk\"\n")
                .unwrap()
                .contains("`alcohol-free` (uk) is 0.05 at most")
        );
        let us = message(&RULE, &spec("6 dashes aromatic bitters"), "market = \"us\"\n");
        assert!(us.unwrap().contains("`non-alcoholic` (us)"));
    }

    /// A drink that does not call itself so, one that only looks so, and a claim that another rule holds.
    #[test]
    fn silent_elsewhere() {
        check(
            &RULE,
            "
drink: A
  30 ml lime juice
  6 dashes aromatic bitters
  - build over ice
drink: B
  family: alcohol-free
  90 ml apple juice
  15 ml lime juice
  - shake with ice, strain
drink: C
  family: alcohol-free
  free-from: alcohol
  30 ml lime juice
  6 dashes aromatic bitters
  - build over ice
",
        );
        check_under(
            &RULE,
            "market = \"uk\"\n",
            "
drink: A
  family: alcohol-free
  60 ml alcohol-free spirit
  30 ml lime juice
  - shake with ice, strain
",
        );
    }
}
