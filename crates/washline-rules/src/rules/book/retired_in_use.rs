//! A live card that pours what is no longer made, or not yet.

use std::collections::BTreeMap;

use washline_book::{EntryId, Read, Record, Referent, Workspace};
use washline_syntax::Key;
use washline_text::{Kind, Place};

use super::in_use;
use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A prep that is marked `status: retired` is on nobody's list any more, and a draft is on no list
    /// yet. A card on the list that pours one runs dry on the night. Last year's cards may pour last
    /// year's preps. Told once for each such prep or bottle, at the first card.
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
    ///   22.5 ml  Quarry Syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// prep: Quarry Syrup
    ///   status: retired
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
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  Quarry Syrup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// prep: Quarry Syrup
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
    /// Common practice, no source.
    "retired-in-use", Book, Warning, Fixes::None, Check::Book(Together { circles, find }),
    why: "nobody makes it, and the card runs dry on the night"
}

fn circles(context: &Context<'_>) -> Vec<Part> {
    if !in_use(context.record) {
        return Vec::new();
    }
    let out = pours_out(context.workspace, context.record);
    out.map(|(out, _)| Circle::of(&out.id).whole()).collect()
}

fn find(workspace: &Workspace, circle: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut uses: BTreeMap<EntryId, Vec<(&Record, Place)>> = BTreeMap::new();
    for record in records {
        let out = pours_out(workspace, record);
        for (out, read) in out.filter(|(out, _)| Circle::of(&out.id) == circle) {
            uses.entry(out.id).or_default().push((record, record.place(read.name_span)));
        }
    }
    for (id, users) in uses {
        if let Some(report) = report(workspace, id, &users) {
            sink.report(report);
        }
    }
}

/// What `record` pours that is out, each with the line that pours it.
fn pours_out<'a>(
    workspace: &'a Workspace,
    record: &'a Record,
) -> impl Iterator<Item = (&'a Record, &'a Read)> {
    record.reads.iter().chain(&record.garnishes).filter_map(|read| {
        // Where a live entry goes by the name too, that one is meant.
        let mut entries = read.resolution.hits.iter().filter_map(|hit| entry(workspace, *hit));
        let first = entries.next().filter(|first| is_out(first))?;
        entries.all(is_out).then_some((first, read))
    })
}

fn entry(workspace: &Workspace, referent: Referent) -> Option<&Record> {
    match referent {
        Referent::Entry(id) => workspace.record(id),
        Referent::Reference(_) => None,
    }
}

fn is_out(record: &Record) -> bool {
    record.retired || record.draft
}

fn report(workspace: &Workspace, id: EntryId, users: &[(&Record, Place)]) -> Option<Report> {
    const MOST: usize = 8;
    let out = workspace.record(id)?;
    let (first, place) = users.first()?;
    let (status, help) = match (out.kind, out.retired) {
        (Kind::Stock, true) => ("retired", "pour another bottle, or take its `status:` out"),
        (_, true) => ("retired", "pour what is made today, or take its `status:` out"),
        _ => ("a draft", "finish it, or keep the card a draft until then"),
    };
    let message = format!("{} is {status}, and {} pours it", out.name, first.name);
    let said = out.field(Key::Status).map_or(out.name_place(), |f| out.place(f.value_span));
    let mut report =
        Report::on(first, *place, message).help(help).related(said, format!("{status} here"));
    for (record, place) in users.iter().skip(1).take(MOST) {
        report = report.related(*place, format!("poured here too, in {}", record.name));
    }
    Some(report)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, message};

    #[test]
    fn it_is_told_at_the_first_card_that_pours_it() {
        check(
            &RULE,
            "
drink: A
  20 ml Old Syrup
        ^^^^^^^^^
drink: B
  20 ml Old Syrup
prep: Old Syrup
  status: retired
  100 g sugar
",
        );
        let text = "drink: A\n  20 ml Old Syrup\ndrink: B\n  20 ml Old Syrup\nprep: Old Syrup\n  \
                    status: retired\n  100 g sugar\n";
        let found = findings(text, "");
        let one = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert_eq!(one.related.len(), 2, "where it says so, and the second card");
    }

    #[test]
    fn a_draft_is_not_made_yet() {
        let text = "drink: A\n  20 ml New Syrup\nprep: New Syrup\n  status: draft\n  100 g sugar\n";
        let said = "New Syrup is a draft, and A pours it";
        assert_eq!(message(&RULE, text, "").as_deref(), Some(said));
    }

    #[test]
    fn a_bottle_or_a_garnish_counts() {
        check(
            &RULE,
            "
drink: A
  50 ml Row Gin
        ^^^^^^^
  garnish: Row Cherry
           ^^^^^^^^^^
stock: Row Gin
  status: retired
  kind: gin
prep: Row Cherry
  status: retired
  100 g cherries
",
        );
    }

    #[test]
    fn last_years_card_pours_last_years_prep() {
        check(
            &RULE,
            "
drink: A
  status: retired
  20 ml Old Syrup
drink: B
  status: draft
  20 ml Old Syrup
prep: Old Syrup
  status: retired
  100 g sugar
",
        );
    }

    #[test]
    fn a_prep_on_the_list_counts_as_a_card() {
        check(
            &RULE,
            "
prep: Batch
  20 ml Old Syrup
        ^^^^^^^^^
prep: Old Syrup
  status: retired
  100 g sugar
",
        );
    }

    #[test]
    fn a_live_entry_of_the_same_name_is_the_one_that_is_meant() {
        check(
            &RULE,
            "
drink: A
  20 ml House Syrup
prep: House Syrup
  status: retired
  100 g sugar
prep: House Syrup
  200 g sugar
",
        );
    }
}
