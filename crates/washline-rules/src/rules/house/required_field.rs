//! A field that the house asks of every such entry, and that is not there.

use washline_syntax::Key;
use washline_text::Kind;

use crate::rule::rule;
use crate::words::list;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// What a new hire must be able to read off any card (the glass, the allergens, the price), a prep
    /// list (how much, how long it keeps) or a bottle (its strength) is the house's to say:
    /// `drink-needs`, `prep-needs` and `stock-needs` under `[cards]`. A card that lacks it sends
    /// somebody to ask in the middle of service.
    ///
    /// # Settings
    /// ```toml
    /// [cards]
    /// drink-needs = ["family", "glass", "contains", "price"]
    /// ```
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
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   price: 11.00 EUR
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The house's `washline.toml`.
    "required-field", House, Warning, Fixes::None, Check::Entry(find),
    why: "what a card leaves out is asked for in the middle of service"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let cards = &context.settings.cards;
    let needs = match record.kind {
        Kind::Drink => &cards.drink_needs,
        Kind::Prep => &cards.prep_needs,
        Kind::Stock => &cards.stock_needs,
    };
    if needs.is_empty() || record.retired {
        return;
    }
    let lacking = |key: &&Key| record.field(**key).is_none() && !is_told_as_such(context, **key);
    let missing: Vec<String> =
        needs.iter().filter(lacking).map(|key| format!("`{}:`", key.word())).collect();
    if missing.is_empty() {
        return;
    }
    let of = match record.kind {
        Kind::Drink => "drink",
        Kind::Prep => "prep",
        Kind::Stock => "stock entry",
    };
    let message = format!("no {}; this house asks for it of every {of}", list(&missing));
    sink.report(
        Report::entry(context, message)
            .help(format!("write {}", list(&missing)))
            .key(list(&missing)),
    );
}

/// A drink that declares nothing in a book that declares is told that, as an allergen matter.
fn is_told_as_such(context: &Context<'_>, key: Key) -> bool {
    key == Key::Contains && context.is_drink() && context.workspace.declares(context.record)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, names};

    const NEEDS: &str = "[cards]\ndrink-needs = ['glass', 'price']\nprep-needs = ['yields']\n\
                         stock-needs = ['abv', 'cost']\n";

    #[test]
    fn all_that_is_missing_is_one_finding() {
        check_under(
            &RULE,
            NEEDS,
            "
drink: A
       ^
  60 ml gin
",
        );
        let said = "no `glass:` and `price:`; this house asks for it of every drink";
        assert_eq!(message(&RULE, "drink: A\n  60 ml gin\n", NEEDS).as_deref(), Some(said));
    }

    #[test]
    fn each_kind_has_its_own() {
        check_under(
            &RULE,
            NEEDS,
            "
drink: A
  glass: coupe
  price: 9 EUR
prep: B
      ^
  glass: coupe
stock: C
       ^
  abv: 40 %
",
        );
    }

    #[test]
    fn a_house_that_asks_for_nothing_is_told_nothing() {
        check(&RULE, "drink: A\n  60 ml gin\nprep: B\nstock: C\n");
    }

    #[test]
    fn none_is_an_answer() {
        let needs = "[cards]\ndrink-needs = ['garnish', 'contains', 'ice']\n";
        check_under(&RULE, needs, "drink: A\n  garnish: none\n  contains: none\n  ice: none\n");
    }

    #[test]
    fn drafts_and_last_years_list_may_lack_it() {
        check_under(
            &RULE,
            NEEDS,
            "
drink: A
  status: draft
drink: B
  status: retired
",
        );
    }

    /// What `undeclared-allergen` and `no-glass-said` would say of the same gap is said once.
    #[test]
    fn one_gap_is_told_once() {
        let needs = "[cards]\ndrink-needs = ['glass', 'garnish', 'contains']\n";
        let text = "
drink: A
  family: sour
  60 ml gin
  22.5 ml lemon juice
  22.5 ml sugar syrup, 1:1
  - shake with ice for 12 s, double strain into a chilled glass

drink: B
  family: sour
  glass: coupe, chilled
  contains: none
  60 ml rum
  25 ml lime juice
  22.5 ml sugar syrup, 1:1
  - shake with ice for 12 s, double strain
  garnish: none
";
        assert_eq!(names(text, needs), ["required-field", "undeclared-allergen"]);
    }
}
