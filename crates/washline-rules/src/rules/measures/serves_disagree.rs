//! How many it serves, how much there is and how much one is do not come to the same.

use washline_book::{Figure, Record, Referent};
use washline_measure::{Interval, UnitKind};
use washline_syntax::{Field, Key, Role};

use crate::rule::rule;
use crate::words::{ml, number};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A batch that says 10 serves and holds enough for 7 runs out in the middle of an order, and its
    /// strength, cost and allergen limits are reckoned for a glass that nobody gets. A bowl's `serves`
    /// is held against its `portion`, a batch's against its yield and what the drinks pour of it.
    /// Apart means by more than 15 % and more than the figures could be wrong.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: small tulip 150 ml, frozen
    ///   ice: none
    ///   serve: up
    ///   contains: sulphites
    ///
    ///   90 ml  Lantern Batch, frozen
    ///
    ///   - pour
    ///   garnish: lemon twist
    ///
    /// prep: Lantern Batch
    ///   serves: 12
    ///   contains: sulphites
    ///   yields: 750 ml
    ///   keeps: 3 months frozen
    ///
    ///   450 ml  gin
    ///   150 ml  dry vermouth
    ///   155 ml  water
    ///
    ///   - combine, bottle, label
    ///   - freeze overnight
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: small tulip 150 ml, frozen
    ///   ice: none
    ///   serve: up
    ///   contains: sulphites
    ///
    ///   90 ml  Lantern Batch, frozen
    ///
    ///   - pour
    ///   garnish: lemon twist
    ///
    /// prep: Lantern Batch
    ///   serves: 8
    ///   contains: sulphites
    ///   yields: 750 ml
    ///   keeps: 3 months frozen
    ///
    ///   450 ml  gin
    ///   150 ml  dry vermouth
    ///   155 ml  water
    ///
    ///   - combine, bottle, label
    ///   - freeze overnight
    /// ```
    ///
    /// # Source
    /// 15 %: common practice, no source.
    "serves-disagree", Measures, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "it runs out in the middle of an order, or is thrown away at the end of the night"
}

const APART: f64 = 0.15;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired || record.field(Key::Serves).is_none() {
        return;
    }
    let found = if context.is_drink() { portion(context) } else { pours(context) };
    if let Some(report) = found {
        sink.report(report);
    }
}

/// A drink's `portion` against its share of what is in the bowl.
fn portion(context: &Context<'_>) -> Option<Report> {
    let record = context.record;
    let field = record.field(Key::Portion)?;
    let measure = record.amount(Key::Portion)?;
    let unit = measure
        .unit
        .filter(|unit| matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary))?;
    let one = unit.ml(context.settings.ounce)?.to_f64() * measure.quantity.middle().to_f64();
    let each = record.figures.get(Figure::Final)?;
    if !is_apart(one, each) {
        return None;
    }
    let message = format!(
        "a portion is {}, and {} serves of what is in it are {} each",
        ml(one),
        number(record.serves),
        ml(each.value)
    );
    let said = record.field(Key::Serves)?;
    let report = Report::at(context, field.value_span, message)
        .related(record.place(said.value_span), "how many it says it serves");
    Some(counted(context, said, record.serves * each.value / one, report))
}

/// A batch's share of its yield against what every drink pours of it.
fn pours(context: &Context<'_>) -> Option<Report> {
    let record = context.record;
    let field = record.field(Key::Serves)?;
    let each = record.figures.get(Figure::Final)?;
    let serves = record.serves;
    let mut nearest: Option<(f64, &Record)> = None;
    for user in context.workspace.users(record.id) {
        let Some(user) = context.workspace.record(*user).filter(|user| !user.retired) else {
            continue;
        };
        for read in user.reads.iter().filter(|read| read.role == Role::Poured) {
            if read.referent() != Some(Referent::Entry(record.id)) {
                continue;
            }
            let poured = read.ml?.value / user.serves;
            if !is_apart(poured, each) {
                return None;
            }
            nearest = nearest.or(Some((poured, user)));
        }
    }
    let (poured, user) = nearest?;
    let message = format!(
        "{} serves of it are {} each, and {} pours {}",
        number(serves),
        ml(each.value),
        user.name,
        ml(poured)
    );
    let report = Report::at(context, field.value_span, message)
        .related(user.name_place(), format!("{} pours {}", user.name, ml(poured)));
    Some(counted(context, field, serves * each.value / poured, report))
}

fn is_apart(one: f64, each: Interval) -> bool {
    let near = one * (1.0 - APART)..=one * (1.0 + APART);
    one > 0.0 && (each.low > *near.end() || each.high < *near.start())
}

/// The same with the serves that there is enough for, and a mend where whole ones come to it.
fn counted(context: &Context<'_>, field: &Field, serves: f64, report: Report) -> Report {
    let whole = serves.floor().max(1.0);
    let report = report
        .help(format!("there is enough for {whole}: write that, make more, or pour another size"));
    if (serves - whole).abs() > APART * whole {
        return report;
    }
    let edit = context.edit(field.value_span, whole.to_string());
    report.fix(format!("write `serves: {whole}`"), false, vec![edit])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn a_bowl_is_held_against_its_portion() {
        let text = "drink: A\n  serves: 10\n  portion: 120 ml\n  300 ml rum\n  300 ml black tea\n  \
                    - combine, pour\n";
        let said = "a portion is 120 ml, and 10 serves of what is in it are";
        assert!(message(&RULE, text, "").is_some_and(|message| message.starts_with(said)));
        check(
            &RULE,
            "
drink: A
  serves: 10
  portion: 120 ml
           ^^^^^^
  300 ml rum
  300 ml black tea
  - combine, pour
",
        );
    }

    #[test]
    fn a_bowl_that_is_enough_is_enough() {
        check(
            &RULE,
            "drink: A\n  serves: 5\n  portion: 120 ml\n  300 ml rum\n  300 ml black tea\n  \
             - combine, pour\n",
        );
    }

    fn batch(serves: u32, pours: &str) -> String {
        format!(
            "{pours}prep: Batch\n  serves: {serves}\n  500 ml gin\n  250 ml dry vermouth\n  \
             150 ml water\n  - combine, bottle\n"
        )
    }

    #[test]
    fn a_batch_is_held_against_what_is_poured_of_it() {
        let pours = "drink: A\n  90 ml Batch\n  - pour\n";
        assert!(message(&RULE, &batch(20, pours), "").is_some());
        check(&RULE, &batch(10, pours));
    }

    #[test]
    fn one_drink_that_pours_as_it_says_is_enough() {
        let pours = "drink: A\n  45 ml Batch\n  - pour\ndrink: B\n  90 ml Batch\n  - pour\n";
        check(&RULE, &batch(20, pours));
        check(&RULE, &batch(10, pours));
    }

    #[test]
    fn a_batch_that_nothing_pours_has_nothing_to_disagree_with() {
        check(&RULE, &batch(3, ""));
    }

    #[test]
    fn a_batch_that_says_no_serves_promises_none() {
        check(
            &RULE,
            "drink: A\n  90 ml Batch\n  - pour\nprep: Batch\n  500 ml gin\n  100 ml water\n  \
             - combine\n",
        );
    }

    #[test]
    fn last_years_bowl_is_left_alone() {
        check(
            &RULE,
            "drink: A\n  status: retired\n  serves: 10\n  portion: 120 ml\n  300 ml rum\n  \
             - combine, pour\n",
        );
    }
}
