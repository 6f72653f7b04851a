//! Something that poisons raw, and is not cooked.

use washline_reference::Trait;

use super::{CODES, caution, named, with};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Elderberries, cassava, taro and kidney beans are food once they are cooked through, and poison before:
    /// spirit, acid and a warm syrup do not do what a boil does. Pulled off their stalks, boiled and strained they are a
    /// fine cordial.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Elderberry Gin
    ///   yields: 690 ml
    ///   keeps: 3 months dark
    ///
    ///   700 ml  gin
    ///   150 g   elderberries
    ///
    ///   - infuse for 3 days, fine strain, no pressing
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   elderberry gin
    ///   120 ml  tonic water
    ///
    ///   - build over ice, top with tonic water
    ///   garnish: lemon wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Elderberry Gin
    ///   yields: 690 ml
    ///   keeps: 3 months dark
    ///
    ///   700 ml  gin
    ///   150 g   elderberries
    ///
    ///   - boil the elderberries for 10 min, cool
    ///   - add the gin, infuse for 3 days, fine strain, no pressing
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   elderberry gin
    ///   120 ml  tonic water
    ///
    ///   - build over ice, top with tonic water
    ///   garnish: lemon wheel
    /// ```
    ///
    /// # Source
    /// Common knowledge of the kitchen, from memory.
    "must-be-cooked", Safety, Warning, Fixes::None, Check::Entry(find),
    why: "raw it poisons, and neither spirit nor acid does what a boil does"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    for (at, read, known) in with(context, Trait::NeedsHeat) {
        if at < record.reads.len() && record.cooks(at) || says_cooked(context, read) {
            continue;
        }
        let message = format!("{} goes in raw", named(read, known));
        sink.report(Report::on(record, context.read_place(at), message).why(caution(known)).help(
            format!(
                "boil it through first, or buy it cooked and say `cooked` on the line; {CODES}"
            ),
        ));
    }
}

/// Whether the line says that it was cooked before.
fn says_cooked(context: &Context<'_>, read: &washline_book::Read) -> bool {
    let words = washline_text::fold(context.record.text(read.span));
    let cooked = ["cooked", "boiled", "tinned", "canned", "stewed", "roasted", "pasteuri"];
    read.pasteurised
        || cooked.iter().any(|word| words.contains(word)) && !words.contains("uncooked")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn raw_in_spirit_in_syrup_on_top() {
        check(
            &RULE,
            "
prep: A
  700 ml gin
  150 g elderberries
        ^^^^^^^^^^^^
  - infuse for 3 days, strain
prep: B
  500 g sugar
  500 g water
  150 g elderberries
        ^^^^^^^^^^^^
  - warm to 45 C, strain
drink: C
  60 ml gin
  garnish: elderberries
           ^^^^^^^^^^^^
",
        );
        let text = "prep: A\n  700 ml gin\n  150 g elderberries\n";
        let said = message(&RULE, text, "").unwrap();
        assert_eq!(said, "elderberries (Sambucus nigra) goes in raw");
    }

    #[test]
    fn roots_and_beans() {
        check(
            &RULE,
            "
prep: A
  200 g taro root
        ^^^^^^^^^
  500 ml coconut milk
  - blend, strain
",
        );
    }

    /// Boiled, simmered alone, bought cooked, its syrup, the flower of the same bush.
    #[test]
    fn cooked_is_food() {
        check(
            &RULE,
            "
prep: A
  500 g sugar
  500 g water
  150 g elderberries
  - simmer for 15 min, strain
prep: B
  700 ml gin
  150 g elderberries
  - boil the elderberries for 10 min, cool
  - add the gin, strain
prep: C
  200 g taro root, cooked
  500 ml coconut milk
drink: D
  45 ml gin
  15 ml elderberry syrup
  15 ml elderflower cordial
prep: E
  status: retired
  700 ml gin
  150 g elderberries
",
        );
    }
}
