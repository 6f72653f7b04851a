//! Lines of a drink made into a prep that it pours.

use washline_book::{Read, Record, Workspace};
use washline_format::{Fractions, spell};
use washline_measure::{Exact, Measure, Quantity, Unit, UnitKind};
use washline_syntax::{Amount, Ingredient, Line, LineKind, Role};
use washline_text::{Edit, FileId, Kind, Span, fold, line_end};

use super::{Action, ActionKind, Deferred, Does, touch};
use crate::Edits;
use crate::cursor::{Cursor, body, record_at};

/// For two lines and more, all of them poured together: a prep of them.
pub(super) fn action(workspace: &Workspace, file: FileId, span: Span) -> Option<Action> {
    let extract = Extract::of(workspace, file, span)?;
    Some(Action {
        title: format!("make a prep of these {} lines", extract.lines.len()),
        kind: ActionKind::Extract,
        preferred: false,
        answers: Vec::new(),
        does: Does::Deferred(Deferred::Extract { span }),
    })
}

/// The edits that make a prep of the lines in `span`.
pub(super) fn resolve(workspace: &Workspace, file: FileId, span: Span) -> Option<Edits> {
    let extract = Extract::of(workspace, file, span)?;
    Some(extract.edits(workspace).into_iter().map(|edit| (file, edit)).collect())
}

/// What is made into a prep.
struct Extract<'a> {
    record: &'a Record,
    /// The lines, one behind the other.
    lines: Vec<&'a Line>,
    /// What they come to, as a card has it.
    amount: String,
    /// Where the drink ends.
    end: u32,
}

impl<'a> Extract<'a> {
    /// None where a line is not simply poured, is not known by size, or is named in a step: it
    /// has its own moment in the method.
    fn of(workspace: &'a Workspace, file: FileId, span: Span) -> Option<Self> {
        let cursor = Cursor::at(workspace, file, span.start)?;
        let record = record_at(workspace, file, cursor.located)?;
        if record.kind != Kind::Drink || record.unread {
            return None;
        }
        let inside = |line: &Line| touch(line.content.shift(record.start), span);
        let lines = record.entry.lines.iter().enumerate();
        let chosen: Vec<(usize, &Line)> = lines.filter(|(_, line)| inside(line)).collect();
        let mut reads = Vec::new();
        for (at, _) in &chosen {
            let (n, read) = poured(record, *at)?;
            let named = record.method.acts.iter().any(|act| act.mentions.contains(&n));
            reads.push(Some(read).filter(|_| !named)?);
        }
        let lines: Vec<&Line> = chosen.iter().map(|(_, line)| *line).collect();
        let amount = (lines.len() > 1).then(|| sum(record, &lines, &reads))??;
        let end = body(cursor.located).end;
        Some(Self { record, lines, amount, end })
    }

    fn edits(&self, workspace: &Workspace) -> Vec<Edit> {
        let text = &self.record.entry.text;
        let new_line = line_end(text);
        let name = free_name(workspace, &self.record.name);
        let said: Vec<&str> = self.lines.iter().map(|line| line.span.text(text)).collect();
        let prep = [
            "",
            "",
            &format!("prep: {name}"),
            &format!("  yields: {}", self.amount),
            "",
            &said.join(new_line),
            "",
            "  - combine",
        ]
        .join(new_line);
        let indent = self
            .lines
            .first()
            .map_or("", |line| Span::new(line.span.start, line.content.start).text(text));
        let poured = format!("{indent}{} {name}", self.amount);
        let whole = self.lines.iter().map(|line| line.span).reduce(Span::cover);
        let gone = whole.map(|span| Edit::new(span.shift(self.record.start), poured));
        gone.into_iter().chain([Edit::insert(self.end, prep)]).collect()
    }
}

/// What the line `at` pours, and its place among the lines read: one liquid of a known size that
/// no role sets apart.
fn poured(record: &Record, at: usize) -> Option<(usize, &Read)> {
    let mut reads = record.reads.iter().enumerate();
    let (n, read) = reads.find(|(_, read)| read.line as usize == at)?;
    let alone = record.reads.iter().filter(|read| read.line as usize == at).count() == 1;
    let liquid = read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid);
    let plain = read.role == Role::Poured && read.counted && !read.vague && read.ml.is_some();
    (alone && liquid && plain).then_some((n, read))
}

/// The lines together: in their own unit where they share one, else in millilitres.
fn sum(record: &Record, lines: &[&Line], reads: &[&Read]) -> Option<String> {
    let measures: Option<Vec<(Exact, Unit, &str)>> =
        lines.iter().map(|line| measure(record, line)).collect();
    if let Some(measures) = measures
        && let Some((_, unit, written)) = measures.first().copied()
        && measures.iter().all(|(_, other, _)| *other == unit)
    {
        let mut whole = Exact::ZERO;
        for (number, ..) in &measures {
            whole = whole.plus(*number)?;
        }
        let measure = Measure { quantity: Quantity::exactly(whole), unit: Some(unit) };
        return Some(spell(&measure, written, Fractions::AsWritten));
    }
    let ml: Option<f64> = reads.iter().map(|read| read.ml.map(|ml| ml.value)).sum();
    let whole = format!("{:.1}", ml?);
    Some(format!("{} ml", whole.trim_end_matches(".0")))
}

