//! The garnish of the card and the garnish of its steps.

use std::collections::BTreeSet;

use washline_syntax::{Field, Key, Technique, Value};
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `garnish:` and the last step both say what goes on the glass. Where they say two things, the drink
    /// looks different by who reads what, and the allergens of one of the two are looked at. A peel
    /// that is expressed and thrown away is no garnish.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain, garnish with a lemon twist
    ///   garnish: none
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain, garnish with a lemon twist
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "garnish-disagrees", Method, Information, Fixes::Unsafe, Check::Entry(find),
    why: "the drink looks different by who reads which line"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(field) = record.field(Key::Garnish) else { return };
    if !context.is_drink() || record.retired {
        return;
    }
    let steps = record.method.acts.iter().filter(|act| act.is(&[Technique::Garnish]));
    for act in steps {
        let object = record.text(act.act.object);
        let named = words(object);
        if named.is_empty() {
            continue;
        }
        let card = card(context);
        if card.iter().any(|word| named.contains(word)) || !is_known(context, object) {
            continue;
        }
        sink.report(report(context, field, act.span(), object));
    }
}

/// The words of all that the card has as a garnish.
fn card(context: &Context<'_>) -> BTreeSet<String> {
    let record = context.record;
    let fields = record.fields(Key::Garnish).filter(|field| field.value != Value::None);
    fields.flat_map(|field| words(record.text(field.value_span))).collect()
}

/// Whether the words of the step name something that the books or the reference know: the rest is
/// how it is done.
fn is_known(context: &Context<'_>, object: &str) -> bool {
    let folded = fold(object);
    let name = folded.strip_prefix("with ").unwrap_or(&folded);
    let name = ["a ", "an ", "the ", "one ", "two ", "three "]
        .iter()
        .find_map(|article| name.strip_prefix(article))
        .unwrap_or(name);
    let known = |name: &str| !context.workspace.meaning(name, context.record).hits.is_empty();
    known(name) || name.split_once(' ').is_some_and(|(first, _)| known(first))
}

/// The words of a garnish that tell it from others, plurals cut.
fn words(text: &str) -> BTreeSet<String> {
    const SMALL: &[&str] = &[
        "with", "a", "an", "the", "and", "of", "on", "one", "two", "three", "in", "drink", "glass",
        "rim", "side", "top", "as", "said", "to", "serve",
    ];
    let folded = fold(text);
    let words = folded.split(|c: char| !c.is_alphanumeric());
    let words = words.filter(|word| word.len() > 1 && !SMALL.contains(word));
    words.map(|word| word.strip_suffix('s').unwrap_or(word).to_owned()).collect()
}

fn report(context: &Context<'_>, field: &Field, span: washline_text::Span, object: &str) -> Report {
    let record = context.record;
    let card = record.text(field.value_span);
    let step = object.trim();
    let step = step.strip_prefix("with ").unwrap_or(step);
    let report =
        Report::at(context, span, format!("the card says `garnish: {card}`, and the step {step}"))
            .help("say one garnish, in the field and in the steps")
            .related(record.place(field.value_span), "the garnish of the card");
    if record.fields(Key::Garnish).count() > 1 {
        return report;
    }
    let bare = ["a ", "an ", "the "].iter().find_map(|article| step.strip_prefix(article));
    let bare = bare.unwrap_or(step);
    let edit = context.edit(field.value_span, bare);
    report.fix(format!("write `garnish: {bare}`"), false, vec![edit])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    fn of(garnish: &str, step: &str) -> String {
        format!("drink: A\n  60 ml gin\n  - stir with ice, strain, {step}\n  garnish: {garnish}\n")
    }

    #[test]
    fn none_beside_a_garnish_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - stir with ice, strain, garnish with an olive
                           ^^^^^^^^^^^^^^^^^^^^^
  garnish: none
",
        );
    }

    #[test]
    fn two_garnishes_are_both_said() {
        let said = "the card says `garnish: lemon twist`, and the step an olive";
        let text = of("lemon twist", "garnish with an olive");
        assert_eq!(message(&RULE, &text, "").as_deref(), Some(said));
    }

    #[test]
    fn the_same_in_other_words_is_the_same() {
        check(&RULE, &of("lemon twist", "garnish with a twist"));
        check(&RULE, &of("3 olives", "garnish with the olives on a pick"));
        check(&RULE, &of("olive; lemon peel", "garnish with a lemon peel"));
    }

    #[test]
    fn a_step_that_only_says_so_is_silent() {
        check(&RULE, &of("lemon twist", "garnish"));
        check(&RULE, &of("lemon twist", "garnish and serve"));
    }

    #[test]
    fn a_peel_that_is_thrown_away_is_no_garnish() {
        check(&RULE, &of("none", "express a lemon peel over it, discard"));
    }

    #[test]
    fn words_that_name_nothing_are_how_it_is_done() {
        check(&RULE, &of("lemon twist", "garnish with care"));
    }

    #[test]
    fn last_years_card_is_left_alone() {
        let text = of("none", "garnish with an olive")
            .replace("drink: A\n", "drink: A\n  status: retired\n");
        check(&RULE, &text);
    }
}
