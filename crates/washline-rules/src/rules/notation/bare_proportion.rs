//! Proportions of a liquid, with nothing that says of how much.

use washline_book::{Lack, Read};
use washline_syntax::{Ingredient, Key, LineKind};
use washline_text::{Edit, FileId};

use crate::rule::rule;
use crate::words::list;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Old cards write `1/3 gin`: a third of the drink, however large that is. As parts of a stated
    /// total they can be poured, scaled and added up. A fraction of an ounce whose unit was left
    /// out looks the same, so the fix is a person's to choose: parts come first where the
    /// fractions make one whole, ounces where they do not.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Copper Lane
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   2/3 gin
    ///   1/3 sweet vermouth
    ///
    ///   - stir with ice for 30 s, strain
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Copper Lane
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///   total: 90 ml
    ///
    ///   2/3 part gin
    ///   1/3 part sweet vermouth
    ///
    ///   - stir with ice for 30 s, strain
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// The notation: `part` needs `part:` or `total:`. 90 ml for a short drink before dilution: common
    /// practice, no source.
    "bare-proportion", Notation, Error, Fixes::Unsafe, Check::Entry(find),
    why: "thirds of nothing in particular are poured by eye, and each bartender has another eye"
}

/// A short drink before its ice. Common practice, no source.
const TOTAL: &str = "total: 90 ml";

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let reads = &context.record.reads;
    if reads.iter().all(|read| read.lacks != Some(Lack::Proportion)) {
        return;
    }
    let bare: Vec<(&Read, &Ingredient)> =
        reads.iter().filter_map(|read| Some((read, line(context, read)?))).collect();
    let Some((_, first)) = bare.first() else { return };
    let mut report = Report::at(context, first.amount_span, message(context, &bare))
        .help(format!("write parts and what they come to, `1/3 part` with `{TOTAL}`, or the unit"));
    for (read, line) in bare.iter().skip(1) {
        let place = context.record.place(line.amount_span);
        report = report.related(place, format!("{} is one too", read.name));
    }
    sink.report(with_fixes(context, report, &bare));
}

/// The line of `read`, where it is a bare proportion.
fn line<'a>(context: &Context<'a>, read: &Read) -> Option<&'a Ingredient> {
    if read.lacks != Some(Lack::Proportion) {
        return None;
    }
    match &context.record.entry.lines.get(read.line as usize)?.what {
        LineKind::Ingredient(line) => Some(line),
        _ => None,
    }
}

fn message(context: &Context<'_>, bare: &[(&Read, &Ingredient)]) -> String {
    if let [(read, line)] = bare {
        let written = context.record.text(line.amount_span);
        return format!("{written} {} is a proportion, and nothing says of how much", read.name);
    }
    let names: Vec<&str> = bare.iter().map(|(read, _)| read.name.as_str()).collect();
    format!("{} are proportions, and nothing says of how much", list(&names))
}

fn with_fixes(context: &Context<'_>, report: Report, bare: &[(&Read, &Ingredient)]) -> Report {
    let ounces = written(context, bare, "oz");
    if !context.is_drink() {
        return report.fix("write ounces", false, ounces);
    }
    let record = context.record;
    let mut parts = written(context, bare, "part");
    let mut title = "write parts".to_owned();
    if record.field(Key::Part).or_else(|| record.field(Key::Total)).is_none()
        && let Some(total) = context.line_below(0, TOTAL)
    {
        parts.insert(0, total);
        title = format!("write parts, and `{TOTAL}`");
    }
    if is_whole(bare) {
        return report.fix(title, false, parts).fix("write ounces", false, ounces);
    }
    report.fix("write ounces", false, ounces).fix(title, false, parts)
}

/// The unit behind each number.
fn written(
    context: &Context<'_>,
    bare: &[(&Read, &Ingredient)],
    unit: &str,
) -> Vec<(FileId, Edit)> {
    let behind = |(_, line): &(&Read, &Ingredient)| {
        let end = washline_text::Span::at(line.amount_span.end);
        context.edit(end, format!(" {unit}"))
    };
    let mut edits: Vec<(FileId, Edit)> = bare.iter().map(behind).collect();
    // Names that share one amount share its edit.
    edits.dedup();
    edits
}

/// Whether the fractions come to one, as those of a drink do.
fn is_whole(bare: &[(&Read, &Ingredient)]) -> bool {
    let fraction = |(_, line): &(&Read, &Ingredient)| match &line.amount {
        washline_syntax::Amount::Measures(sum) => {
            sum.first().map_or(0.0, |one| one.measure.quantity.middle().to_f64())
        }
        washline_syntax::Amount::Proportion(number) => number.to_f64(),
        _ => 0.0,
    };
    let sum: f64 = bare.iter().map(fraction).sum();
    (0.9..=1.1).contains(&sum)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed, message, severity};
    use washline_text::Severity;

    const THIRDS: &str = "drink: A\n  1/3 gin\n  1/3 sweet vermouth\n  1/3 dry vermouth\n";

    #[test]
    fn all_of_a_card_are_one_finding() {
        check(
            &RULE,
            "
drink: A
  1/3 gin
  ^^^
  1/3 sweet vermouth
  1/3 dry vermouth
",
        );
        let found = findings(THIRDS, "");
        let found = found.iter().find(|finding| finding.rule == RULE.name);
        assert_eq!(found.map(|finding| finding.related.len()), Some(2));
        assert_eq!(
            message(&RULE, THIRDS, "").as_deref(),
            Some(
                "gin, sweet vermouth and dry vermouth are proportions, and nothing says of how much"
            )
        );
        assert_eq!(severity(&RULE, THIRDS, ""), Some(Severity::Error));
    }

    #[test]
    fn one_whole_becomes_parts() {
        assert_eq!(
            fixed(&RULE, THIRDS, "").as_deref(),
            Some(
                "drink: A\n  total: 90 ml\n  1/3 part gin\n  1/3 part sweet vermouth\n  \
                 1/3 part dry vermouth\n"
            )
        );
        let stated = "drink: A\n  total: 75 ml\n  1/2 gin\n  1/2 dry vermouth\n";
        assert_eq!(
            fixed(&RULE, stated, "").as_deref(),
            Some("drink: A\n  total: 75 ml\n  1/2 part gin\n  1/2 part dry vermouth\n")
        );
    }

    #[test]
    fn what_makes_no_whole_is_ounces() {
        let text = "drink: A\n  2 oz gin\n  3/4 lemon juice\n";
        assert_eq!(
            fixed(&RULE, text, "").as_deref(),
            Some("drink: A\n  2 oz gin\n  3/4 oz lemon juice\n")
        );
    }

    #[test]
    fn a_prep_has_no_parts() {
        let text = "prep: A\n  1/2 gin\n  1/2 dry vermouth\n";
        assert_eq!(
            fixed(&RULE, text, "").as_deref(),
            Some("prep: A\n  1/2 oz gin\n  1/2 oz dry vermouth\n")
        );
    }

    #[test]
    fn what_is_measured_or_cut_is_silent() {
        check(
            &RULE,
            "
drink: A
  total: 90 ml
  1/3 part gin
  3/4 oz lemon juice
  half a lime, juiced
  juice of 1/2 lime
  1/2 egg white
  1/4 cucumber
",
        );
    }
}
