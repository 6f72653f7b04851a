//! A house that has not said which ounce it means.

use std::collections::BTreeSet;

use washline_book::{Record, Workspace};
use washline_measure::{Ounce, Unit};
use washline_text::{Edit, FileId};

use crate::convert::{millilitres, pourable};
use crate::rule::rule;
use crate::words::{ml, number};
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

use super::{Measured, System, measured, system};

rule! {
    /// # Why
    /// The US ounce is 29.6 ml, the imperial 28.4, and many bars pour 30: 4 to 5 % of every pour. Until the house says which, the figures read the US ounce. The book
    /// is told once, and only where a line has ounces with no millilitres beside them.
    ///
    /// # Flagged
    /// ```pour
    /// book: The Copper Heron
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   2 oz     gin
    ///   3/4 oz   lemon juice
    ///   3/4 oz   sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// book: The Copper Heron
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   2 oz   (60 ml)    gin
    ///   3/4 oz (22.5 ml)  lemon juice
    ///   3/4 oz (22.5 ml)  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// NIST Handbook 44, Appendix C (US); Weights and Measures Act 1985, Schedule 1 (imperial).
    "ambiguous-ounce", Measures, Information, Fixes::Unsafe, Check::Book(Together { circles, find }),
    why: "the same card pours 4 % more in one house than in the next"
}

/// How far the US and the imperial reading of a line must be apart to matter, ml: a third of
/// the smallest step that a jigger pours. Common practice, no source.
const MATTERS: f64 = 0.8;

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    let silent = !record.retired && !context.settings.ounce_said;
    if !silent || measured(record).all(|line| apart(&line).is_none()) {
        return Vec::new();
    }
    vec![Circle::of(&record.book.as_deref()).whole()]
}

fn find(_: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut told: BTreeSet<Option<&str>> = BTreeSet::new();
    for record in records {
        let book = record.book.as_deref();
        if told.contains(&book) {
            continue;
        }
        let Some((line, apart)) = measured(record).find_map(|line| Some((line, apart(&line)?)))
        else {
            continue;
        };
        told.insert(book);
        sink.report(report(records, record, &line, apart));
    }
}

/// The two readings of a line in ounces alone, ml, where they differ enough to matter.
fn apart(line: &Measured<'_>) -> Option<(f64, f64)> {
    if line.unit != Unit::Oz || !line.liquid() {
        return None;
    }
    if line.second().is_some_and(|unit| system(unit) == Some(System::Metric)) {
        return None;
    }
    let read = |ounce: Ounce| millilitres(&line.placed.measure, ounce);
    let (us, imperial) = (read(Ounce::Us)?, read(Ounce::Imperial)?);
    ((us - imperial).abs() >= MATTERS).then_some((us, imperial))
}

fn report(
    records: &[&Record],
    record: &Record,
    line: &Measured<'_>,
    (us, imperial): (f64, f64),
) -> Report {
    let said = line.placed.measure;
    let larger = us.max(imperial);
    let message = format!(
        "{said} is {} by the US ounce and {} by the imperial, {} % apart, and nobody says which is meant",
        ml(us),
        ml(imperial),
        number(100.0 * (us - imperial).abs() / larger),
    );
    let by_us = edits(records, record, |line| {
        let text = pourable(apart(line)?.0, Unit::Ml, Ounce::Us)?;
        Some(match line.line.second {
            Some(second) => Edit::new(second.span, format!("({text})")),
            None => Edit::insert(line.placed.span.end, format!(" ({text})")),
        })
    });
    let by_imperial = edits(records, record, |line| {
        apart(line)?;
        // A bracket in ounces says the same once more.
        let unit = line.placed.unit;
        let said = line.line.second.map_or(unit, |second| unit.cover(second.span));
        Some(Edit::new(said, Unit::ImpOz.name()))
    });
    Report::on(record, record.place(line.placed.span), message)
        .help("say `ounce = \"us\"`, `\"imperial\"` or `\"30 ml\"` in washline.toml, or write the millilitres beside it")
        .fix("write the millilitres beside each, by the US ounce", false, by_us)
        .fix("write each as imperial ounces", false, by_imperial)
}

/// One edit for each line of the book of `record` that is in ounces alone.
fn edits(
    records: &[&Record],
    record: &Record,
    edit: impl Fn(&Measured<'_>) -> Option<Edit>,
) -> Vec<(FileId, Edit)> {
    let mut out = Vec::new();
    for other in records.iter().filter(|other| other.book == record.book) {
        for line in measured(other) {
            if let Some(mut edit) = edit(&line) {
                edit.span = edit.span.shift(other.start);
                out.push((other.file, edit));
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed, message};

    #[test]
    fn a_book_is_told_once() {
        check(
            &RULE,
            "
drink: A
  1/4 oz gin
  2 oz rum
  ^^^^
drink: B
  2 oz gin
",
        );
    }

    #[test]
    fn both_readings_are_said() {
        let text = "drink: A\n  2 oz gin\n";
        let said = message(&RULE, text, "").unwrap();
        assert!(
            said.starts_with("2 oz is 59.1 ml by the US ounce and 56.8 ml by the imperial, 3.92 %"),
            "{said}"
        );
    }

    #[test]
    fn silent_where_the_house_said() {
        for ounce in ["\"us\"", "\"imperial\"", "30"] {
            check_under(&RULE, &format!("ounce = {ounce}\n"), "\ndrink: A\n  2 oz gin\n");
        }
    }

    /// Millilitres beside it, imperial ounces, solids by weight, spoons, and amounts too small.
    #[test]
    fn silent_where_nothing_hangs_on_it() {
        check(
            &RULE,
            "
drink: A
  2 oz (60 ml) gin
  60 ml (2 oz) rum
  2 imp oz brandy
  1/2 oz lime juice
  1/4 oz sugar syrup
  1 tsp absinthe
prep: B
  8 oz sugar
  1 cup water
drink: C
  status: retired
  2 oz gin
",
        );
    }

    #[test]
    fn the_millilitres_are_written_beside_every_line() {
        let text = "drink: A\n  2 oz gin\n  1/4 oz syrup\ndrink: B\n  1 1/2 oz rum\n";
        let after = fixed(&RULE, text, "").unwrap();
        assert!(
            after.contains("2 oz (60 ml) gin") && after.contains("1 1/2 oz (45 ml) rum"),
            "{after}"
        );
        assert!(after.contains("1/4 oz syrup"));
    }
}
