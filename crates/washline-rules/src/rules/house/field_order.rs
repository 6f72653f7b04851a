//! Fields that stand in another order than the house's.

use washline_syntax::{Field, Key, LineKind};

use super::mend::reorder;
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// On a full night a card is not read but glanced at: the glass is looked for where it always
    /// stands. A house that has said its order of fields (`field-order` under `[cards]`) is told of
    /// cards that keep another. Fields that the order leaves out may stand anywhere.
    ///
    /// # Settings
    /// ```toml
    /// [cards]
    /// field-order = ["family", "glass", "contains", "garnish"]
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   glass: coupe, chilled
    ///   contains: none
    ///   family: sour
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
    "field-order", House, Hint, Fixes::Safe, Check::Entry(find),
    why: "the eye looks for the glass where it always stands"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let order = &context.settings.cards.field_order;
    if order.is_empty() || context.record.retired {
        return;
    }
    let placed = placed(context, order);
    let late = placed.windows(2).find_map(|pair| match pair {
        [above, below] if above.rank > below.rank => Some((above, below)),
        _ => None,
    });
    if let Some((above, below)) = late {
        sink.report(report(context, above, below, &placed));
    }
}

/// A field that the order names.
struct Placed<'a> {
    rank: usize,
    line: usize,
    key: Key,
    field: &'a Field,
}

fn placed<'a>(context: &Context<'a>, order: &[Key]) -> Vec<Placed<'a>> {
    let lines = context.record.entry.lines.iter().enumerate();
    lines
        .filter_map(|(line, what)| {
            let LineKind::Field(field) = &what.what else { return None };
            let key = field.key?;
            let rank = order.iter().position(|ordered| *ordered == key)?;
            Some(Placed { rank, line, key, field })
        })
        .collect()
}

fn report(
    context: &Context<'_>,
    above: &Placed<'_>,
    below: &Placed<'_>,
    placed: &[Placed<'_>],
) -> Report {
    let (first, then) = (below.key.word(), above.key.word());
    let message = format!("`{first}:` stands below `{then}:`; this house writes it above");
    let lines: Vec<usize> = placed.iter().map(|placed| placed.line).collect();
    let mut sorted: Vec<&Placed<'_>> = placed.iter().collect();
    sorted.sort_by_key(|placed| placed.rank);
    let wanted: Vec<usize> = sorted.into_iter().map(|placed| placed.line).collect();
    Report::at(context, below.field.key_span, message)
        .help("put the fields in the house's order")
        .related(context.record.place(above.field.key_span), "it belongs above this")
        .fix("put the fields in the house's order", true, reorder(context, &lines, &wanted))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed};

    const ORDER: &str = "[cards]\nfield-order = ['family', 'glass', 'contains', 'note']\n";

    #[test]
    fn the_first_field_that_stands_too_low_is_pointed_at() {
        check_under(
            &RULE,
            ORDER,
            "
drink: A
  contains: none
  glass: coupe
  ^^^^^
  family: sour
",
        );
    }

    #[test]
    fn a_house_that_has_no_order_is_told_nothing() {
        check(
            &RULE,
            "
drink: A
  contains: none
  glass: coupe
  family: sour
",
        );
    }

    #[test]
    fn what_the_order_leaves_out_may_stand_anywhere() {
        check_under(
            &RULE,
            ORDER,
            "
drink: A
  price: 9 EUR
  family: sour
  serve: up
  glass: coupe
  note: one
  menu: gin
  note: two

  60 ml gin
  garnish: none
",
        );
    }

    #[test]
    fn last_years_card_is_left_as_it_was() {
        check_under(
            &RULE,
            ORDER,
            "
drink: A
  status: retired
  glass: coupe
  family: sour
",
        );
    }

    #[test]
    fn comments_travel_with_their_line() {
        let text = "drink: A\n  # the small one\n  glass: coupe  # cold\n  price: 9 EUR\n  \
                    family: sour\n  note: one\n  note: two\n";
        let mended = "drink: A\n  family: sour\n  price: 9 EUR\n  # the small one\n  \
                      glass: coupe  # cold\n  note: one\n  note: two\n";
        assert_eq!(fixed(&RULE, text, ORDER).as_deref(), Some(mended));
    }

    #[test]
    fn fields_that_repeat_keep_their_own_order() {
        let text = "drink: A\n  note: one\n  note: two\n  glass: coupe\n";
        let mended = "drink: A\n  glass: coupe\n  note: one\n  note: two\n";
        assert_eq!(fixed(&RULE, text, ORDER).as_deref(), Some(mended));
    }

    #[test]
    fn a_last_line_without_an_end_stays_without_one() {
        let text = "drink: A\r\n  glass: coupe\r\n  family: sour";
        let mended = "drink: A\r\n  family: sour\r\n  glass: coupe";
        assert_eq!(fixed(&RULE, text, ORDER).as_deref(), Some(mended));
    }
}
