//! Spirits that reach the guest with no water.

use washline_book::Figure;
use washline_reference::Sort;
use washline_syntax::{Key, LineKind, Role, Technique};
use washline_text::{Severity, fold};

use crate::convert::{round_ml, trimmed};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Water is the largest ingredient that no card lists: a stir brings two fifths of the pour, a
    /// shake more than half. Spirits above 25 % vol that meet no ice, shake, stir or water are strong,
    /// hot and short. Shots, neat pours, layered drinks and hot drinks are meant so.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   50 ml rye whiskey
    ///   25 ml sweet vermouth
    ///   2 dashes aromatic bitters
    ///
    ///   - pour into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   50 ml rye whiskey
    ///   25 ml sweet vermouth
    ///   2 dashes aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// D. Arnold, Liquid Intelligence (W. W. Norton, 2014), pp. 123-126, for what a stir and a shake
    /// bring; 25 % vol: common practice, no source.
    "no-dilution", Dilution, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "undiluted spirit is a third stronger than the drink that was meant, and warm"
}

/// Strength as poured from which a drink needs water, % vol.
const STRONG: f64 = 25.0;
/// A share of the pour below which nobody would call it diluted, %.
const DRY: f64 = 0.5;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired || record.families.any(&["neat", "shot", "hot"]) {
        return;
    }
    let poured = record.figures.get(Figure::AbvBefore).filter(|abv| abv.low > STRONG);
    let Some(poured) = poured.filter(|_| !is_meant(context)) else { return };
    let acts = &record.method.acts;
    match context.figure(Figure::Dilution) {
        Some(gained) if gained > DRY => return,
        Some(_) => {}
        // Nobody says how it is made: ice on the card, or a word of it, is water enough to ask no more.
        None if !acts.is_empty() || ice_on_card(context) => return,
        None => {}
    }
    let strict = !record.families.inferred
        && record.families.list.iter().any(|f| f.known.is_some_and(|known| known.always_diluted));
    let message = format!(
        "poured at {} % vol, and nothing waters it: no ice, no shake, no stir, no water",
        crate::words::number(poured.value)
    );
    let mut report = Report::entry(context, message);
    if strict {
        report = report.severity(Severity::Error);
    }
    sink.report(mended(context, report));
}

/// Served so on purpose: a pour, a layered glass, a bottle that is poured over ice later.
fn is_meant(context: &Context<'_>) -> bool {
    let record = context.record;
    // What the steps do is another finding where a verb is not known.
    if record.method.acts.iter().any(|act| act.act.technique.is_none()) || is_one_pour(context) {
        return true;
    }
    let serve = record
        .terms(Key::Serve)
        .any(|(word, _)| matches!(fold(word).as_str(), "neat" | "hot" | "rocks" | "draught"));
    // The batch that it pours has its water.
    let batched = record.uses.iter().filter_map(|id| context.workspace.record(*id)).any(|prep| {
        prep.kind == washline_text::Kind::Prep
            && prep.reads.iter().any(|read| read.counted && read.water)
            && prep.figures.value(Figure::Abv).is_some_and(|abv| abv > 0.0)
    });
    serve || batched || record.method.has(&[Technique::Layer, Technique::Light, Technique::Steam])
}

fn ice_on_card(context: &Context<'_>) -> bool {
    context.record.terms(Key::Ice).any(|(word, _)| fold(word) != "none")
}

/// A pour of one bottle, with no word of mixing.
fn is_one_pour(context: &Context<'_>) -> bool {
    let record = context.record;
    record.method.mixes.is_empty() && record.reads.iter().filter(|read| read.counted).count() == 1
}

/// The step that waters it, by what is in it, and the water as a line; a batch has its line first.
fn mended(context: &Context<'_>, report: Report) -> Report {
    let lines = &context.record.entry.lines;
    let last = lines.iter().rposition(|line| matches!(line.what, LineKind::Ingredient(_)));
    let below = |text: &str| last.and_then(|at| context.line_below(at, text)).into_iter().collect();
    let step = if is_cloudy(context) {
        "- shake with ice for 12 s, double strain"
    } else {
        "- stir with ice for 20 s, strain"
    };
    let water =
        context.record.water_of_a_stir().map(|ml| format!("{} ml water", trimmed(round_ml(ml))));
    // What tops up, floats or rinses is never in the tin: stirred without it, the rest is no answer.
    let ethanol = |role: fn(Role) -> bool| -> f64 {
        let reads = context.record.reads.iter().filter(|read| read.counted && role(read.role));
        reads.map(|read| read.composition.ethanol).sum()
    };
    let poured = ethanol(|role| role == Role::Poured) >= ethanol(|role| role != Role::Poured);
    let by_step = |report: Report| match poured {
        true => report.fix(format!("write `{step}`"), false, below(step)),
        false => report,
    };
    let by_line = |report: Report| match &water {
        Some(line) => report.fix(format!("measure in {line}"), false, below(line)),
        None => report,
    };
    let measured = water.as_deref().unwrap_or("its water");
    if is_batch(context) {
        let report = report.help(format!("measure in {measured}, as much as a stir would bring"));
        return by_step(by_line(report));
    }
    let report =
        report.help(format!("write `{step}`, or measure in {measured} where it is batched"));
    by_line(by_step(report))
}

