//! A liquid with a bare number, or a value that needs a unit and has none.

use washline_book::{Lack, Read};
use washline_measure::{Measure, Unit, UnitKind};
use washline_reference::Sort;
use washline_syntax::{Amount, Ingredient, Key, LineKind};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Things that are counted need no unit: one egg white, eight mint leaves. A liquid is measured,
    /// and a bare number beside one is a guess of twenty-nine to one. The unit that the card's other
    /// lines use is offered first; only a person knows which was meant.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
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
    ///   60 ml gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: no unit counts whole things, and a liquid is none.
    "missing-unit", Notation, Error, Fixes::Unsafe, Check::Entry(find),
    why: "a bare number is millilitres to one hand and ounces to the next, and cannot be added up"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let mut told = None;
    for read in &context.record.reads {
        if read.lacks != Some(Lack::Unit) || told == Some(read.line) {
            continue;
        }
        // What nobody pours may be counted, whatever one of it weighs.
        if read.unit_makeup.as_ref().is_none_or(|makeup| !makeup.liquid) {
            continue;
        }
        let Some((line, measure)) = bare(context, read) else { continue };
        told = Some(read.line);
        sink.report(report(context, read, line, measure));
    }
}

/// The line of `read` where its one measure is a bare number.
fn bare<'a>(context: &Context<'a>, read: &Read) -> Option<(&'a Ingredient, Measure)> {
    let line = context.record.entry.lines.get(read.line as usize)?;
    let LineKind::Ingredient(line) = &line.what else { return None };
    let Amount::Measures(sum) = &line.amount else { return None };
    let [only] = sum.as_slice() else { return None };
    only.measure.unit.is_none().then_some((line, only.measure))
}

fn report(context: &Context<'_>, read: &Read, line: &Ingredient, measure: Measure) -> Report {
    let number = context.record.text(line.amount_span);
    let message = format!("{number} of what? {} is measured, not counted", read.name);
    let mut report = Report::at(context, line.amount_span, message)
        .help("write the unit behind the number: ml, oz, or what the bottle is measured with");
    for unit in units(context, read, measure) {
        let written = format!("{number} {}", spelt(unit, measure));
        let edit = context.edit(line.amount_span, written.clone());
        report = report.fix(format!("write `{written}`"), false, vec![edit]);
    }
    report
}

/// The units it may be, likeliest first: what the card's other lines use, then ounces for a
/// few and millilitres for many. A few of bitters are dashes.
fn units(context: &Context<'_>, read: &Read, measure: Measure) -> Vec<Unit> {
    /// More ounces of one thing than a drink has. Common practice, no source.
    const MANY: f64 = 7.0;
    let record = context.record;
    let in_parts = record.field(Key::Part).or_else(|| record.field(Key::Total)).is_some();
    let of_card = |read: &Read| {
        read.unit.filter(|unit| match unit.kind() {
            UnitKind::Metric | UnitKind::Customary => true,
            UnitKind::Part => in_parts,
            _ => false,
        })
    };
    let many = measure.quantity.middle().to_f64() >= MANY;
    let usual = if many { [Unit::Ml, Unit::Oz] } else { [Unit::Oz, Unit::Ml] };
    let dashes = !many && read.sort_is(&[Sort::Bitters]);
    let likely = |unit: &Unit| !many || unit.kind() != UnitKind::Customary;
    let of_card = || record.reads.iter().filter_map(of_card).find(likely);
    let own = if dashes { Some(Unit::Dash) } else { of_card() };
    own.into_iter().chain(usual.into_iter().filter(|unit| Some(*unit) != own)).collect()
}

fn spelt(unit: Unit, measure: Measure) -> &'static str {
    let one = measure.quantity.most() <= washline_measure::Exact::ONE;
    if one { unit.name() } else { unit.plural() }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed, message, severity};
    use washline_text::Severity;

    fn titles(text: &str) -> Vec<String> {
        let found = findings(text, "").into_iter().find(|finding| finding.rule == RULE.name);
        let fixes = found.map(|finding| finding.fixes).unwrap_or_default();
        fixes.into_iter().map(|fix| fix.title).collect()
    }

    #[test]
    fn the_number_is_told() {
        check(
            &RULE,
            "
drink: A
  60 gin
  ^^
  1 1/2 oz rum
  2 honey syrup
  ^
prep: Honey Syrup
  600 g honey
  300 g water
",
        );
        let text = "drink: A\n  60 gin\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("60 of what? gin is measured, not counted")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  60 ml gin\n"));
    }

    #[test]
    fn the_likelier_unit_comes_first() {
        assert_eq!(titles("drink: A\n  60 gin\n"), ["write `60 ml`", "write `60 oz`"]);
        assert_eq!(titles("drink: A\n  2 gin\n"), ["write `2 oz`", "write `2 ml`"]);
        assert_eq!(
            titles("drink: A\n  60 ml gin\n  2 orange bitters\n"),
            ["write `2 dashes`", "write `2 oz`", "write `2 ml`"]
        );
        let cl = "drink: A\n  4 gin\n  2 cl lemon juice\n";
        assert_eq!(titles(cl), ["write `4 cl`", "write `4 oz`", "write `4 ml`"]);
        let ounces = "drink: A\n  2 oz gin\n  60 lemon juice\n";
        assert_eq!(titles(ounces), ["write `60 ml`", "write `60 oz`"]);
        let parts = "drink: A\n  part: 30 ml\n  2 gin\n  1 part lemon juice\n";
        assert_eq!(titles(parts), ["write `2 parts`", "write `2 oz`", "write `2 ml`"]);
    }

    #[test]
    fn values_need_theirs() {
        check(
            &RULE,
            "
prep: A
  yields: 1
  700 ml gin
drink: B
  part: 30
        ^^
  1 part gin
",
        );
    }

    #[test]
    fn what_is_counted_is_silent() {
        check(
            &RULE,
            "
drink: A
  1 egg white
  8 mint leaves
  1 sugar cube
  half a lime, juiced
  2 (60 ml) gin
  1 double espresso
  3 rosemary sprigs
  top soda water
  1/3 gin
",
        );
    }

    #[test]
    fn an_unknown_name_may_be_counted() {
        check(
            &RULE,
            "
drink: A
  2 grumbleberries
",
        );
    }
}
