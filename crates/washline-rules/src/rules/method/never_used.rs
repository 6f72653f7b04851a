//! A line that no step can have used.

use washline_reference::Sort;
use washline_syntax::Role;
use washline_text::Kind;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Steps that name what they use must name everything. A line that no mix holds and no act names is
    /// poured by nobody who follows the card.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///   10 ml maraschino liqueur
    ///
    ///   - shake all but the maraschino liqueur with ice for 12 s, double strain
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
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///   10 ml maraschino liqueur
    ///
    ///   - shake all but the maraschino liqueur with ice for 12 s, double strain
    ///   - float the maraschino liqueur
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "never-used", Method, Warning, Fixes::None, Check::Entry(find),
    why: "followed to the letter, the card leaves it on the bar"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind == Kind::Stock || record.retired || record.unread {
        return;
    }
    if record.method.acts.iter().all(|act| act.act.technique.is_none()) {
        return;
    }
    let lines = || record.reads.iter().zip(&record.method.used);
    // Steps that take nothing up, such as `serve`, say no method: what they leave out cannot be told.
    if !lines().any(|(read, used)| read.role == Role::Poured && *used) {
        return;
    }
    for (read, used) in lines() {
        if *used || read.optional || read.sort_is(&[Sort::Ice]) {
            continue;
        }
        sink.report(
            Report::at(context, read.name_span, format!("no step uses {}", read.name))
                .help("name it in a step, or take the line out"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn what_is_left_out_to_the_end_is_told() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  30 ml lemon juice
  60 ml soda water
        ^^^^^^^^^^
  - shake all but the soda water with ice, strain
",
        );
    }

    #[test]
    fn what_a_mix_holds_or_an_act_names_is_silent() {
        for steps in [
            "- shake with ice, strain",
            "- shake all but the soda water with ice, strain, top with soda",
            "- shake the gin and lemon juice with ice, strain, add the rest",
            "- combine, stir with ice, strain",
            "- build over ice",
        ] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  45 ml gin\n  30 ml lemon juice\n  60 ml soda water\n  {steps}\n"
                ),
            );
        }
        check(&RULE, "\ndrink: A\n  45 ml gin\n");
    }

    #[test]
    fn steps_that_take_nothing_up_accuse_no_line() {
        for steps in ["- serve", "- chill the glass, serve"] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  60 ml gin\n  10 ml dry vermouth\n  top soda water\n  {steps}\n"
                ),
            );
        }
    }

    /// Simmering, infusing and blending take all that is in the pot, whatever else they name.
    #[test]
    fn the_work_of_a_prep_takes_all() {
        for steps in [
            "- simmer with the ginger for 10 min, strain, bottle",
            "- infuse for 1 h, strain",
            "- blend, strain",
        ] {
            check(
                &RULE,
                &format!("\nprep: A\n  500 g sugar\n  500 ml water\n  80 g ginger\n  {steps}\n"),
            );
        }
    }
}
