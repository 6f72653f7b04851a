//! Findings for people: the words concerned with their line, drawn, and what to do.

use std::ops::Range;

use codespan_reporting::diagnostic::{Diagnostic, Label, Severity as Drawn};
use codespan_reporting::files::{Error, Files};
use codespan_reporting::term::{Config, emit_to_write_style};
use washline_text::{Columns, FileId, Finding, Severity, Span};

use crate::excerpt::{Excerpt, Plain, excerpt};
use crate::paint::Paint;
use crate::{Outcome, escape, summary};

/// How findings are shown to people.
#[derive(Clone, Copy, Debug, Default)]
pub struct Style {
    /// With colour.
    pub colour: bool,
    /// With those that are let off or known.
    pub waived: bool,
    /// How columns are counted.
    pub columns: Columns,
}

/// Every finding with its lines, then the summary.
#[must_use]
pub fn text(outcome: &Outcome<'_>, style: Style) -> String {
    let mut paint = Paint::new(style.colour);
    let config = Config::default();
    for finding in outcome.shown(style.waived) {
        let (pieces, labels) = pieces(outcome, finding, style.columns);
        let drawn = Diagnostic::new(drawn(finding.severity))
            .with_code(finding.rule)
            .with_message(message(finding))
            .with_labels(labels)
            .with_notes(notes(finding));
        // Drawing into memory from pieces that are there can't fail.
        let _ = emit_to_write_style(&mut paint, &config, &pieces, &drawn);
    }
    let mut out = paint.into_string();
    out.push_str(&summary::line(outcome));
    out
}

/// What is wrong, on one line, and whether it is let off or known.
pub(crate) fn message(finding: &Finding) -> String {
    let message = escape::on_one_line(&finding.message);
    match (finding.waived, finding.baselined) {
        (true, _) => match finding.waived_because() {
            Some(reason) => format!("{message} (waived because {reason})"),
            None => format!("{message} (waived)"),
        },
        (_, true) => format!("{message} (in the baseline)"),
        _ => message.into_owned(),
    }
}

/// Which entry it is in, why it matters, what to do, how to mend it: a label and words each.
pub(crate) fn said(finding: &Finding) -> Vec<(&'static str, String)> {
    let mut said = Vec::new();
    let mut say = |label, words: &str| {
        if !words.is_empty() {
            said.push((label, escape::escaped(words).into_owned()));
        }
    };
    if let Some(entry) = &finding.entry {
        say("in", &format!("{} {}", entry.kind.name(), escape::on_one_line(&entry.name)));
    }
    say("why", &finding.why);
    say("help", &finding.help);
    for fix in &finding.fixes {
        say(if fix.safe { "fix" } else { "fix to confirm" }, &fix.title);
    }
    said
}

fn notes(finding: &Finding) -> Vec<String> {
    said(finding).into_iter().map(|(label, words)| format!("{label}: {words}")).collect()
}

const fn drawn(severity: Severity) -> Drawn {
    match severity {
        Severity::Error => Drawn::Error,
        Severity::Warning => Drawn::Warning,
        Severity::Information => Drawn::Note,
        Severity::Hint => Drawn::Help,
    }
}

/// An excerpt of each file that one finding speaks of.
struct Pieces {
    files: Vec<(String, Excerpt)>,
}

