//! A plain syrup that does not say how sweet it is.

use std::collections::{BTreeMap, BTreeSet};

use washline_book::{Read, Record, Referent, Workspace};
use washline_reference::Trait;
use washline_syntax::Property;
use washline_text::{Edit, FileId, Place, Span};

use super::{Uses, on_the_list, users, with_uses};
use crate::lines::in_line;
use crate::rule::rule;
use crate::words::some;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// Of two bottles called sugar syrup one holds a third more sugar than the other: 100 g of
    /// 1:1 holds 50 g, 100 g of 2:1 holds 67 g. A house that has said its default means that by
    /// the bare name, as long as it pours no other. It is told once a book, and it is no fault
    /// of the drink: the figures span both until somebody says.
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
    ///   22.5 ml  sugar syrup
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
    /// Both proportions are common practice, no source; the masses follow from them.
    "which-syrup", Names, Information, Fixes::Unsafe, Check::Book(Together { circles, find }),
    why: "1:1 and 2:1 are a third of the sugar apart"
}

/// A plain syrup in one book: the lines that do not say its ratio, and the ratios of those that do.
#[derive(Default)]
struct Syrup<'a> {
    bare: Uses<'a>,
    ends: Vec<(FileId, u32)>,
    ratios: BTreeSet<String>,
}

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    if !on_the_list(context) {
        return Vec::new();
    }
    let part = |read| {
        let circle = circle(record, plain_syrup(read)?);
        // Many pour it: nothing else of them counts but this line.
        Some(match ratio(record, read) {
            Some(ratio) => circle.saying(&ratio),
            None => circle.saying(&(in_line(record, read.span), record.text(read.span))),
        })
    };
    record.reads.iter().filter_map(part).collect()
}

fn circle(record: &Record, syrup: u16) -> Circle {
    Circle::of(&(record.book.as_deref(), syrup))
}

fn find(workspace: &Workspace, of: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut syrups: BTreeMap<(Option<&str>, u16), Syrup<'_>> = BTreeMap::new();
    for &record in records {
        for read in &record.reads {
            let Some(id) = plain_syrup(read) else { continue };
            if circle(record, id) != of {
                continue;
            }
            let syrup = syrups.entry((record.book.as_deref(), id)).or_default();
            match ratio(record, read) {
                Some(ratio) => {
                    syrup.ratios.insert(ratio);
                }
                None => syrup.take(record, read),
            }
        }
    }
    for syrup in syrups.values() {
        let Some((record, place)) = syrup.bare.first() else { continue };
        let said = workspace.settings_of(record).default_syrup.is_some();
        if !said || syrup.ratios.len() > 1 {
            sink.report(report(workspace, syrup, record, *place, said));
        }
    }
}

/// The plain syrup of the reference that a line means; an own prep or bottle says what it is.
fn plain_syrup(read: &Read) -> Option<u16> {
    let id = read.ingredient.filter(|_| read.is(Trait::PlainSyrup))?;
    (read.referent() == Some(Referent::Reference(id))).then_some(id)
}

/// What a line says of its syrup's sugar, as written.
fn ratio(record: &Record, read: &Read) -> Option<String> {
    let said = read.properties.iter().find(|(_, property)| {
        matches!(
            property,
            Property::Ratio { .. } | Property::Brix(_) | Property::Sugar(_) | Property::Percent(_)
        )
    });
    said.map(|(span, _)| washline_text::fold(record.text(*span)))
}

impl<'a> Syrup<'a> {
    fn take(&mut self, record: &'a Record, read: &Read) {
        self.bare.push((record, record.place(read.name_span)));
        let end = match read.resolution.qualifier {
            Some(_) => read.span.end,
            None => read.name_span.end,
        };
        self.ends.push((record.file, record.start + end));
    }
}

fn report(
    workspace: &Workspace,
    syrup: &Syrup<'_>,
    record: &Record,
    place: Place,
    said: bool,
) -> Report {
    let written = workspace.text(place);
    let who = users(&syrup.bare);
    let ratios: Vec<&str> = syrup.ratios.iter().map(String::as_str).collect();
    let because = match ratios.as_slice() {
        [] | [_] => "the house has not said which it pours".to_owned(),
        _ => format!("the house pours {}", some(&ratios)),
    };
    let message = match who.as_slice() {
        [_] => format!("`{written}` says no ratio, and {because}"),
        many => format!(
            "`{written}` says no ratio in {} entries ({}), and {because}",
            many.len(),
            some(many)
        ),
    };
    let house =
        if said { "" } else { ", or the house's in `washline.toml`: `default-syrup = \"1:1\"`" };
    let mut report = Report::on(record, place, message)
        .help(format!("write the ratio behind the name, as in `{written}, 1:1`{house}"))
        .key(washline_text::fold(written));
    report = with_uses(report, &syrup.bare);
    for ratio in ["1:1", "2:1"] {
        report = report.fix(format!("write `{written}, {ratio}`"), false, syrup.write(ratio));
    }
    report
}

impl Syrup<'_> {
    /// One act that writes `ratio` on every line that says none.
    fn write(&self, ratio: &str) -> Vec<(FileId, Edit)> {
        let mut ends = self.ends.clone();
        ends.sort_unstable();
        ends.dedup();
        let edit =
            |(file, end): (FileId, u32)| (file, Edit::new(Span::at(end), format!(", {ratio}")));
        ends.into_iter().map(edit).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed, message};

    #[test]
    fn told_once_a_book() {
        check(
            &RULE,
            "
drink: A
  20 ml sugar syrup
        ^^^^^^^^^^^

drink: B
  20 ml simple syrup
",
        );
        let text = "drink: A\n  9 ml syrup\n\ndrink: B\n  9 ml sugar syrup (2 tsp)\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some(
                "`syrup` says no ratio in 2 entries (A and B), and the house has not said which it pours"
            )
        );
        assert_eq!(
            fixed(&RULE, text, "").as_deref(),
            Some("drink: A\n  9 ml syrup, 1:1\n\ndrink: B\n  9 ml sugar syrup, 1:1 (2 tsp)\n")
        );
    }

    #[test]
    fn what_says_its_sugar_is_silent() {
        check(
            &RULE,
            "
drink: A
  20 ml sugar syrup, 1:1
  20 ml 2:1 sugar syrup
  20 ml sugar syrup, 66 brix
  20 ml rich sugar syrup
  20 ml maple syrup
  20 ml agave syrup
",
        );
    }

    #[test]
    fn an_own_prep_or_bottle_says_what_it_is() {
        check(
            &RULE,
            "
drink: A
  20 ml honey syrup
  20 ml gomme syrup

prep: Honey Syrup
  300 g honey
  100 g water

stock: Orchard Row Gomme
  also: gomme syrup
  kind: gomme syrup
  brix: 66
",
        );
    }

    #[test]
    fn a_house_that_said_its_default_means_that() {
        let one = "drink: A\n  20 ml sugar syrup\n  20 ml sugar syrup, 2:1\n";
        check_under(&RULE, "default-syrup = \"1:1\"\n", one);
    }

    #[test]
    fn with_two_in_the_house_the_bare_name_is_either() {
        check_under(
            &RULE,
            "default-syrup = \"1:1\"\n",
            "
drink: A
  20 ml sugar syrup
        ^^^^^^^^^^^
  20 ml sugar syrup, 2:1
  20 ml sugar syrup, 1:1
",
        );
    }
}
