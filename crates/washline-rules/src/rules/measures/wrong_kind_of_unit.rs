//! A liquid weighed behind the bar, a leaf in millilitres, a powder by the spoon that nobody can weigh.

use washline_book::Lack;
use washline_measure::{Unit, UnitKind};
use washline_reference::{Sort, Trait};
use washline_syntax::{Key, Role};
use washline_text::fold;

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Measured, measured};

rule! {
    /// # Why
    /// A drink is poured with a jigger in the hand; grams of gin send the hand to a scale that is
    /// in the kitchen. A leaf has no millilitres, and a powder by the spoon is a guess where
    /// nobody knows what a spoon of it weighs. Preps weigh freely, and so do batches, honey, egg,
    /// puree and ice cream.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 g     gin
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
    /// Common practice, no source.
    "wrong-kind-of-unit", Measures, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "the hand at the well has a jigger, not a scale"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for line in measured(context.record) {
        if let Some(wrong) = wrong(context, &line) {
            sink.report(report(context, &line, wrong));
        }
    }
}

/// What is wrong with a unit.
#[derive(Clone, Copy)]
enum Wrong {
    Weighed,
    Poured,
    Bulk,
}

fn wrong(context: &Context<'_>, line: &Measured<'_>) -> Option<Wrong> {
    let known = line.read.ingredient()?;
    if matches!(line.read.role, Role::Garnish | Role::Rim | Role::Side) {
        return None;
    }
    match line.unit.kind() {
        UnitKind::Mass if line.liquid() => {
            let poured = context.is_drink() && !is_batch(context) && !weighs_anyway(line);
            poured.then_some(Wrong::Weighed)
        }
        UnitKind::Metric if !line.liquid() => {
            let grows = [Sort::Herb, Sort::Flower, Sort::Spice];
            let leaf = grows.contains(&known.sort) && known.density.is_none();
            if leaf { Some(Wrong::Poured) } else { bulk(line, known.sort) }
        }
        _ => bulk(line, known.sort),
    }
}

/// A measure of bulk that nobody can turn into grams.
fn bulk(line: &Measured<'_>, sort: Sort) -> Option<Wrong> {
    let lacks = line.read.lacks == Some(Lack::Density) && line.line.second.is_none();
    (lacks && !matches!(sort, Sort::Ice | Sort::Gas)).then_some(Wrong::Bulk)
}

/// A batch is made on the scale like a prep.
fn is_batch(context: &Context<'_>) -> bool {
    let mut serve = context.record.terms(Key::Serve).map(|(word, _)| fold(word));
    context.record.serves >= 4.0
        || serve.any(|word| matches!(word.as_str(), "bottled" | "draught" | "bowl"))
}

/// What a jigger does not let go of, or a bottle does not pour.
fn weighs_anyway(line: &Measured<'_>) -> bool {
    let thick = [Sort::Egg, Sort::Puree, Sort::Sauce, Sort::Dairy, Sort::Ice, Sort::Gum];
    let second = line.second().is_some_and(|unit| unit.kind() != UnitKind::Mass);
    line.read.sort_is(&thick) || line.read.is(Trait::SlowToDissolve) || second
}

fn report(context: &Context<'_>, line: &Measured<'_>, wrong: Wrong) -> Report {
    let name = &line.read.name;
    let (said, unit) = (line.placed.measure, line.unit.plural());
    let (message, why, help) = match wrong {
        Wrong::Weighed => (
            format!("{said} of {name}: a liquid is weighed where it is poured"),
            None,
            "write it in the unit of the jigger; a prep or a batch may weigh it",
        ),
        Wrong::Poured => (
            format!("{said} of {name}: it has no {unit}"),
            Some("each hand fills the measure with more or less of it"),
            "count it, or weigh it",
        ),
        Wrong::Bulk => (
            format!("{said} of {name}: nobody knows what that weighs, so nothing can be reckoned"),
            Some("a spoon of powder is heaped by one hand and levelled by the next"),
            "weigh it in grams, or write the grams in brackets",
        ),
    };
    let mut report = Report::at(context, line.placed.span, message).help(help);
    if let Some(why) = why {
        report = report.why(why);
    }
    if !matches!(wrong, Wrong::Weighed) {
        return report;
    }
    let house = context.settings.units.get("liquid").copied().unwrap_or(Unit::Ml);
    let Some(text) = line.written_in(house, context.settings.ounce) else { return report };
    let grams = line.read.g.map_or(0.0, |g| g.value);
    let title = format!("write {text}: {} g of it", number(grams));
    report.fix(title, false, vec![context.edit(line.placed.span, text)])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn a_liquid_is_poured_behind_the_bar() {
        check(
            &RULE,
            "
drink: A
  60 g gin
  ^^^^
  22 g lemon juice
  ^^^^
  1 oz wt sugar syrup
  ^^^^^^^
",
        );
        let text = "drink: A\n  57 g gin\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("60 ml gin"));
    }

    /// Preps weigh freely, and so does what is made by the bottle or for a table.
    #[test]
    fn preps_and_batches_weigh_freely() {
        check(
            &RULE,
            "
prep: A
  600 g honey
  300 g water
  200 g gin
drink: B
  serves: 12
  700 g gin
drink: C
  serve: bottled
  350 g gin
",
        );
    }

    #[test]
    fn what_no_jigger_pours_may_be_weighed() {
        check(
            &RULE,
            "
drink: A
  30 g egg white
  15 g honey
  5 g salt
  40 g raspberry puree
  12 g (15 ml) gin
",
        );
    }

    #[test]
    fn a_leaf_has_no_millilitres() {
        check(
            &RULE,
            "
drink: A
  10 ml mint leaves
  ^^^^^
  8 mint leaves
  10 g mint
  60 ml lime juice
",
        );
        let said = message(&RULE, "drink: A\n  10 ml mint\n", "").unwrap();
        assert_eq!(said, "10 ml of mint: it has no ml");
    }

    /// Of sugar and cocoa the bulk density is known, of most powders not.
    #[test]
    fn a_powder_by_the_spoon_needs_its_density() {
        check(
            &RULE,
            "
prep: A
  2 tbsp sugar
  1 tbsp lupin flour
  ^^^^^^
  1 tbsp (8 g) flour
  1 cup ice
  500 ml water
",
        );
    }
}
