//! A flower on a drink that nobody has named as food.

use washline_book::Read;
use washline_text::fold;

use super::CODES;
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A flower is food by its name or not at all: pretty ones poison, and what a florist sells is sprayed.
    /// A garnish that is only `flowers`, or a flower that no list knows, is unknown, and unknown is never safe.
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
    ///   garnish: garden flowers
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
    ///   garnish: nasturtium
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "unknown-flower", Safety, Information, Fixes::None, Check::Entry(find),
    why: "a flower that nobody names as food may poison, or be sprayed"
}

/// Words for flowers, wild plants and their parts that are laid on drinks.
const FLOWERS: &[&str] = &["flower", "petal", "blossom", "bloom", "bouquet", "posy"];
/// What says that it is food.
const FOOD: &[&str] = &["edible", "candied", "sugar", "paper", "icing", "dried rose"];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    for read in record.garnishes.iter().filter(|read| is_unknown_flower(context, read)) {
        let message = format!("{} is no flower that is known to be food", read.name);
        sink.report(Report::at(context, read.name_span, message).help(format!(
            "write which flower it is, grown to be eaten, or `edible flower`; {CODES}"
        )));
    }
}

fn is_unknown_flower(context: &Context<'_>, read: &Read) -> bool {
    if read.known() {
        return false;
    }
    let words = fold(context.record.text(read.span));
    FLOWERS.iter().any(|word| words.contains(word)) && !FOOD.iter().any(|word| words.contains(word))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn flowers_without_a_name() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: garden flowers
           ^^^^^^^^^^^^^^
drink: B
  60 ml gin
  garnish: moonwort blossom; lemon twist
           ^^^^^^^^^^^^^^^^
",
        );
        let text = "drink: A\n  60 ml gin\n  garnish: wild petals\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("wild petals is no flower that is known to be food")
        );
    }

    /// By name, called edible, of paper, candied; a poisonous one is another finding.
    #[test]
    fn silent_where_it_is_food_or_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: viola; edible flower
drink: B
  60 ml gin
  garnish: edible garden flowers
drink: C
  60 ml gin
  garnish: paper flower; candied petals
drink: D
  60 ml gin
  garnish: foxglove
drink: E
  60 ml gin
  garnish: lemon twist; mint sprig
",
        );
    }

    #[test]
    fn a_prep_and_last_years_list() {
        check(
            &RULE,
            "
drink: A
  status: retired
  60 ml gin
  garnish: garden flowers
prep: B
  500 g sugar
  500 g water
",
        );
    }
}
