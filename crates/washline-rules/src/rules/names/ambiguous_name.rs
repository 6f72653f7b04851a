//! A name that means two entries at once.

use std::collections::BTreeMap;

use washline_book::{Read, Record, Referent, Workspace};
use washline_text::{FileId, Place, fold};

use super::{Uses, on_the_list, rewrite, users, with_uses};
use crate::rule::rule;
use crate::words::{list, some};
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A name that two preps or bottles answer to is poured from whichever stands nearer. The
    /// figures then span both and the allergens are those of both, until the spec says which.
    /// The nearest place answers: the file, then its book, then the workspace; two in one
    /// place are two answers.
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
    ///   22.5 ml  house syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// prep: Plain Syrup
    ///   also: house syrup
    ///   yields: 810 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// stock: Orchard Row Cane Syrup
    ///   also: house syrup
    ///   kind: cane syrup
    ///   brix: 50
    ///   contains: none
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
    ///   22.5 ml  Plain Syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// prep: Plain Syrup
    ///   also: house syrup
    ///   yields: 810 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 g  sugar
    ///   500 g  water
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    /// ```
    ///
    /// # Source
    /// The notation: the first level with a hit answers; two hits in one level are ambiguous.
    "ambiguous-name", Names, Warning, Fixes::Unsafe, Check::Book(Together { circles, find }),
    why: "one hand pours one, the next hand the other"
}

/// A name folded, and where the entries that it means stand.
type Name = (String, Vec<(FileId, u32)>);

fn circles(context: &Context<'_>) -> Vec<Part> {
    if !on_the_list(context) {
        return Vec::new();
    }
    let reads = context.record.reads.iter().chain(&context.record.garnishes);
    reads.filter(|read| read.resolution.hits.len() > 1).map(|read| circle(read).whole()).collect()
}

fn circle(read: &Read) -> Circle {
    Circle::of(&*fold(&read.name))
}

fn find(workspace: &Workspace, of: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut names: BTreeMap<Name, (Vec<&Record>, Uses<'_>)> = BTreeMap::new();
    for &record in records {
        for read in record.reads.iter().chain(&record.garnishes) {
            let Some(several) = several(workspace, &read.resolution.hits) else { continue };
            if circle(read) != of {
                continue;
            }
            let use_ = (record, name_place(record, read));
            let places = several.iter().map(|entry| (entry.file, entry.start)).collect();
            let found = names.entry((fold(&read.name), places)).or_default();
            found.0 = several;
            found.1.push(use_);
        }
    }
    for (several, uses) in names.values() {
        if let Some(report) = report(workspace, several, uses) {
            sink.report(report);
        }
    }
}

/// The entries on the list that a name means, where they are several and none is a mere
/// double of another, which is told as such.
fn several<'a>(workspace: &'a Workspace, hits: &[Referent]) -> Option<Vec<&'a Record>> {
    if hits.len() < 2 {
        return None;
    }
    let entry = |hit: &Referent| match hit {
        Referent::Entry(id) => workspace.record(*id).filter(|record| !record.retired),
        Referent::Reference(_) => None,
    };
    let entries: Vec<&Record> = hits.iter().filter_map(entry).collect();
    let (first, others) = entries.split_first()?;
    let apart = others.iter().any(|other| !super::duplicate_entry::are_double(first, other));
    apart.then_some(entries)
}

fn name_place(record: &Record, read: &Read) -> Place {
    record.place(read.name_span)
}

fn report(workspace: &Workspace, entries: &[&Record], uses: &Uses<'_>) -> Option<Report> {
    let (record, place) = uses.first()?;
    let named: Vec<String> =
        entries.iter().map(|entry| format!("the {} {}", entry.kind.name(), entry.name)).collect();
    let written = workspace.text(*place);
    let who = users(uses);
    let message = match who.as_slice() {
        [_] => format!("`{written}` means {}", list(&named)),
        many => format!("`{written}` means {}, in {}", list(&named), some(many)),
    };
    let help = "write the name of the one that is poured, or give the two names of their own";
    let mut report = Report::on(record, *place, message).help(help).key(fold(written));
    for entry in entries {
        report = report.related(entry.name_place(), format!("this {}", entry.kind.name()));
    }
    report = with_uses(report, uses);
    for entry in entries {
        let alone = workspace.meaning(&entry.name, record).hits == [Referent::Entry(entry.id)];
        if alone {
            let title = format!("write `{}`", entry.name);
            report = report.fix(title, false, rewrite(uses, &entry.name));
        }
    }
    Some(report)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    const TWO: &str = "drink: A\n  60 ml house rum\n\nstock: Pier Rum\n  also: house rum\n  \
        kind: white rum\n\nstock: Quay Rum\n  also: house rum\n  kind: dark rum\n";

    #[test]
    fn says_which_two() {
        assert_eq!(
            message(&RULE, TWO, "").as_deref(),
            Some("`house rum` means the stock Pier Rum and the stock Quay Rum")
        );
        assert!(fixed(&RULE, TWO, "").unwrap().starts_with("drink: A\n  60 ml Pier Rum\n"));
    }

    #[test]
    fn a_prep_and_a_bottle_of_one_name_are_two() {
        check(
            &RULE,
            "
drink: A
  20 ml Cane Syrup
        ^^^^^^^^^^

prep: Cane Syrup
  100 g sugar
  100 g water

stock: Cane Syrup
  kind: cane syrup
",
        );
    }

    #[test]
    fn told_once_for_all_that_use_it() {
        check(
            &RULE,
            "
drink: A
  60 ml house rum
        ^^^^^^^^^

drink: B
  60 ml house rum

stock: Pier Rum
  also: house rum
  kind: white rum

stock: Quay Rum
  also: house rum
  kind: dark rum
",
        );
    }

    #[test]
    fn an_own_entry_beats_the_reference_and_a_double_is_told_as_one() {
        check(
            &RULE,
            "
drink: A
  20 ml honey syrup
  20 ml Plain Syrup

prep: Honey Syrup
  100 g honey
  100 g water

prep: Plain Syrup
  100 g sugar
  100 g water

prep: Plain Syrup
  200 g sugar
  100 g water
",
        );
    }

    #[test]
    fn a_retired_namesake_is_no_second_meaning() {
        check(
            &RULE,
            "
drink: A
  60 ml house rum

stock: Pier Rum
  also: house rum
  kind: white rum

stock: Quay Rum
  also: house rum
  kind: dark rum
  status: retired
",
        );
    }
}