fn is_batch(context: &Context<'_>) -> bool {
    let record = context.record;
    let bottled = record.terms(Key::Serve).any(|(word, _)| fold(word) == "bottled");
    let kept = [Technique::Bottle, Technique::Keg, Technique::Freeze];
    bottled || record.serves > 1.0 || record.method.has(&kept)
}

/// Whether it is shaken, by what is in it: juice, cream, egg.
fn is_cloudy(context: &Context<'_>) -> bool {
    let cloudy = [Sort::Juice, Sort::Puree, Sort::Dairy, Sort::PlantMilk, Sort::Egg];
    context.record.reads.iter().any(|read| read.counted && read.sort_is(&cloudy))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, severity};
    use washline_text::Severity;

    #[test]
    fn an_unstirred_drink_is_told() {
        check(
            &RULE,
            "
drink: A
       ^
  family: spirit-forward
  50 ml rye whiskey
  25 ml sweet vermouth
  - pour into the coupe
",
        );
        check(
            &RULE,
            "
drink: A
       ^
  60 ml gin
  10 ml dry vermouth
",
        );
    }

    #[test]
    fn no_ice_on_the_card_waters_nothing() {
        check(
            &RULE,
            "
drink: A
       ^
  ice: none
  60 ml gin
  10 ml dry vermouth
",
        );
    }

    #[test]
    fn the_water_or_the_step_is_written() {
        let short = "drink: A\n  family: spirit-forward\n  50 ml gin\n  25 ml dry vermouth\n";
        let mended = fixed(&RULE, short, "").unwrap();
        assert!(mended.ends_with("dry vermouth\n  - stir with ice for 20 s, strain\n"), "{mended}");
        let batch = "drink: A\n  serve: bottled\n  serves: 10\n  500 ml gin\n  250 ml dry vermouth\n  - bottle\n";
        // D. Arnold, Liquid Intelligence, p. 123: 42 % of 750 ml, poured at 32 % vol.
        let mended = fixed(&RULE, batch, "").unwrap();
        assert!(mended.contains("\n  317.5 ml water\n  - bottle"), "{mended}");
    }

    #[test]
    fn one_bottle_is_a_pour_and_an_unknown_verb_is_another_finding() {
        check(&RULE, "\ndrink: A\n  50 ml aged rum\n");
        check(&RULE, "\ndrink: A\n  60 ml gin\n  10 ml dry vermouth\n  - wobble until cold\n");
    }

    #[test]
    fn a_family_that_is_always_diluted_makes_it_an_error() {
        let stated = "drink: A\n  family: spirit-forward\n  60 ml gin\n  10 ml dry vermouth\n";
        assert_eq!(severity(&RULE, stated, ""), Some(Severity::Error));
        let inferred = "drink: A\n  60 ml gin\n  10 ml dry vermouth\n";
        assert_eq!(severity(&RULE, inferred, ""), Some(Severity::Warning));
    }

    #[test]
    fn a_batch_that_has_its_water_is_silent() {
        check(
            &RULE,
            "
drink: A
  60 ml House Batch
  - pour into a frozen coupe

prep: House Batch
  600 ml gin
  100 ml dry vermouth
  200 ml water
  - combine, bottle, freeze
",
        );
    }

    #[test]
    fn what_is_meant_so_is_silent() {
        for steps in [
            "- stir with ice, strain",
            "- shake, strain",
            "- build over ice",
            "- throw between two tins, strain",
            "- roll, strain",
            "- layer the gin over the vermouth",
            "- churn with crushed ice",
            "- swizzle",
        ] {
            check(&RULE, &format!("\ndrink: A\n  60 ml gin\n  10 ml dry vermouth\n  {steps}\n"));
        }
        for head in
            ["family: shot", "family: neat", "serve: neat", "serve: rocks", "ice: large cube"]
        {
            check(&RULE, &format!("\ndrink: A\n  {head}\n  40 ml gin\n"));
        }
        check(
            &RULE,
            "
drink: Batch
  serve: bottled
  600 ml gin
  100 ml dry vermouth
  300 ml water
  - bottle, freeze
",
        );
        check(
            &RULE,
            "
drink: A
  90 ml white wine
  10 ml creme de cassis
  - build
",
        );
    }
}
