//! A prep that needs itself.

use washline_book::{EntryId, Record, Referent, Workspace};
use washline_text::Span;

use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A prep that is made from itself can never be begun, so neither it nor any drink that
    /// pours it has figures. A solera is another thing: "of the last batch" is no line of the
    /// recipe but a line of the book, under another name.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Heron Cordial
    ///   yields: 560 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 ml  Quay Cordial
    ///   100 g   sugar
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// prep: Quay Cordial
    ///   yields: 810 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 ml  Heron Cordial
    ///   300 g   water
    ///
    ///   - stir until even
    ///   - bottle, label, refrigerate
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Heron Cordial
    ///   yields: 560 ml
    ///   keeps: 2 weeks chilled
    ///
    ///   500 ml  Quay Cordial
    ///   100 g   sugar
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// prep: Quay Cordial
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
    /// The notation: a prep is composed of what its lines name, itself left out.
    "prep-cycle", Names, Error, Fixes::None, Check::Book(Together { circles, find }),
    why: "it can never be begun, and no drink that pours it can be computed"
}

/// The rings are known already; they change only where a prep does.
fn circles(context: &Context<'_>) -> Vec<Part> {
    if context.is_prep() { vec![Circle::ONE.whole()] } else { Vec::new() }
}

fn find(workspace: &Workspace, _: Circle, _: &[&Record], sink: &mut Sink<'_>) {
    for ring in workspace.cycles() {
        let records: Vec<&Record> = ring.iter().filter_map(|id| workspace.record(*id)).collect();
        if let Some(report) = report(&records) {
            sink.report(report);
        }
    }
}

/// At the first prep's line that leads on, with the lines of the others behind it.
fn report(ring: &[&Record]) -> Option<Report> {
    let (first, others) = ring.split_first()?;
    let next = |at: usize| ring.get((at + 1) % ring.len()).map_or(first.id, |record| record.id);
    let message = match others {
        [] => format!("{} is made from itself", first.name),
        others => {
            let names: Vec<&str> = others.iter().map(|record| &*record.name).collect();
            format!("{} needs {}, which needs it", first.name, names.join(", which needs "))
        }
    };
    let mut report = Report::on(first, first.place(line_of(first, next(0))), message)
        .help("take one line of the ring out, or name what it stands for: the last batch needs a name of its own");
    for (at, record) in others.iter().enumerate() {
        let place = record.place(line_of(record, next(at + 1)));
        report = report.related(place, format!("{} leads on here", record.name));
    }
    Some(report)
}

/// The name on the line of `record` that means `id`.
fn line_of(record: &Record, id: EntryId) -> Span {
    let means = |referent: Referent| referent == Referent::Entry(id);
    let read = record.reads.iter().find(|read| read.referents().any(means));
    read.map_or(record.entry.name, |read| read.name_span)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn a_ring_is_told_once() {
        check(
            &RULE,
            "
prep: A Cordial
  100 ml B Cordial
         ^^^^^^^^^

prep: B Cordial
  100 ml C Cordial

prep: C Cordial
  100 ml A Cordial
",
        );
    }

    #[test]
    fn the_way_round_is_said() {
        let text = "prep: A Mix\n  9 ml B Mix\n\nprep: B Mix\n  9 ml A Mix\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some("A Mix needs B Mix, which needs it"));
    }

    #[test]
    fn a_prep_of_preps_is_no_ring() {
        check(
            &RULE,
            "
prep: A Cordial
  100 ml B Cordial
  100 ml C Cordial

prep: B Cordial
  100 ml C Cordial

prep: C Cordial
  100 g sugar
  100 g water
",
        );
    }

    #[test]
    fn a_prep_may_be_named_as_what_it_is_made_of() {
        check(
            &RULE,
            "
prep: Honey
  100 g honey
  20 g water

prep: Sweet Vermouth
  700 ml sweet vermouth
  10 g orange peel
",
        );
    }

    #[test]
    fn a_solera_is_no_ring() {
        check(
            &RULE,
            "
prep: Solera Punch
  1 l dark rum
  500 ml Old Batch, of the last batch

stock: Old Batch
  kind: rum
",
        );
    }
}
