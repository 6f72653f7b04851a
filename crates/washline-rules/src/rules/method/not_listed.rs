//! A step adds what no line lists.

use washline_book::Referent;
use washline_reference::{Sort, ingredient};
use washline_syntax::LineKind;
use washline_text::Kind;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// What a step adds and no line lists has no amount, no strength and no allergens: the figures and the
    /// card leave it out, and the guest drinks it.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball, chilled
    ///   ice: cubed
    ///   contains: none
    ///
    ///   50 ml gin
    ///   10 ml lime juice
    ///
    ///   - build over ice, top with soda water
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball, chilled
    ///   ice: cubed
    ///   contains: none
    ///
    ///   50 ml gin
    ///   10 ml lime juice
    ///   top soda water
    ///
    ///   - build over ice, top with soda water
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "not-listed", Method, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "nobody has measured it, counted it, or asked what is in it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind == Kind::Stock || record.retired || record.reads.is_empty() || record.unread {
        return;
    }
    for act in &record.method.acts {
        for named in context.workspace.unlisted(record, act) {
            // Ice, and water to rinse with, are no lines of a card.
            let hit = named.resolution.hits.first().and_then(|hit| match hit {
                Referent::Reference(id) => ingredient(*id),
                Referent::Entry(_) => None,
            });
            if hit.is_some_and(|known| matches!(known.sort, Sort::Ice | Sort::Water)) {
                continue;
            }
            let words = record.text(named.span);
            let message =
                format!("`{}` adds {words}, and no line lists it", record.text(act.act.verb));
            let report = Report::at(context, named.span, message)
                .help("give it a line with its amount, or take it out of the step");
            sink.report(with_line(context, report, words));
        }
    }
}

/// A line to fill in: as a top where nothing better is known.
fn with_line(context: &Context<'_>, report: Report, words: &str) -> Report {
    let lines = &context.record.entry.lines;
    let last = lines.iter().rposition(|line| matches!(line.what, LineKind::Ingredient(_)));
    let text = format!("top {words}");
    let edit = last.and_then(|at| context.line_below(at, &text));
    report.fix(format!("write `{text}` among the lines"), false, edit.into_iter().collect())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_top_that_no_line_lists_is_told() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  - build over ice, top with soda water
                             ^^^^^^^^^^
",
        );
        check(
            &RULE,
            "
drink: A
  45 ml gin
  - rinse the glass with absinthe, stir the gin with ice, strain
                         ^^^^^^^^
",
        );
    }

    #[test]
    fn lines_garnish_ice_and_prose_are_silent() {
        for (lines, steps) in [
            ("45 ml gin\n  top soda water", "- build over ice, top with soda"),
            ("45 ml gin", "- fill the glass with ice, add the gin, stir"),
            ("45 ml gin\n  garnish: mint sprig", "- build over ice, top with the mint sprig"),
            ("45 ml bourbon", "- add the whiskey to the tin, shake with ice, strain"),
            (
                "45 ml gin\n  15 ml lime juice",
                "- add everything to the tin, shake with ice, strain",
            ),
            ("45 ml gin", "- stir with ice, strain into a sherry glass"),
        ] {
            check(&RULE, &format!("\ndrink: A\n  {lines}\n  {steps}\n"));
        }
    }
}
