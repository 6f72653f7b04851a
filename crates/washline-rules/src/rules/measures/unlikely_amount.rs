//! A decimal point that slipped.

use washline_book::Read;
use washline_measure::{Form, Unit, UnitKind};
use washline_reference::Sort;
use washline_syntax::{Key, Role};
use washline_text::fold;

use crate::convert::trimmed;
use crate::rule::rule;
use crate::words::{ml, number};
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Measured, measured};

rule! {
    /// # Why
    /// 225 for 22.5 reads past in a proof and is poured on the night. One line that no serve holds,
    /// ten times what a card says otherwise, is a slip of the point. Bitters by the measure, a
    /// spoon of peat beside another spirit, juice for a prep or a bowl are not.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 300 ml
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml      bourbon
    ///   1 tsp      sugar syrup, 1:1
    ///   20 dashes  aromatic bitters
    ///
    ///   - stir with ice for 30 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 300 ml
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml     bourbon
    ///   1 tsp     sugar syrup, 1:1
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 30 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// What one serve holds of each sort: common practice, no source.
    "unlikely-amount", Measures, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "a slipped point reads past in a proof and is poured on the night"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() {
        return;
    }
    let mut found = measured(context.record).filter_map(|line| Some((slip(context, &line)?, line)));
    let Some((slip, line)) = found.next() else { return };
    // Several that are too much are a batch that does not say how many it serves.
    if found.next().is_none() && !made_for_many(context) {
        sink.report(report(context, &line, &slip));
    }
}

/// A bowl, a bottle, a table: what one guest gets of it nobody pours. Common practice, no source.
const MANY: f64 = 6.0;

fn made_for_many(context: &Context<'_>) -> bool {
    let mut serve = context.record.terms(Key::Serve).map(|(word, _)| fold(word));
    context.record.serves >= MANY
        || context.record.families.is("punch")
        || serve.any(|word| matches!(word.as_str(), "bottled" | "draught" | "bowl"))
}

/// A slip of the point.
struct Slip {
    /// What one serve gets, in the words of the message.
    said: String,
    /// What speaks against it.
    against: String,
    /// By how much the number is to be taken.
    factor: f64,
}

/// The most of a sort in one serve, ml. Common practice, no source.
fn most(read: &Read) -> Option<f64> {
    let sort = read.ingredient()?.sort;
    Some(match sort {
        Sort::Spirit => 150.0,
        Sort::Liqueur => 150.0,
        Sort::Bitters => 90.0,
        Sort::Syrup => 100.0,
        Sort::Juice if read.sours() => 100.0,
        Sort::Extract => 30.0,
        _ => return None,
    })
}

/// The most of a bar's small measure in one serve. Common practice, no source.
const fn most_of(unit: Unit) -> Option<f64> {
    match unit {
        Unit::Dash => Some(15.0),
        Unit::Drop => Some(60.0),
        Unit::Spray | Unit::Dropper | Unit::Bsp => Some(12.0),
        _ => None,
    }
}

/// The least of a drink's only spirit, and what it may have been meant to be, ml. Common
/// practice, no source.
const LEAST: f64 = 10.0;
const A_BASE: std::ops::RangeInclusive<f64> = 20.0..=90.0;

fn slip(context: &Context<'_>, line: &Measured<'_>) -> Option<Slip> {
    let read = line.read;
    if !matches!(read.role, Role::Poured | Role::Top | Role::Float) || !read.counted {
        return None;
    }
    let serves = context.record.serves;
    let a_serve = if serves > 1.0 { " a serve" } else { " in one serve" };
    if let Some(most) = most_of(line.unit) {
        let count = line.placed.measure.quantity.middle().to_f64() / serves;
        return (count > most).then(|| Slip {
            said: format!("{} {}{a_serve}", number(count), line.unit.plural()),
            against: format!("a card says {} at most", number(most)),
            factor: 0.1,
        });
    }
    if !matches!(line.unit.kind(), UnitKind::Metric | UnitKind::Customary) {
        return None;
    }
    let volume = read.ml?.value / serves;
    if let Some(most) = most(read)
        && volume > most
    {
        return Some(Slip {
            said: format!("{}{a_serve}", ml(volume)),
            against: format!("no card pours more than {}", ml(most)),
            factor: 0.1,
        });
    }
    let spoon = matches!(line.unit, Unit::Tsp | Unit::Tbsp);
    let base = read.role == Role::Poured && read.sort_is(&[Sort::Spirit]) && !spoon;
    let small = volume < LEAST && A_BASE.contains(&(volume * 10.0));
    (base && small && is_the_only_strength(context, line)).then(|| Slip {
        said: format!("{}{a_serve}", ml(volume)),
        against: "it is the only spirit".to_owned(),
        factor: 10.0,
    })
}

