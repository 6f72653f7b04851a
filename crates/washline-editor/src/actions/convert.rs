//! Amounts of lines in the house's other unit, as a bar would pour them.

use washline_book::{Settings, Workspace};
use washline_measure::{Form, Unit, UnitKind};
use washline_rules::pourable;
use washline_syntax::{Amount, Ingredient, LineKind, Located};
use washline_text::{Edit, FileId, Span};

use super::{Action, ActionKind, Deferred, Does};
use crate::Edits;
use crate::cursor::Cursor;

/// The units that amounts are turned into.
const UNITS: &[Unit] = &[Unit::Ml, Unit::Oz];

/// For each unit, the turning of the lines that `span` touches; on a heading, of all lines.
pub(super) fn actions(workspace: &Workspace, file: FileId, span: Span) -> Vec<Action> {
    let Some((located, span)) = reach(workspace, file, span) else { return Vec::new() };
    let settings = workspace.settings_in(file);
    let turns = |unit: &&Unit| !edits(located, span, **unit, settings).is_empty();
    let action = |unit: &Unit| Action {
        title: format!("write these amounts in {}, as a bar pours them", unit.name()),
        kind: ActionKind::Rewrite,
        preferred: false,
        answers: Vec::new(),
        does: Does::Deferred(Deferred::Convert { span, unit: *unit }),
    };
    UNITS.iter().filter(turns).map(action).collect()
}

/// The edits that turn the amounts of the lines in `span` into `unit`.
pub(super) fn resolve(
    workspace: &Workspace,
    file: FileId,
    span: Span,
    unit: Unit,
) -> Option<Edits> {
    let (located, span) = reach(workspace, file, span)?;
    let edits = edits(located, span, unit, workspace.settings_in(file));
    (!edits.is_empty()).then(|| edits.into_iter().map(|edit| (file, edit)).collect())
}

/// The entry and the span that is meant: from a heading on, the whole entry.
fn reach(workspace: &Workspace, file: FileId, span: Span) -> Option<(&Located, Span)> {
    let cursor = Cursor::at(workspace, file, span.start)?;
    let (at, _) = cursor.line?;
    let whole = crate::cursor::whole(cursor.located);
    Some((cursor.located, if at == 0 { whole } else { span }))
}

fn edits(located: &Located, span: Span, unit: Unit, settings: &Settings) -> Vec<Edit> {
    let text = &located.entry.text;
    let mut out = Vec::new();
    for line in &located.entry.lines {
        let place = line.content.shift(located.start);
        let LineKind::Ingredient(ingredient) = &line.what else { continue };
        if super::touch(place, span) {
            out.extend(turned(text, ingredient, unit, settings));
        }
    }
    for edit in &mut out {
        edit.span = edit.span.shift(located.start);
    }
    out
}

/// The amount in `unit`: where the line says it in brackets, the two change places.
fn turned(text: &str, line: &Ingredient, unit: Unit, settings: &Settings) -> Vec<Edit> {
    let Amount::Measures(measures) = &line.amount else { return Vec::new() };
    let [said] = measures.as_slice() else { return Vec::new() };
    let own = said.measure.unit.filter(|own| *own != unit);
    let volume = own.filter(|own| matches!(own.kind(), UnitKind::Metric | UnitKind::Customary));
    let (Some(own), Form::One(number)) = (volume, said.measure.quantity.form) else {
        return Vec::new();
    };
    if let Some(second) = line.second {
        if second.measure.unit != Some(unit) {
            return Vec::new();
        }
        return vec![
            Edit::new(said.span, second.inner.text(text)),
            Edit::new(second.inner, said.span.text(text)),
        ];
    }
    if said.measure.quantity.approximate {
        return Vec::new();
    }
    let ml = own.ml(settings.ounce).map(|one| number.to_f64() * one.to_f64());
    let words = ml.and_then(|ml| pourable(ml, unit, settings.ounce));
    words.map(|words| Edit::new(said.span, words)).into_iter().collect()
}

#[cfg(test)]
mod tests {
    use crate::harness::after_action;

    fn after(text: &str, unit: &str) -> Option<String> {
        after_action(text, &format!("write these amounts in {unit}, as a bar pours them"))
    }

    #[test]
    fn a_line_is_turned_alone() {
        let text = "drink: A\n  22.5 ml| gin\n  30 ml rum\n";
        assert_eq!(after(text, "oz").as_deref(), Some("drink: A\n  3/4 oz gin\n  30 ml rum\n"));
        assert_eq!(after(text, "ml"), None);
    }

    #[test]
    fn on_the_heading_all_lines_are_turned() {
        let text = "drink: A|\n  1 1/2 oz gin\n  1 oz rum\n  2 dashes bitters\n";
        let turned = "drink: A\n  45 ml gin\n  30 ml rum\n  2 dashes bitters\n";
        assert_eq!(after(text, "ml").as_deref(), Some(turned));
    }

    #[test]
    fn two_measures_change_places() {
        let text = "drink: A\n  52.5 ml (1 3/4 oz)| gin\n";
        assert_eq!(after(text, "oz").as_deref(), Some("drink: A\n  1 3/4 oz (52.5 ml) gin\n"));
    }

    #[test]
    fn a_range_stays() {
        assert_eq!(after("drink: A\n  10-15 ml| gin\n", "oz"), None);
    }
}
