//! A step adds what no line lists.

use washline_book::{ActRead, Referent, Unlisted};
use washline_reference::{Sort, ingredient};
use washline_syntax::{LineKind, Technique};
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
    let mut told = Vec::new();
    for (at, act) in record.method.acts.iter().enumerate() {
        for named in context.workspace.unlisted(record, act) {
            if !told.contains(&named.resolution.hits) && is_missed(context, at, act, &named) {
                sink.report(report(context, act, &named));
                told.push(named.resolution.hits);
            }
        }
    }
}

/// Whether a line should list it: not ice, nor water that serves the glass, nor a garnish.
fn is_missed(context: &Context<'_>, at: usize, act: &ActRead, named: &Unlisted) -> bool {
    // `a lemon slice`, `mint sprig`: what is counted lies on the drink, unless it is muddled.
    let counted = named.resolution.unit.is_some() && !act.is(&[Technique::Muddle]);
    let known = named.resolution.hits.first().and_then(|hit| match hit {
        Referent::Reference(id) => ingredient(*id),
        Referent::Entry(_) => None,
    });
    match known.map(|known| known.sort) {
        Some(Sort::Ice) => false,
        Some(Sort::Water) => !serves_the_glass(context, at, act),
        Some(Sort::Fruit) if act.is(&[Technique::Rim]) => false,
        Some(Sort::Fruit | Sort::Flower | Sort::Herb | Sort::Vegetable | Sort::Nut) => {
            !counted && !is_dressing(context, at)
        }
        _ => !counted,
    }
}

/// Water that rinses, wets or warms the glass, and is thrown out again.
fn serves_the_glass(context: &Context<'_>, at: usize, act: &ActRead) -> bool {
    act.is(&[Technique::Rinse, Technique::Rim, Technique::Mist, Technique::Fill])
        || context.record.method.has_after(at, &[Technique::Discard, Technique::Dump])
}

/// Once the drink is in its glass, what is laid on it is its garnish.
fn is_dressing(context: &Context<'_>, at: usize) -> bool {
    const IN_THE_GLASS: &[Technique] = &[
        Technique::Strain,
        Technique::DoubleStrain,
        Technique::FineStrain,
        Technique::OpenPour,
        Technique::Dump,
        Technique::Build,
        Technique::Top,
        Technique::Fill,
        Technique::Swizzle,
    ];
    let first = context.record.method.position(IN_THE_GLASS);
    context.is_drink() && first.is_some_and(|first| first < at)
}

fn report(context: &Context<'_>, act: &ActRead, named: &Unlisted) -> Report {
    let record = context.record;
    let words = record.text(named.span);
    let message = format!("`{}` adds {words}, and no line lists it", record.text(act.act.verb));
    let report = Report::at(context, named.span, message)
        .help("give it a line with its amount, or take it out of the step");
    with_line(context, report, act, words)
}

/// A line to write where the act's own word is an amount; what is added or muddled has one
/// that only a person knows.
fn with_line(context: &Context<'_>, report: Report, act: &ActRead, words: &str) -> Report {
    let amount = match act.act.technique {
        Some(Technique::Top | Technique::Fill) => "top",
        Some(Technique::Float) => "float",
        Some(Technique::Rinse) => "rinse",
        Some(Technique::Mist) => "mist",
        Some(Technique::Rim) => "rim",
        _ => return report,
    };
    let lines = &context.record.entry.lines;
    let last = lines.iter().rposition(|line| matches!(line.what, LineKind::Ingredient(_)));
    let text = format!("{amount} {words}");
    let edit = last.and_then(|at| context.line_below(at, &text));
    report.fix(format!("write `{text}` among the lines"), false, edit.into_iter().collect())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed};

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

    /// The amount word of the line is the act's own; what is muddled gets no line made up.
    #[test]
    fn the_line_that_is_offered_says_what_the_step_does() {
        let text = "drink: A\n  45 ml gin\n  - rinse the glass with absinthe, stir the gin\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("  rinse absinthe\n"));
        let muddled = "drink: A\n  45 ml gin\n  - muddle brown sugar, add the gin, stir\n";
        let found = findings(muddled, "");
        let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert!(finding.fixes.is_empty());
    }

    #[test]
    fn a_thing_is_told_once() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  - build over ice, top with tonic, stir, top with more tonic
                             ^^^^^
",
        );
    }

    #[test]
    fn muddles_floats_and_preps_are_held_to_the_lines_too() {
        check(
            &RULE,
            "
drink: B
  60 ml dark rum
  20 ml lime juice
  - muddle mint leaves and brown sugar, add rum, churn with crushed ice
           ^^^^^^^^^^^     ^^^^^^^^^^^
  - float overproof rum
          ^^^^^^^^^^^^^

prep: C
  500 g sugar
  500 ml water
  - simmer for 5 min, add citric acid, bottle
                          ^^^^^^^^^^^
",
        );
    }

    /// A prep's own ingredients, the citrus that wets a rim, water that warms a mug, a slice
    /// laid on at the end.
    #[test]
    fn what_is_in_a_prep_or_serves_the_glass_is_no_line() {
        check(
            &RULE,
            "
prep: Barrel Base
  700 ml gin
  - bottle

drink: A
  60 ml barrel base
  25 ml lime juice
  rim (half) salt
  - rim half the glass with lime and salt
  - add the gin, shake with ice, strain

drink: B
  45 ml rum
  120 ml apple juice
  - fill the mug with hot water, discard
  - rinse the tin with water
  - add the rum, top with the apple juice, add a lemon slice
",
        );
    }
}