/// Less than this is no drink, ml. Common practice, no source.
const A_DRINK: f64 = 25.0;

/// Nothing else brings alcohol to speak of, and the rest is that of a sour, or of no drink at all.
fn is_the_only_strength(context: &Context<'_>, line: &Measured<'_>) -> bool {
    let record = context.record;
    let own = line.read.composition.ethanol;
    let mut others = record.reads.iter().enumerate().filter(|(at, _)| *at != line.at);
    let alone = others.all(|(_, read)| read.known() && read.composition.ethanol < 0.5 * own);
    if !alone || record.families.is("alcohol-free") {
        return false;
    }
    let sours = record.reads.iter().any(|read| read.sours() && read.volume() >= 10.0);
    let open = record.reads.iter().any(|read| read.role == Role::Top || read.vague);
    let whole: f64 = record.reads.iter().filter(|read| read.counted).map(Read::volume).sum();
    sours || !open && whole / record.serves < A_DRINK
}

fn report(context: &Context<'_>, line: &Measured<'_>, slip: &Slip) -> Report {
    let message = format!("{} of {}: {}", slip.said, line.read.name, slip.against);
    let report = Report::at(context, line.placed.span, message)
        .help("look at the decimal point; a batch says how many it `serves`");
    let Form::One(count) = line.placed.measure.quantity.form else { return report };
    let moved = count.to_f64() * slip.factor;
    let unit = if moved <= 1.0 { line.unit.name() } else { line.unit.plural() };
    let text = format!("{} {unit}", trimmed(moved));
    let was = line.placed.measure;
    report.fix(
        format!("move the point: {text}, not {was}"),
        false,
        vec![context.edit(line.placed.span, text)],
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn ten_times_what_a_serve_holds() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  225 ml lime juice
  ^^^^^^
  22.5 ml sugar syrup
",
        );
        check(
            &RULE,
            "
drink: A
  60 ml bourbon
  60 dashes aromatic bitters
  ^^^^^^^^^
",
        );
        let text = "drink: A\n  60 ml gin\n  225 ml lime juice\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("225 ml in one serve of lime juice: no card pours more than 100 ml")
        );
        assert!(fixed(&RULE, text, "").unwrap().contains("22.5 ml lime juice"));
    }

    #[test]
    fn a_tenth_of_the_only_spirit() {
        check(
            &RULE,
            "
drink: A
  6 ml gin
  ^^^^
  22.5 ml lime juice
  22.5 ml sugar syrup
",
        );
        check(
            &RULE,
            "
drink: A
  6 ml bourbon
  ^^^^
  5 ml sugar syrup
  2 dashes aromatic bitters
",
        );
        let text = "drink: A\n  4.5 ml gin\n  22.5 ml lime juice\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("45 ml gin"));
    }

    /// Bitters as the base, a split base, a rinse, a spoon, a drink with wine under it.
    #[test]
    fn small_and_large_on_purpose() {
        check(
            &RULE,
            "
drink: A
  45 ml aromatic bitters
  30 ml orgeat
  22.5 ml lime juice
drink: B
  45 ml blended scotch whisky
  7.5 ml islay whisky
  22.5 ml lemon juice
drink: C
  5 ml absinthe
  120 ml soda water
drink: D
  60 ml fino sherry
  5 ml gin
  15 ml lemon juice
drink: E
  rinse absinthe
  60 ml rye whiskey
drink: F
  1 tsp absinthe
  30 ml lemon juice
  90 ml apple juice
",
        );
    }

    /// Juice for a prep, a bowl, twelve; and a batch that forgot to say so.
    #[test]
    fn what_is_made_for_many_is_silent() {
        check(
            &RULE,
            "
prep: A
  2 l lime juice
  225 ml gin
drink: B
  serves: 12
  2 l lime juice
  700 ml rum
drink: C
  family: punch
  2 l lemon juice
  700 ml rum
drink: D
  600 ml gin
  225 ml lime juice
  225 ml sugar syrup
",
        );
        check(
            &RULE,
            "
drink: B
  serves: 2
  120 ml gin
  450 ml lime juice
  ^^^^^^
",
        );
    }
}
