//! A poisonous plant on or in a drink.

use washline_reference::Trait;

use super::{CODES, caution, named, with};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// What lies on a drink is eaten, chewed or left in it to steep. Foxglove, lily of the valley and
    /// oleander stop the heart, and florists' flowers are sprayed with what is not for food: only flowers grown
    /// to be eaten, by name, go near a glass.
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
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lily of the valley
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
    ///   - shake with ice for 12 s, double strain
    ///   garnish: viola
    /// ```
    ///
    /// # Source
    /// Lists of poisonous garden plants, from memory; a plant that no list names is not thereby safe.
    "toxic-garnish", Safety, Error, Fixes::None, Check::Entry(find),
    why: "what lies on a drink is eaten, or steeps in it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.record.retired {
        return;
    }
    for (at, read, known) in with(context, Trait::ToxicPlant) {
        let message = format!("{} is poisonous: {}", named(read, known), lowered(caution(known)));
        sink.report(
            Report::on(context.record, context.read_place(at), message).help(format!(
                "take it off the drink and out of the bar; garnish with a flower that is grown to be eaten, by its name; {CODES}"
            )),
        );
    }
}

/// A sentence as the end of another.
fn lowered(sentence: &str) -> String {
    let mut chars = sentence.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    #[test]
    fn on_the_drink_and_in_it() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: foxglove
           ^^^^^^^^
drink: B
  60 ml gin
  1 sprig yew
          ^^^
prep: C
  500 g sugar
  20 g hydrangea
       ^^^^^^^^^
",
        );
        let text = "drink: A\n  60 ml gin\n  garnish: oleander flower\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
        let said = message(&RULE, text, "").unwrap();
        assert!(said.contains("(Nerium oleander) is poisonous: poisonous in every part"), "{said}");
    }

    #[test]
    fn florists_and_house_plants() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: cut flowers; monstera leaf
           ^^^^^^^^^^^  ^^^^^^^^^^^^^
drink: B
  60 ml gin
  garnish: snowdrop
           ^^^^^^^^
",
        );
    }

    #[test]
    fn told_once_though_poured_on() {
        check(
            &RULE,
            "
prep: A
  500 ml water
  10 g oleander leaf
       ^^^^^^^^^^^^^
drink: B
  30 ml A
",
        );
    }

    /// Edible flowers by name, evergreens of the kitchen, elder's flower, bay.
    #[test]
    fn edible_ones_are_silent() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: nasturtium; viola; borage flower
drink: B
  60 ml gin
  garnish: edible flower
drink: C
  60 ml gin
  15 ml elderflower liqueur
  garnish: rosemary sprig; bay leaf
drink: D
  60 ml gin
  garnish: juniper berry
drink: E
  status: retired
  60 ml gin
  garnish: foxglove
",
        );
    }
}
