//! A drink with more lines than the house allows.

use washline_book::Read;
use washline_reference::Sort;
use washline_syntax::Role;

use super::is_poured;
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Each line is a bottle that is reached for, opened, measured and put back: ten seconds, on every
    /// ticket. A house that has said how many it will have (`touches` under `[limits]`) is told of
    /// drinks that ask for more. Ice, the garnish, and what is optional or goes beside are none.
    ///
    /// # Settings
    /// ```toml
    /// [limits]
    /// touches = 3
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   45 ml     gin
    ///   15 ml     navy strength gin
    ///   22.5 ml   lemon juice
    ///   22.5 ml   sugar syrup, 1:1
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
    ///   60 ml     gin
    ///   22.5 ml   lemon juice
    ///   22.5 ml   sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The house's `washline.toml`.
    "too-many-touches", House, Information, Fixes::None, Check::Entry(find),
    why: "every bottle more is reached for, measured and put back on every ticket"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let Some(limit) = context.settings.limits.touches else { return };
    if !is_poured(context) {
        return;
    }
    let touches: Vec<&Read> = context.record.reads.iter().filter(|read| is_touch(read)).collect();
    let limit = limit as usize;
    let Some(first) = touches.get(limit) else { return };
    let message =
        format!("{} things to reach for, the house holds a drink to {limit}", touches.len());
    sink.report(
        Report::entry(context, message)
            .help("make one prep of those that always pour together, or leave one out")
            .related(context.record.place(first.name_span), "the first that is too many"),
    );
}

/// Whether a hand reaches for it while the drink is made.
fn is_touch(read: &Read) -> bool {
    !matches!(read.role, Role::Garnish | Role::Optional | Role::Side)
        && !read.optional
        && !read.sort_is(&[Sort::Ice])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message};

    const FOUR: &str = "[limits]\ntouches = 4\n";

    #[test]
    fn the_count_and_the_limit_are_said() {
        let text = "
drink: A
  50 ml gin
  20 ml lemon juice
  20 ml sugar syrup, 1:1
  2 dashes orange bitters
  top (60 ml) soda water
";
        let said = "5 things to reach for, the house holds a drink to 4";
        assert_eq!(message(&RULE, text, FOUR).as_deref(), Some(said));
        check(&RULE, text);
    }

    #[test]
    fn rims_rinses_and_tops_are_reached_for_too() {
        check_under(
            &RULE,
            FOUR,
            "
drink: A
       ^
  rinse absinthe
  rim salt
  50 ml gin
  20 ml lemon juice
  top (60 ml) soda water
",
        );
    }

    #[test]
    fn ice_garnish_and_what_goes_beside_are_none() {
        check_under(
            &RULE,
            FOUR,
            "
drink: A
  50 ml gin
  20 ml lemon juice
  20 ml sugar syrup, 1:1
  1 egg white, optional
  60 ml beer, on the side
  120 g ice
  top (60 ml) soda water
  garnish: lemon twist; cherry
",
        );
    }

    #[test]
    fn a_batch_is_one_bottle_and_its_own_lines_are_the_kitchens() {
        check_under(
            &RULE,
            FOUR,
            "
drink: A
  90 ml House Batch
  - pour

prep: House Batch
  100 ml gin
  100 ml vodka
  100 ml rum
  100 ml brandy
  100 ml water
  - combine, bottle
",
        );
    }

    #[test]
    fn a_choice_is_one_reach() {
        check_under(
            &RULE,
            FOUR,
            "drink: A\n  50 ml gin or vodka\n  20 ml lemon or lime juice\n  20 ml sugar syrup\n",
        );
    }

    #[test]
    fn last_years_list_is_left_alone() {
        let one = "[limits]\ntouches = 1\n";
        check_under(&RULE, one, "drink: A\n  status: retired\n  50 ml gin\n  20 ml vermouth\n");
    }
}
