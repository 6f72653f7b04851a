//! A bottle whose strength is not that of its kind by far: a slip of the point.

use washline_reference::{Datum, Sort, ingredient};
use washline_syntax::{Key, Value};
use washline_text::{Kind, fold};

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `abv: 4.3 %` under a gin is 43 % with the point in the wrong place, and every drink that pours it
    /// is then weak, cheap and harmless on paper. A strength that is less than a third of its kind's,
    /// or far above it, is told. None at all is a statement: such bottles are sold without alcohol.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: shot glass 60 ml
    ///   contains: none
    ///
    ///   50 ml  Orchard Row Pear Brandy
    ///
    ///   - pour
    ///   garnish: none
    ///
    /// stock: Orchard Row Pear Brandy
    ///   kind: pear brandy
    ///   abv: 4.3 %
    ///   contains: none
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: shot glass 60 ml
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
    /// ```
    ///
    /// # Source
    /// The kinds' strengths: the reference, each with its source. A third, and twice: common practice,
    /// no source.
    "unlikely-strength", Measures, Warning, Fixes::None, Check::Entry(find),
    why: "every drink that pours it is reckoned weak, and the guest who counts is told wrong"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind != Kind::Stock || record.retired {
        return;
    }
    let Some(stated) = record.number(Key::Abv) else { return };
    let Some(field) = record.field(Key::Abv) else { return };
    let Some(known) = record.reaches.first().and_then(|(id, _)| ingredient(*id)) else { return };
    let Some(usual) = known.abv.filter(|usual| usual.value >= 4.0) else { return };
    if !is_off(stated, &usual, known.sort) || says_so(context) {
        return;
    }
    let message = format!(
        "{} % vol, and {} has {} ({} to {})",
        number(stated),
        known.name,
        number(usual.value),
        number(usual.low),
        number(usual.high),
    );
    let mut report = Report::at(context, field.value_span, message)
        .help("read the label again, and look where the point stands");
    if let Some(kind) = record.field(Key::Kind) {
        report = report.related(record.place(kind.value_span), "its kind");
    }
    sink.report(report);
}

fn is_off(stated: f64, usual: &Datum, sort: Sort) -> bool {
    // Spirits go up to what a still gives; wine and beer do not.
    let most = match sort {
        Sort::Spirit | Sort::Bitters | Sort::Extract => 96.5,
        _ => 2.0 * usual.high,
    };
    stated > 0.0 && stated < usual.low / 3.0 || stated > most
}

/// Whether the name or a note says that it is low or free of alcohol.
fn says_so(context: &Context<'_>) -> bool {
    let record = context.record;
    let low = |text: &str| {
        let folded = fold(text);
        ["low", "free", "non", "zero", "light", "0"]
            .iter()
            .any(|word| folded.split(' ').any(|said| said == *word))
    };
    let notes = record.fields(Key::Note).filter(|field| field.value != Value::Bad);
    low(&record.name) || notes.map(|field| record.text(field.value_span)).any(low)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, names};

    #[test]
    fn a_point_in_the_wrong_place_is_pointed_at() {
        check(
            &RULE,
            "
stock: A
  kind: gin
  abv: 4.3 %
       ^^^^^
",
        );
        let said = message(&RULE, "stock: A\n  kind: gin\n  abv: 4.3 %\n", "");
        assert!(said.is_some_and(|said| said.starts_with("4.3 % vol, and gin has 4")));
    }

    #[test]
    fn a_wine_as_strong_as_a_spirit_is_told() {
        check(
            &RULE,
            "
stock: A
  kind: white wine
  abv: 125 %
stock: B
  kind: beer
  abv: 50 %
       ^^^^
",
        );
    }

    #[test]
    fn weak_and_strong_bottles_of_a_kind_are_silent() {
        check(
            &RULE,
            "stock: A\n  kind: rum\n  abv: 75.5 %\nstock: B\n  kind: gin\n  abv: 37.5 %\n\
             stock: C\n  kind: red wine\n  abv: 15 %\nstock: D\n  kind: beer\n  abv: 9 %\n",
        );
    }

    #[test]
    fn none_at_all_is_a_statement() {
        check(&RULE, "stock: A\n  kind: gin\n  abv: 0 %\n");
    }

    #[test]
    fn a_bottle_that_says_it_is_low_in_alcohol_is_believed() {
        check(
            &RULE,
            "stock: Row Low Alcohol Gin\n  kind: gin\n  abv: 5 %\n\
             stock: B\n  note: the low one\n  kind: beer\n  abv: 0.5 %\n",
        );
    }

    #[test]
    fn a_bottle_of_no_known_kind_has_nothing_to_be_held_to() {
        check(&RULE, "stock: A\n  abv: 4.3 %\n  sugar: 2 g/100 ml\n");
    }

    #[test]
    fn one_slip_is_told_once() {
        let text = "drink: B\n  glass: coupe\n  50 ml A\n  garnish: none\n  - stir with ice, strain\n\
                    stock: A\n  kind: gin\n  abv: 4.3 %\n  contains: none\n";
        let found = names(text, "market = 'uk'\n");
        assert!(found.contains(&RULE.name) && !found.contains(&"weak-for-its-name"), "{found:?}");
    }
}
