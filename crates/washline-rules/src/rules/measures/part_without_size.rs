//! Parts, and nobody says how much one part is.

use washline_measure::UnitKind;
use washline_syntax::Key;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `2 part rum` is half a recipe: until the card says `part: 30 ml` or `total: 90 ml`, nobody knows
    /// how much is poured, the drink has no figures and every check of strength, balance and cost
    /// passes it by.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   3 parts  gin
    ///   1 part   lemon juice
    ///   1 part   sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   part: 22.5 ml
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   3 parts  gin
    ///   1 part   lemon juice
    ///   1 part   sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: a part needs `part:` or `total:`.
    "part-without-size", Measures, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "nobody knows how much is poured, and no check can look at the drink"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let in_parts = || {
        record
            .reads
            .iter()
            .filter(|read| read.unit.is_some_and(|unit| unit.kind() == UnitKind::Part))
    };
    let Some(first) = in_parts().next().filter(|_| !record.retired) else { return };
    if record.field(Key::Part).is_some() || record.field(Key::Total).is_some() {
        return;
    }
    let lines = in_parts().count();
    let message = match lines {
        1 => "a line in parts, and nothing says how much a part is".to_owned(),
        lines => format!("{lines} lines in parts, and nothing says how much a part is"),
    };
    let report = Report::at(context, first.span, message).key("part");
    if !context.is_drink() {
        sink.report(
            report.help("write the amounts in g or ml: a prep is made by weight or volume"),
        );
        return;
    }
    let report = report.help("write `part: 30 ml`, or `total: 90 ml` for all of them together");
    sink.report(match context.line_below(0, "part: 30 ml") {
        Some(edit) => report.fix("write that a part is 30 ml", false, vec![edit]),
        None => report,
    });
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn the_first_line_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  2 parts gin
  ^^^^^^^^^^^
  1 part dry vermouth
  - stir with ice, strain
",
        );
    }

    #[test]
    fn the_lines_are_counted() {
        let said = "2 lines in parts, and nothing says how much a part is";
        let text = "drink: A\n  2 parts gin\n  1 part dry vermouth\n  1 dash bitters\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some(said));
    }

    #[test]
    fn a_part_or_a_total_says_it() {
        check(&RULE, "drink: A\n  part: 30 ml\n  2 parts gin\n  1 part dry vermouth\n");
        check(&RULE, "drink: A\n  total: 90 ml\n  2 parts gin\n  1 part dry vermouth\n");
    }

    #[test]
    fn a_word_of_a_name_is_no_unit() {
        check(&RULE, "drink: A\n  60 ml gin\n  1 egg white\n  - add part of the ice, stir\n");
    }

    #[test]
    fn last_years_card_is_left_alone() {
        check(&RULE, "drink: A\n  status: retired\n  2 parts gin\n");
    }

    #[test]
    fn a_prep_has_no_part_to_say() {
        let text = "prep: A\n  2 parts sugar\n  1 part water\n";
        assert!(message(&RULE, text, "").is_some());
        assert_eq!(
            fixed(&RULE, "drink: A\n  1 part gin\n", "").as_deref(),
            Some("drink: A\n  part: 30 ml\n  1 part gin\n")
        );
    }
}