/// The excerpts for `finding`, and its labels on them, the finding's own first.
fn pieces(
    outcome: &Outcome<'_>,
    finding: &Finding,
    columns: Columns,
) -> (Pieces, Vec<Label<usize>>) {
    let reason = finding.waived_because();
    let related = finding.related.iter().map(|related| {
        // The line itself gives the reason.
        let waiver = reason.is_some_and(|reason| related.message.ends_with(reason));
        (related.place, if waiver { "waived here" } else { related.message.as_str() })
    });
    let places: Vec<_> = std::iter::once((finding.place, "")).chain(related).collect();
    let mut ids: Vec<FileId> = Vec::new();
    for (place, _) in &places {
        if !ids.contains(&place.file) {
            ids.push(place.file);
        }
    }
    let mut pieces = Pieces { files: Vec::new() };
    let mut labels = Vec::new();
    for id in ids {
        let Some(file) = outcome.file(id) else { continue };
        let here: Vec<_> = places.iter().filter(|(place, _)| place.file == id).collect();
        let spans: Vec<Span> = here.iter().map(|(place, _)| place.span).collect();
        let excerpt = excerpt(file, &spans, columns, &mut Plain);
        let own = finding.place.file == id;
        for (n, (mark, (_, message))) in excerpt.marks.iter().zip(here).enumerate() {
            let range = mark.range.clone();
            let label = if own && n == 0 {
                Label::primary(pieces.files.len(), range)
            } else {
                Label::secondary(pieces.files.len(), range)
            };
            labels.push(label.with_message(escape::on_one_line(message)));
        }
        pieces.files.push((escape::on_one_line(&file.name).into_owned(), excerpt));
    }
    (pieces, labels)
}

impl Pieces {
    fn excerpt(&self, id: usize) -> Result<&Excerpt, Error> {
        self.files.get(id).map(|(_, excerpt)| excerpt).ok_or(Error::FileMissing)
    }
}

/// Lines keep the numbers and columns that they have in their file.
impl<'a> Files<'a> for Pieces {
    type FileId = usize;
    type Name = &'a str;
    type Source = &'a str;

