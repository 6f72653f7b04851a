//! A prep whose steps never label it; for houses that ask for it.

use washline_syntax::Technique;
use washline_text::Span;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Two clear bottles in one fridge are told apart by taste, once. Name, date and what it
    /// contains belong on every bottle before it is put away; a house that asks for it wants the
    /// step on the card. Off until the house asks.
    ///
    /// # Settings
    /// ```toml
    /// [rules]
    /// not-labelled = "warning"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 675 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even
    ///   - bottle, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 675 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source; food codes ask for a name and a date on what is kept.
    "not-labelled", Preps, Off, Fixes::Unsafe, Check::Entry(find),
    why: "what stands in the fridge without a name and a date is guessed at"
}

/// What puts it into what is labelled.
const CLOSES: &[Technique] = &[Technique::Bottle, Technique::Keg, Technique::Seal];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired || record.method.acts.is_empty() {
        return;
    }
    if record.method.has(&[Technique::Label, Technique::Date]) {
        return;
    }
    // Words such as `jar with a label` will do.
    if record
        .method
        .acts
        .iter()
        .any(|act| act.says(&record.entry, &["label", "labelled", "date", "dated"]))
    {
        return;
    }
    let acts = &record.method.acts;
    let Some(last) = acts.last() else { return };
    let closed = acts.iter().rev().find(|act| act.is(CLOSES)).unwrap_or(last);
    let edit = context.edit(Span::at(closed.span().end), ", label");
    sink.report(
        Report::at(context, last.span(), format!("{} is put away without a label", record.name))
            .help("add `label` to its steps: name, date, what it contains")
            .fix("write `label` where it is put away", false, vec![edit]),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, severity};

    const ASKED: &str = "[rules]\nnot-labelled = \"information\"\n";

    #[test]
    fn where_the_house_asks() {
        check_under(
            &RULE,
            ASKED,
            "
prep: A
  1 l water
  - bottle, refrigerate
            ^^^^^^^^^^^
prep: B
  1 l water
  - combine
    ^^^^^^^
",
        );
    }

    #[test]
    fn silent_where_nobody_asked() {
        let text = "\nprep: A\n  1 l water\n  - bottle, refrigerate\n";
        check(&RULE, text);
        assert_eq!(severity(&RULE, text, ""), None);
        let folder = "[[folder]]\npath = \"menus\"\n[folder.rules]\nnot-labelled = \"warning\"\n";
        check_under(&RULE, folder, text);
    }

    /// Labelled, dated, in other words; a prep with no steps, a drink, last year's.
    #[test]
    fn silent_where_it_is_said() {
        check_under(
            &RULE,
            ASKED,
            "
prep: A
  1 l water
  - bottle, label, refrigerate
prep: B
  1 l water
  - bottle, date it
prep: C
  1 l water
  - bottle with a dated label
prep: D
  1 l water
prep: E
  status: retired
  1 l water
  - bottle
drink: F
  60 ml gin
  - stir with ice, strain
",
        );
    }
}
