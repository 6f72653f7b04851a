//! The lines of an entry for another number of serves.

use washline_book::{Record, Workspace};
use washline_format::{Fractions, spell};
use washline_measure::{Exact, Form, Measure, Quantity, Unit};
use washline_syntax::{Amount, AmountWord, Ingredient, Key, LineKind, Placed, Value};
use washline_text::{Edit, FileId, Kind, Span};

use super::{Action, ActionKind, Deferred, Does};
use crate::Edits;
use crate::cursor::{Cursor, entry_at, record_at};

/// The numbers of serves that are offered: one, a round for a table, a jug.
const SERVES: &[u32] = &[1, 2, 4, 10, 20];

/// On the heading of a drink, or its `serves`, the scaling of its lines.
pub(super) fn actions(workspace: &Workspace, file: FileId, span: Span) -> Vec<Action> {
    let Some(cursor) = Cursor::at(workspace, file, span.start) else { return Vec::new() };
    let Some((_, line)) = cursor.line else { return Vec::new() };
    let here = match &line.what {
        LineKind::Heading(_) => true,
        LineKind::Field(field) => field.key == Some(Key::Serves),
        _ => false,
    };
    let Some(record) = cursor.record.filter(|_| here) else { return Vec::new() };
    let scales = |serves: &&u32| edits(record, **serves).is_some();
    let action = |serves: &u32| Action {
        title: match serves {
            1 => "scale to one serve".to_owned(),
            serves => format!("scale to {serves} serves"),
        },
        kind: ActionKind::Rewrite,
        preferred: false,
        answers: Vec::new(),
        does: Does::Deferred(Deferred::Scale { entry: record.start, serves: *serves }),
    };
    SERVES.iter().filter(scales).map(action).collect()
}

/// The edits that scale the entry that starts at `entry` to `serves`.
pub(super) fn resolve(
    workspace: &Workspace,
    file: FileId,
    entry: u32,
    serves: u32,
) -> Option<Edits> {
    let located = entry_at(workspace.file(file)?, entry).filter(|one| one.start == entry)?;
    let edits = edits(record_at(workspace, file, located)?, serves)?;
    Some(edits.into_iter().map(|edit| (file, edit)).collect())
}

/// None where a line can't be scaled by multiplying, or is a person's to think about: what a
/// glass is filled up with, a dilution that a step states, an amount that can't be read.
fn edits(record: &Record, serves: u32) -> Option<Vec<Edit>> {
    if record.kind != Kind::Drink || record.unread || record.reads.is_empty() {
        return None;
    }
    let now = match record.field(Key::Serves).map(|field| &field.value) {
        None => Exact::ONE,
        Some(Value::Count(Quantity { form: Form::One(number), approximate: false })) => *number,
        Some(_) => return None,
    };
    let factor =
        Exact::whole(i64::from(serves)).over(now).filter(|factor| *factor != Exact::ONE)?;
    let states_dilution = |line: &LineKind| match line {
        LineKind::Step(step) => step.acts.iter().any(|act| act.stated.is_some()),
        _ => false,
    };
    let lines = &record.entry.lines;
    if lines.iter().any(|line| states_dilution(&line.what)) || record.field(Key::Total).is_some() {
        return None;
    }
    let mut out = vec![serves_field(record, serves)];
    for line in lines {
        if let LineKind::Ingredient(ingredient) = &line.what {
            scale(record, ingredient, factor, &mut out)?;
        }
    }
    out.sort_by_key(|edit| edit.span.start);
    for edit in &mut out {
        edit.span = edit.span.shift(record.start);
    }
    Some(out)
}

/// The number of serves, in its field or in a new one below the heading.
fn serves_field(record: &Record, serves: u32) -> Edit {
    if let Some(field) = record.field(Key::Serves) {
        return Edit::new(field.value_span, serves.to_string());
    }
    let end = record.entry.lines.first().map_or(0, |line| line.span.end);
    let new_line = washline_text::line_end(&record.entry.text);
    Edit::insert(end, format!("{new_line}  serves: {serves}"))
}

fn scale(record: &Record, line: &Ingredient, factor: Exact, out: &mut Vec<Edit>) -> Option<()> {
    match &line.amount {
        Amount::Measures(measures) => {
            for placed in measures {
                out.push(scaled(record, placed, factor)?);
            }
        }
        Amount::PartOf(_, placed) => out.push(scaled(record, placed, factor)?),
        Amount::Word(AmountWord::Top | AmountWord::Fill | AmountWord::Float) => return None,
        // Of each glass.
        Amount::Word(_) => {}
        Amount::Vague(_) | Amount::Proportion(_) => return None,
    }
    if let Some(second) = line.second {
        let measure = times(second.measure, factor)?;
        let written = second.inner.text(&record.entry.text);
        out.push(Edit::new(second.inner, spell(&measure, written, Fractions::AsWritten)));
    }
    Some(())
}

fn scaled(record: &Record, placed: &Placed, factor: Exact) -> Option<Edit> {
    if placed.measure.unit == Some(Unit::Part) {
        return None;
    }
    let measure = times(placed.measure, factor)?;
    let written = placed.number.text(&record.entry.text);
    let number = Measure { unit: None, ..measure };
    let (span, measure): (Span, Measure) = match placed.unit.is_empty() {
        true => (placed.number, number),
        false => (placed.number.cover(placed.unit), measure),
    };
    Some(Edit::new(span, spell(&measure, written, Fractions::AsWritten)))
}

fn times(measure: Measure, factor: Exact) -> Option<Measure> {
    let form = match measure.quantity.form {
        Form::One(number) => Form::One(number.times(factor)?),
        Form::Range(low, high) => Form::Range(low.times(factor)?, high.times(factor)?),
    };
    Some(Measure { quantity: Quantity { form, ..measure.quantity }, ..measure })
}

#[cfg(test)]
mod tests {
    use crate::harness::{House, after_action as after};

    #[test]
    fn every_amount_is_multiplied_and_the_serves_are_said() {
        let text = "drink: A|\n  52.5 ml (1 3/4 oz) gin\n  1 dash orange bitters\n  - stir\n";
        let ten = "drink: A\n  serves: 10\n  525 ml (17 1/2 oz) gin\n  10 dashes orange bitters\n  - stir\n";
        assert_eq!(after(text, "scale to 10 serves").as_deref(), Some(ten));
    }

    #[test]
    fn back_to_one_serve_is_where_it_began() {
        let text = "drink: A\n  serves: 4|\n  120 ml gin\n  3 oz rum\n";
        let one = "drink: A\n  serves: 1\n  30 ml gin\n";
        assert!(after(text, "scale to one serve").unwrap().starts_with(one));
    }

    #[test]
    fn a_strength_is_the_same_in_any_number() {
        let text = "drink: A|\n  60 ml vodka, 40 %\n  30 ml water\n  - combine\n";
        let (before, _) = House::at(text);
        let (scaled, _) = House::at(&after(text, "scale to 20 serves").unwrap());
        let abv =
            |house: &House| house.workspace.records()[0].figures.value(washline_book::Figure::Abv);
        assert!((abv(&before).unwrap() - abv(&scaled).unwrap()).abs() < 1e-9);
    }

    #[test]
    fn what_fills_the_glass_is_a_persons_to_think_about() {
        assert_eq!(after("drink: A|\n  30 ml gin\n  top soda water\n", "scale to 10 serves"), None);
        assert_eq!(after("drink: A\n  30 ml| gin\n", "scale to 10 serves"), None);
    }
}
