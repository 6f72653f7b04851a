//! A prep that nothing pours.

use washline_book::{Record, Workspace};

use super::on_the_list;
use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A prep that no drink and no other prep uses is made for nothing, or it is meant and the
    /// drink names something else. A book of preps with no drinks in it is left alone: what
    /// pours them is elsewhere.
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
    "unused-prep", Names, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "it is made and kept for nothing, or a drink names the wrong thing"
}

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    let made = on_the_list(context) && context.is_prep() && !record.draft;
    if made { vec![Circle::of(&record.id).whole()] } else { Vec::new() }
}

fn find(workspace: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    if !workspace.has_drinks() {
        return;
    }
    for record in records {
        if !is_used(workspace, record) {
            sink.report(report(workspace, record));
        }
    }
}

/// Whether an entry on the list pours it.
fn is_used(workspace: &Workspace, record: &Record) -> bool {
    let users = workspace.users(record.id);
    users.iter().filter_map(|id| workspace.record(*id)).any(|user| !user.retired)
}

fn report(workspace: &Workspace, record: &Record) -> Report {
    let message = match workspace.users(record.id) {
        [] => format!("no drink and no prep uses {}", record.name),
        _ => format!("only what is retired uses {}", record.name),
    };
    Report::on(record, record.name_place(), message)
        .help("name it on the line that pours it, or mark it `status: retired`")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_prep_that_nothing_names_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin

prep: Quarry Syrup
      ^^^^^^^^^^^^
  100 g sugar
  100 g water
",
        );
    }

    #[test]
    fn used_by_another_name_by_a_prep_or_as_a_garnish_is_used() {
        check(
            &RULE,
            "
drink: A
  60 ml quarry sweet
  garnish: Pickled Pear

prep: Quarry Syrup
  also: quarry sweet
  100 ml Base Syrup

prep: Base Syrup
  100 g sugar
  100 g water

prep: Pickled Pear
  100 g pear
  100 g cider vinegar
",
        );
    }

    #[test]
    fn one_that_only_last_years_list_pours_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin

drink: B
  status: retired
  20 ml Quarry Syrup

prep: Quarry Syrup
      ^^^^^^^^^^^^
  100 g sugar
  100 g water
",
        );
    }

    #[test]
    fn drafts_and_retired_preps_are_left_alone() {
        check(
            &RULE,
            "
drink: A
  60 ml gin

prep: Quarry Syrup
  status: draft
  100 g sugar

prep: Pier Syrup
  status: retired
  100 g sugar
",
        );
    }

    #[test]
    fn a_book_of_preps_alone_is_left_alone() {
        check(
            &RULE,
            "
prep: Quarry Syrup
  100 g sugar
  100 g water
",
        );
    }
}