/// The one plain measure of a line: number, unit, and the number as written.
fn measure<'a>(record: &'a Record, line: &Line) -> Option<(Exact, Unit, &'a str)> {
    let LineKind::Ingredient(line) = &line.what else { return None };
    let Ingredient { amount: Amount::Measures(sum), .. } = &**line else { return None };
    let [placed] = sum.as_slice() else { return None };
    let quantity = placed.measure.quantity;
    let unit = placed.measure.unit?;
    let exact = matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary);
    let washline_measure::Form::One(number) = quantity.form else { return None };
    let written = placed.number.text(&record.entry.text);
    (exact && !quantity.approximate).then_some((number, unit, written))
}

/// A name that no entry has: the drink's with `Mix` behind it.
fn free_name(workspace: &Workspace, drink: &str) -> String {
    let taken = |name: &str| {
        let key = fold(name);
        workspace.records().iter().any(|record| *record.key == *key)
    };
    let first = format!("{drink} Mix");
    let more = (2..).map(|n| format!("{first} {n}"));
    std::iter::once(first.clone()).chain(more).find(|name| !taken(name)).unwrap_or(first)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    const CARD: &str = "drink: Slate Ferry\n  60 ml gin\n  22.5 ml (3/4 oz) lemon juice\n  15 ml sugar syrup # ours\n  - shake with ice, strain\n\ndrink: B\n";

    fn after(text: &str, from: &str, to: &str) -> Option<String> {
        let (house, at) = House::at(text);
        let start = u32::try_from(text.find(from)?).ok()?;
        let end = u32::try_from(text.find(to)?).ok()?;
        let span = Span::new(start, end);
        let action = action(&house.workspace, at.file, span)?;
        let Does::Deferred(act) = action.does else { return None };
        let edits = super::super::resolve(&house.workspace, at.file, &act)?;
        house.after(&edits).into_iter().next()
    }

    #[test]
    fn lines_become_a_prep_that_is_poured() {
        assert_eq!(
            after(CARD, "22.5", "syrup").as_deref(),
            Some(
                "drink: Slate Ferry\n  60 ml gin\n  37.5 ml Slate Ferry Mix\n  - shake with ice, strain\n\nprep: Slate Ferry Mix\n  yields: 37.5 ml\n\n  22.5 ml (3/4 oz) lemon juice\n  15 ml sugar syrup # ours\n\n  - combine\n\ndrink: B\n"
            )
        );
    }

    #[test]
    fn the_same_is_poured_before_and_after() {
        use washline_book::Figure;
        let (house, _) = House::at(CARD);
        let (then, _) = House::at(&after(CARD, "22.5", "syrup").unwrap());
        let of = |house: &House| {
            [Figure::Sugar, Figure::Acid, Figure::Abv]
                .map(|figure| house.workspace.records()[0].figures.value(figure).unwrap())
        };
        for (was, is) in of(&house).into_iter().zip(of(&then)) {
            assert!((was - is).abs() < 0.01 * was, "{was} {is}");
        }
    }

    #[test]
    fn units_that_differ_are_summed_in_millilitres() {
        let text = "drink: A\n  1 oz gin\n  30 ml rum\n  - shake with ice, strain\n";
        assert!(after(text, "1 oz", "rum").unwrap().contains("  59.6 ml A Mix\n"));
        let text = "drink: A\n  3/4 oz gin\n  1 oz rum\n  - shake with ice, strain\n";
        assert!(after(text, "3/4", "rum").unwrap().contains("  1 3/4 oz A Mix\n"));
    }

    #[test]
    fn a_name_that_is_taken_is_counted_on() {
        let text =
            "drink: A\n  20 ml gin\n  30 ml rum\n  - stir with ice\nprep: A Mix\n  50 ml gin\n";
        assert!(after(text, "20", "rum").unwrap().contains("  50 ml A Mix 2\n"));
    }

    #[test]
    fn what_has_its_own_moment_stays() {
        for text in [
            "drink: A\n  20 ml gin\n  30 ml rum\n  - muddle the gin, stir with ice\n",
            "drink: A\n  20 ml gin\n  top soda water # rum\n  - shake with ice, strain\n",
            "drink: A\n  20 ml gin\n\n  30 ml rum\n",
            "prep: A\n  20 ml gin\n  30 ml rum\n",
        ] {
            assert_eq!(after(text, "20", "rum"), None, "{text}");
        }
        assert_eq!(after(CARD, "22.5", "lemon"), None, "one line is no prep");
    }
}