    fn name(&'a self, id: usize) -> Result<&'a str, Error> {
        self.files.get(id).map(|(name, _)| name.as_str()).ok_or(Error::FileMissing)
    }

    fn source(&'a self, id: usize) -> Result<&'a str, Error> {
        Ok(&self.excerpt(id)?.text)
    }

    fn line_index(&'a self, id: usize, offset: usize) -> Result<usize, Error> {
        let lines = &self.excerpt(id)?.lines;
        let next = lines.partition_point(|(_, range)| range.start <= offset);
        Ok(lines.get(next.saturating_sub(1)).map_or(0, |(line, _)| *line as usize))
    }

    fn column_number(&'a self, id: usize, _: usize, offset: usize) -> Result<usize, Error> {
        let marks = &self.excerpt(id)?.marks;
        let here = marks.iter().find(|mark| mark.range.start == offset);
        Ok(here.map_or(0, |mark| mark.start.column as usize) + 1)
    }

    fn line_range(&'a self, id: usize, line: usize) -> Result<Range<usize>, Error> {
        let lines = &self.excerpt(id)?.lines;
        let found = lines.iter().find(|(number, _)| *number as usize == line);
        // The middle of a long span is never drawn, but asked for.
        Ok(found.map_or(0..0, |(_, range)| range.clone()))
    }
}

#[cfg(test)]
mod tests {
    use expect_test::{Expect, expect};
    use washline_text::{Edit, Fix, Related};

    use super::*;
    use crate::checks::{finding, outcome, place};

    fn check(files: &[(&str, &str)], finding: Finding, style: Style, expected: Expect) {
        outcome(files, vec![finding], |outcome| expected.assert_eq(&text(outcome, style)));
    }

    const CARD: &str = "book: Heron\n\ndrink: Quarry Lane\n  20 ml (1 oz) pear brandy\n";

    #[test]
    fn the_words_their_line_and_what_to_do() {
        let mut found = finding(0, 35..47);
        let fix = |title: &str, safe| {
            let edits = vec![(FileId(0), Edit::new(Span::new(33, 38), "30 ml"))];
            Fix { title: title.to_owned(), safe, edits }
        };
        found.fixes = vec![fix("write 1 oz as 30 ml", false), fix("take the bracket out", true)];
        check(
            &[("shaken.pour", CARD)],
            found,
            Style::default(),
            expect![[r#"
                warning[measures-disagree]: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart
                  ┌─ shaken.pour:4:4
                  │
                4 │   20 ml (1 oz) pear brandy
                  │    ^^^^^^^^^^^^
                  │
                  = in: drink Quarry Lane
                  = why: two bartenders pour two drinks
                  = help: keep one of the two
                  = fix to confirm: write 1 oz as 30 ml
                  = fix: take the bracket out

                1 file, 1 entry: 1 warning
            "#]],
        );
    }

    #[test]
    fn a_second_place_in_another_file_is_drawn_too() {
        let mut found = finding(0, 13..31);
        let message = "the prep\u{1b} says otherwise".to_owned();
        found.related = vec![
            Related { place: place(1, 6..17), message },
            Related { place: place(0, 6..11), message: "of this book".to_owned() },
        ];
        found.severity = Severity::Information;
        check(
            &[("shaken.pour", CARD), ("pre\u{7}ps.pour", "prep: Honey Syrup\n")],
            found,
            Style::default(),
            expect![[r#"
                information[measures-disagree]: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart
                  ┌─ shaken.pour:3:1
                  │
                1 │ book: Heron
                  │       ----- of this book
                2 │ 
                3 │ drink: Quarry Lane
                  │ ^^^^^^^^^^^^^^^^^^
                  │
                  ┌─ pre\u{7}ps.pour:1:7
                  │
                1 │ prep: Honey Syrup
                  │       ----------- the prep\u{1b} says otherwise
                  │
                  = in: drink Quarry Lane
                  = why: two bartenders pour two drinks
                  = help: keep one of the two

                2 files, 1 entry: 1 for information
            "#]],
        );
    }

    #[test]
    fn places_agree_with_every_other_output() {
        let text = "drink: A\r  1 oz \u{1f34b}\u{1f34b} lemon\u{1b}\n";
        let start = u32::try_from(text.find("lemon").unwrap()).unwrap();
        let mut found = finding(0, start..start + 6);
        (found.why, found.help, found.entry) = (String::new(), String::new(), None);
        check(
            &[("a.pour", text)],
            found.clone(),
            Style::default(),
            expect![[r#"
                warning[measures-disagree]: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart
                  ┌─ a.pour:2:11
                  │
                2 │   1 oz 🍋🍋 lemon\u{1b}
                  │             ^^^^^^^^^^^

                1 file, 1 entry: 1 warning
            "#]],
        );
        check(
            &[("a.pour", text)],
            found,
            Style { columns: Columns::Utf16, ..Style::default() },
            expect![[r#"
                warning[measures-disagree]: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart
                  ┌─ a.pour:2:13
                  │
                2 │   1 oz 🍋🍋 lemon\u{1b}
                  │             ^^^^^^^^^^^

                1 file, 1 entry: 1 warning
            "#]],
        );
    }

    #[test]
    fn colour_is_one_decision() {
        let mut found = finding(0, 13..18);
        (found.why, found.entry) = (String::new(), None);
        found.severity = Severity::Hint;
        outcome(&[("a.pour", CARD)], vec![found], |outcome| {
            let drawn = text(outcome, Style { colour: true, ..Style::default() });
            expect![[r#"
                ␛[1m␛[36mhint[measures-disagree]␛[0m␛[1m: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart␛[0m
                  ␛[34m┌─␛[0m a.pour:3:1
                  ␛[34m│␛[0m
                ␛[34m3␛[0m ␛[34m│␛[0m ␛[36mdrink␛[0m: Quarry Lane
                  ␛[34m│␛[0m ␛[36m^^^^^␛[0m
                  ␛[34m│␛[0m
                  ␛[34m=␛[0m help: keep one of the two

                1 file, 1 entry: 1 hint
            "#]]
            .assert_eq(&drawn.replace('\x1b', "␛"));
        });
    }

    #[test]
    fn a_file_as_a_whole_and_an_empty_one() {
        let mut found = finding(0, 0..0);
        found.entry = None;
        found.waived = true;
        check(
            &[("a.pour", "")],
            found.clone(),
            Style { waived: true, ..Style::default() },
            expect![[r#"
                warning[measures-disagree]: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart (waived)
                  ┌─ a.pour:1:1
                  │
                1 │ 
                  │ ^
                  │
                  = why: two bartenders pour two drinks
                  = help: keep one of the two

                1 file, 1 entry: nothing found, 1 waived
            "#]],
        );
        check(
            &[("a.pour", "")],
            found,
            Style::default(),
            expect![[r#"
                1 file, 1 entry: nothing found, 1 waived
            "#]],
        );
    }
}
