//! A prep that does not say how long it keeps.

use std::collections::BTreeMap;

use washline_book::{Record, Shelf, Workspace};
use washline_syntax::Key;

use super::{on, time};
use crate::rule::rule;
use crate::words::some;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A bottle with no date is sniffed, argued over and poured. The card says how long, so that
    /// the label can, and so that nobody makes more than is sold in that time. Where no prep of a
    /// book says it, that is told once.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Cinnamon Syrup
    ///   yields: 750 ml
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///   20 g   cinnamon stick
    ///
    ///   - simmer for 5 min, rest for 2 hours, fine strain
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    aged rum
    ///   22.5 ml  lime juice
    ///   22.5 ml  cinnamon syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Cinnamon Syrup
    ///   yields: 750 ml
    ///   keeps: 3 weeks chilled
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///   20 g   cinnamon stick
    ///
    ///   - simmer for 5 min, rest for 2 hours, fine strain
    ///   - cool, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    aged rum
    ///   22.5 ml  lime juice
    ///   22.5 ml  cinnamon syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// Common practice, no source; local codes decide how long at the most.
    "no-keeping-time", Preps, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "a bottle with no date is sniffed, argued over and poured"
}

/// The preps of one book: how many say how long, and those that do not.
#[derive(Default)]
struct Preps<'a> {
    said: usize,
    silent: Vec<&'a Record>,
}

/// Fewer than this many preps are each told of by themselves.
const A_BOOK: usize = 3;

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    // An empty heading is a prep still being written.
    let written = !record.name.is_empty() && !record.reads.is_empty();
    let made = context.is_prep() && !record.retired && !record.draft && written;
    if made { vec![Circle::of(&record.book.as_deref()).whole()] } else { Vec::new() }
}

fn find(workspace: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut books: BTreeMap<Option<&str>, Preps<'_>> = BTreeMap::new();
    for &record in records {
        let preps = books.entry(record.book.as_deref()).or_default();
        match record.field(Key::Keeps) {
            Some(_) => preps.said += 1,
            None => preps.silent.push(record),
        }
    }
    let file = |record: &Record| workspace.file_name(record.file).to_owned();
    for preps in books.values_mut() {
        // Files come in any order.
        preps.silent.sort_by_key(|record| (file(record), record.start));
        match preps.silent.as_slice() {
            [first, ..] if preps.said == 0 && preps.silent.len() >= A_BOOK => {
                sink.report(of_book(first, &preps.silent));
            }
            each => each.iter().for_each(|record| sink.report(of_prep(record))),
        }
    }
}

fn of_book(first: &Record, all: &[&Record]) -> Report {
    let names: Vec<&str> = all.iter().map(|record| &*record.name).collect();
    let message = format!("no prep of the book says how long it keeps: {}", some(&names));
    Report::on(first, first.name_place(), message)
        .help("write `keeps:` on each, such as `keeps: 2 weeks chilled`")
        .key("no keeping time in the book")
}

fn of_prep(record: &Record) -> Report {
    let message = format!("{} does not say how long it keeps", record.name);
    let shelf = record.shelf().unwrap_or(Shelf::Fridge);
    let usual = record.life(shelf).map(|life| {
        let (time, on) = (time(life.usual), on(shelf));
        format!(" (by sugar, alcohol and acid bars give such a thing about {time} {on})")
    });
    let help = format!(
        "write `keeps:` with a time and a place, such as `keeps: 2 weeks chilled`{}",
        usual.unwrap_or_default()
    );
    Report::on(record, record.name_place(), message).help(help)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, message};

    #[test]
    fn a_prep_among_others_that_say_it() {
        check(
            &RULE,
            "
prep: Honey Syrup
  keeps: 2 weeks chilled
  300 g honey
  100 g water
prep: Ginger Syrup
      ^^^^^^^^^^^^
  300 g ginger juice
  300 g sugar
",
        );
        check(&RULE, "\nprep: A\n      ^\n  300 g honey\n  100 g water\n");
    }

    #[test]
    fn a_whole_book_is_told_once() {
        let text = "prep: A\n  1 l water\nprep: B\n  1 l water\nprep: C\n  1 l water\n";
        check(
            &RULE,
            "
prep: A
      ^
  1 l water
prep: B
  1 l water
prep: C
  1 l water
",
        );
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("no prep of the book says how long it keeps: A, B and C")
        );
    }

    #[test]
    fn the_usual_time_is_offered() {
        let text = "prep: A\n  500 g sugar\n  500 g water\n  - refrigerate\n";
        let found = findings(text, "");
        let finding = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert!(finding.help.contains("about 4 weeks in the fridge"), "{}", finding.help);
    }

    /// A draft, last year's prep, a stock entry, a drink; and a time without a place.
    #[test]
    fn silent_where_nothing_is_owed() {
        check(
            &RULE,
            "
prep: A
  status: draft
  300 g honey
  100 g water
prep: B
  status: retired
  300 g honey
  100 g water
stock: C
  kind: gin
drink: D
  60 ml gin
prep: E
  keeps: 3 days
  1 l cold brew coffee
",
        );
    }
}
