//! Two entries of one kind and one name.

use std::collections::BTreeMap;

use washline_book::{Record, Workspace};
use washline_text::{Edit, FileId, Kind, Span};

use super::on_the_list;
use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// Two cards with one name are two drinks that leave the bar under one name. In one file,
    /// or in one named book, an entry of a kind has its name to itself; a version that is no
    /// longer poured says `status: retired`, and `#1` and `#2` are two names.
    ///
    /// # Flagged
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
    ///
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   60 ml    gin
    ///   30 ml    dry vermouth
    ///
    ///   - stir with ice for 30 s, strain
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
    ///
    /// drink: Slate Ferry
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   60 ml    gin
    ///   30 ml    dry vermouth
    ///
    ///   - stir with ice for 30 s, strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 675 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// prep: Honey Syrup
    ///   yields: 675 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even, bottle, label, refrigerate
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Honey Syrup
    ///   yields: 675 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   600 g  honey
    ///   300 g  water
    ///
    ///   - stir until even, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  honey syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: a kind and a name stand once in a file and once in a named book.
    "duplicate-entry", Names, Error, Fixes::Unsafe, Check::Book(Together { circles, find }),
    why: "nobody can say which of the two is poured"
}

/// Where a name must be the only one.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Within<'a> {
    File(FileId),
    Book(&'a str),
}

fn circles(context: &Context<'_>) -> Vec<Part> {
    let Context { workspace, record, .. } = context;
    let double = on_the_list(context) && workspace.has_namesake(record);
    if double { vec![Circle::of(&(record.kind, &*record.key)).whole()] } else { Vec::new() }
}

fn find(_: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut first: BTreeMap<(Within<'_>, Kind, &str), &Record> = BTreeMap::new();
    for &record in records {
        let within = match &record.book {
            Some(book) => Within::Book(book),
            None => Within::File(record.file),
        };
        let key = (within, record.kind, &*record.key);
        match first.get(&key) {
            Some(earlier) => sink.report(report(record, earlier)),
            None => {
                first.insert(key, record);
            }
        }
    }
}

/// Whether one of the two is a double of the other.
pub(super) fn are_double(a: &Record, b: &Record) -> bool {
    let together = a.file == b.file || (a.book.is_some() && a.book == b.book);
    together && a.kind == b.kind && a.key == b.key
}

fn report(record: &Record, earlier: &Record) -> Report {
    let (kind, name) = (record.kind.name(), &record.name);
    let place = match &record.book {
        Some(_) if record.file != earlier.file => "in this book",
        _ => "in this file",
    };
    let report = Report::on(record, record.name_place(), format!("a second {kind} {name} {place}"))
        .help("give one of them another name, or mark the one that is no longer poured `status: retired`")
        .related(earlier.name_place(), format!("the first {kind} {name}"));
    let [text, first] = [record, earlier].map(|record| record.entry.text.trim_end());
    if text != first {
        return report;
    }
    let whole = Span::new(0, u32::try_from(text.len()).unwrap_or(u32::MAX));
    let edit = Edit::new(whole.shift(record.start), "");
    report.fix("take the second out: they are the same", false, vec![(record.file, edit)])
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use washline_book::{Settings, Workspace};

    use super::RULE;
    use crate::harness::check;

    #[test]
    fn the_second_is_pointed_at() {
        check(
            &RULE,
            "
drink: Lantern Row
  60 ml gin

drink: lantern-row
       ^^^^^^^^^^^
  60 ml rum
",
        );
    }

    #[test]
    fn preps_and_stock_have_their_names_to_themselves() {
        check(
            &RULE,
            "
prep: Honey Syrup
  100 g honey
  100 g water

prep: Honey Syrup
      ^^^^^^^^^^^
  200 g honey
  100 g water

stock: Honey Syrup
  kind: honey syrup
",
        );
    }

    #[test]
    fn numbers_and_retired_versions_are_other_entries() {
        check(
            &RULE,
            "
drink: Lantern Row #1
  60 ml gin

drink: Lantern Row #2
  60 ml rum

drink: Quarry Lane
  status: retired
  60 ml gin

drink: Quarry Lane
  60 ml rum

drink:
  60 ml rum

drink:
  60 ml gin
",
        );
    }

    /// What `a.pour` and `b.pour` with these first lines give.
    fn two_files(head: &str) -> usize {
        let text = format!("{head}drink: Lantern Row\n  60 ml gin\n");
        let file = |name: &str| (Arc::from(name), Arc::from(text.as_str()));
        let files = vec![file("a.pour"), file("b.pour")];
        let found = crate::check(&Workspace::new(files, Settings::default()));
        found.iter().filter(|finding| finding.rule == RULE.name).count()
    }

    #[test]
    fn two_files_are_two_places_unless_they_are_one_book() {
        assert_eq!(two_files(""), 0);
        assert_eq!(two_files("book: The Copper Heron\n\n"), 1);
    }
}
