//! Bottles that nothing pours.

use std::collections::{BTreeMap, BTreeSet};

use washline_book::{Read, Record, Referent, Workspace};
use washline_reference::ingredient;
use washline_text::{FileId, Kind, fold};

use super::in_use;
use crate::rule::rule;
use crate::words::some;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A bottle that no card names is capital on a shelf, or the cards mean it and say something
    /// else: a line that says `gin` is the gin of the reference until a `stock:` entry says `also: gin`,
    /// and its strength and cost are then not this bottle's. Told once a file. Books without drinks
    /// are left alone: what pours their bottles is elsewhere.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    pear brandy
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// stock: Orchard Row
    ///   kind: pear brandy
    ///   abv: 43 %
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
    ///   60 ml    pear brandy
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// stock: Orchard Row
    ///   also: pear brandy
    ///   kind: pear brandy
    ///   abv: 43 %
    ///   contains: none
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "unused-stock", Book, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "its strength and cost enter no drink, though a card may mean it"
}

fn circles(context: &Context<'_>) -> Vec<Part> {
    let Context { workspace, record, .. } = context;
    let bottle = record.kind == Kind::Stock && !record.key.is_empty();
    if !bottle || !in_use(record) || is_poured(workspace, record) {
        return Vec::new();
    }
    vec![Circle::of(workspace.file_name(record.file)).whole()]
}

fn find(workspace: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    if records.is_empty() {
        return;
    }
    let used = || workspace.records().iter().filter(|record| in_use(record));
    if used().all(|record| record.kind != Kind::Drink) {
        return;
    }
    let kinds = records.iter().filter_map(|bottle| Some(bottle.reaches.first()?.0));
    let poured = poured_of(&kinds.collect(), used());
    let mut idle: BTreeMap<FileId, Vec<&Record>> = BTreeMap::new();
    for &record in records {
        idle.entry(record.file).or_default().push(record);
    }
    for bottles in idle.values() {
        if let Some(report) = report(bottles, &poured) {
            sink.report(report);
        }
    }
}

fn is_poured(workspace: &Workspace, record: &Record) -> bool {
    let users = workspace.users(record.id).iter();
    users.filter_map(|id| workspace.record(*id)).any(|user| !user.retired)
}

/// Those of `kinds` of the reference that lines name where they could name a bottle.
fn poured_of<'a>(
    kinds: &BTreeSet<u16>,
    records: impl Iterator<Item = &'a Record>,
) -> BTreeSet<u16> {
    let plain = |read: &&Read| matches!(read.referent(), Some(Referent::Reference(_)));
    let reads = records.flat_map(|record| &record.reads).filter(plain);
    reads.filter_map(|read| read.ingredient).filter(|kind| kinds.contains(kind)).collect()
}

fn report(bottles: &[&Record], poured: &BTreeSet<u16>) -> Option<Report> {
    let first = bottles.first()?;
    let names: Vec<&str> = bottles.iter().map(|record| &*record.name).collect();
    let message = match names.as_slice() {
        [one] => format!("nothing pours {one}"),
        names => format!("nothing pours {}", some(names)),
    };
    let meant = bottles.iter().find_map(|bottle| {
        let (id, _) = bottle.reaches.first()?;
        poured.contains(id).then_some((bottle, ingredient(*id)?))
    });
    let report = Report::on(first, first.name_place(), message).key("unused");
    Some(match meant {
        Some((bottle, kind)) if fold(&bottle.name) != fold(kind.name) => report.help(format!(
            "where a line that says {} means {}, write `also: {}` under it",
            kind.name, bottle.name, kind.name
        )),
        _ => report.help("name it on the line that pours it, or mark it `status: retired`"),
    })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, message};

    #[test]
    fn it_is_told_once_a_file() {
        let text = "
drink: A
  60 ml gin
stock: Row Rum
       ^^^^^^^
  kind: rum
stock: Row Vodka
  kind: vodka
";
        check(&RULE, text);
        let plain = text.replace("       ^^^^^^^\n", "");
        let said = "nothing pours Row Rum and Row Vodka";
        assert_eq!(message(&RULE, &plain, "").as_deref(), Some(said));
    }

    #[test]
    fn a_line_that_may_mean_it_is_shown() {
        let text = "drink: A\n  60 ml gin\nstock: Row Dry\n  kind: gin\n";
        let found = findings(text, "");
        let one = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert_eq!(
            one.help,
            "where a line that says gin means Row Dry, write `also: gin` under it"
        );
    }

    #[test]
    fn another_name_a_prep_or_a_garnish_pours_it() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  20 ml Hedge Syrup
  garnish: Row Cherries
stock: Row Dry
  also: gin
  kind: gin
stock: Row Honey
  kind: honey
stock: Row Cherries
  kind: cherry
prep: Hedge Syrup
  100 g Row Honey
  50 g water
",
        );
    }

    #[test]
    fn a_list_of_bottles_without_drinks_is_left_alone() {
        check(&RULE, "stock: Row Rum\n  kind: rum\nprep: B\n  100 g sugar\n");
    }

    #[test]
    fn what_is_no_longer_bought_is_left_alone() {
        check(
            &RULE,
            "drink: A\n  60 ml gin\nstock: Row Rum\n  status: retired\n  kind: rum\n\
             stock: Row Vodka\n  status: draft\n  kind: vodka\n",
        );
    }

    #[test]
    fn what_only_last_years_card_pours_stands_idle() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
drink: B
  status: retired
  60 ml Row Rum
stock: Row Rum
       ^^^^^^^
  kind: rum
",
        );
    }
}
