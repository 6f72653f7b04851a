//! Findings read aloud: no drawing, every place in words.

use std::error::Error;
use std::fmt;

use miette::{Diagnostic, LabeledSpan, NarratableReportHandler, Severity as Told, SourceCode};
use washline_text::{Finding, Place, Severity, Span};

use crate::excerpt::excerpt;
use crate::stand_in::StandIns;
use crate::text::{message, said};
use crate::{File, Outcome, Source, Style, escape, summary};

/// Every finding in sentences, then the summary.
#[must_use]
pub fn narrated(outcome: &Outcome<'_>, style: Style) -> String {
    let reader = NarratableReportHandler::new().with_context_lines(0);
    let mut out = String::new();
    for finding in outcome.shown(style.waived) {
        let mut stand_ins = StandIns::new(style.columns);
        let told = Narrated::of(outcome, finding, style, &mut stand_ins);
        let mut text = String::new();
        // Writing into memory can't fail.
        let _ = reader.render_report(&mut text, &told);
        out.push_str(&stand_ins.undone(&text));
        out.push('\n');
    }
    out.push_str(&summary::line(outcome));
    out
}

/// A finding, or a second place of one, as the reader wants it.
#[derive(Debug)]
struct Narrated {
    message: String,
    told: Told,
    code: Option<&'static str>,
    help: Option<String>,
    source: Option<Source>,
    labels: Vec<LabeledSpan>,
    related: Vec<Self>,
}

impl Narrated {
    fn of(
        outcome: &Outcome<'_>,
        finding: &Finding,
        style: Style,
        stand_ins: &mut StandIns,
    ) -> Self {
        let words = |(label, words): (&str, String)| format!("{label}: {words}");
        let mut help: Vec<String> = said(finding).into_iter().map(words).collect();
        let (inside, outside): (Vec<_>, Vec<_>) =
            finding.related.iter().partition(|related| related.place.file == finding.place.file);
        let mut places = vec![(finding.place, None)];
        places.extend(inside.iter().map(|related| (related.place, Some(&*related.message))));
        let Snippet { source, labels, far } = snippet(outcome, &places, style, stand_ins);
        help.extend(far);
        let related = outside.into_iter().map(|related| {
            let places = [(related.place, None)];
            let Snippet { source, labels, far } = snippet(outcome, &places, style, stand_ins);
            Self {
                message: escape::on_one_line(&related.message).into_owned(),
                told: Told::Advice,
                code: None,
                help: far.first().cloned(),
                source,
                labels,
                related: Vec::new(),
            }
        });
        Self {
            message: format!("{}: {}", finding.severity, message(finding)),
            told: match finding.severity {
                Severity::Error => Told::Error,
                Severity::Warning => Told::Warning,
                Severity::Information | Severity::Hint => Told::Advice,
            },
            code: Some(finding.rule),
            help: (!help.is_empty()).then(|| help.join("\n")),
            related: related.collect(),
            source,
            labels,
        }
    }
}

/// Lines to be read out.
#[derive(Default)]
struct Snippet {
    source: Option<Source>,
    labels: Vec<LabeledSpan>,
    /// Places that are said in words alone.
    far: Vec<String>,
}

/// The lines of `places`, all of one file, and labels on them.
fn snippet(
    outcome: &Outcome<'_>,
    places: &[(Place, Option<&str>)],
    style: Style,
    stand_ins: &mut StandIns,
) -> Snippet {
    let first = places.first().and_then(|(place, _)| outcome.file(place.file));
    let Some(file) = first else { return Snippet::default() };
    let (far, places): (Vec<_>, Vec<_>) =
        places.iter().partition(|(place, _)| is_far(place.span.start, file));
    let far = far.into_iter().map(|(place, message)| {
        let at = file.position(place.span.start, style.columns);
        let name = escape::on_one_line(&file.name);
        let message = message.map(|words| format!(": {}", escape::on_one_line(words)));
        let (line, column) = (at.line + 1, at.column + 1);
        format!("place: {name}, line {line}, column {column}{}", message.unwrap_or_default())
    });
    let far = far.collect();
    if places.is_empty() {
        return Snippet { far, ..Snippet::default() };
    }
    let read: Vec<(Span, Option<u32>)> =
        places.iter().map(|(place, _)| readable(place.span, file)).collect();
    let spans: Vec<Span> = read.iter().map(|(span, _)| *span).collect();
    let excerpt = excerpt(file, &spans, style.columns, stand_ins);
    let labels = excerpt.marks.into_iter().zip(places).zip(read).map(|((mark, place), read)| {
        let (_, message) = place;
        let message = message.map(|message| escape::on_one_line(message).into_owned());
        let further = read.1.map(|line| format!("it goes on to line {}", line + 1));
        let words: Vec<String> = message.into_iter().chain(further).collect();
        let words = (!words.is_empty()).then(|| words.join("; "));
        LabeledSpan::new(words, mark.range.start, mark.range.len())
    });
    let labels = labels.collect();
    let numbers = excerpt.lines.iter().map(|(line, _)| *line).collect();
    let source = Source::new(escape::on_one_line(&file.name), excerpt.text).numbered(numbers);
    Snippet { source: Some(source), labels, far }
}

/// A line is not read out from further on than this, in bytes: what lies before would have to
/// be counted through anew for every finding.
const FAR: u32 = 2000;

fn is_far(offset: u32, file: &File<'_>) -> bool {
    let line = file.index.span_with_end(file.index.line_of(offset));
    offset.saturating_sub(line.start) > FAR
}

/// Nobody is read more lines than this for one place.
const MOST_LINES: u32 = 4;

/// `span`, or its first line where it has too many, and then the line on which it ends.
fn readable(span: Span, file: &File<'_>) -> (Span, Option<u32>) {
    let first = file.index.line_of(span.start);
    let last = file.index.line_of(span.end);
    if last - first < MOST_LINES {
        return (span, None);
    }
    (Span::new(span.start, file.index.span(file.text, first).end), Some(last))
}

impl fmt::Display for Narrated {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl Error for Narrated {}

impl Diagnostic for Narrated {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.code.map(|code| Box::new(code) as Box<dyn fmt::Display>)
    }

    fn severity(&self) -> Option<Told> {
        Some(self.told)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.source.as_ref().map(|source| source as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        if self.related.is_empty() {
            return None;
        }
        Some(Box::new(self.related.iter().map(|related| related as &dyn Diagnostic)))
    }
}

#[cfg(test)]
mod tests {
    use expect_test::{Expect, expect};
    use washline_text::{Columns, Related};

    use super::*;
    use crate::checks::{finding, outcome, place};

    fn check(files: &[(&str, &str)], finding: Finding, expected: Expect) {
        let style = Style::default();
        outcome(files, vec![finding], |outcome| expected.assert_eq(&narrated(outcome, style)));
    }

    #[test]
    fn places_are_said_in_words() {
        let mut found = finding(0, 18..32);
        found.related = vec![
            Related { place: place(1, 6..17), message: "the prep".to_owned() },
            Related { place: place(0, 7..15), message: "this drink".to_owned() },
        ];
        check(
            &[
                ("a.pour", "drink: Quarry L\n  \t1 oz (20 ml) gin\n"),
                ("b.pour", "prep: Honey Syrup\n"),
            ],
            found,
            expect![[r#"
                warning: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart
                    Diagnostic severity: warning
                Begin snippet for a.pour starting at line 1, column 8

                snippet line 1: drink: Quarry L
                    label at line 1, columns 8 to 15: this drink
                snippet line 2:   	1 oz (20 ml) gin
                    label at line 2, columns 3 to 16
                diagnostic help: in: drink Quarry Lane
                why: two bartenders pour two drinks
                help: keep one of the two
                diagnostic code: measures-disagree

                Advice: the prep
                    Diagnostic severity: advice

                Begin snippet for b.pour starting at line 1, column 7

                snippet line 1: prep: Honey Syrup
                    label at line 1, columns 7 to 17

                2 files, 1 entry: 1 warning
            "#]],
        );
    }

    #[test]
    fn columns_agree_with_every_other_output() {
        let text = "drink: A\r  日本\u{1f34b} e\u{301} gin\n";
        let start = u32::try_from(text.find("gin").unwrap()).unwrap();
        outcome(&[("a.pour", text)], vec![finding(0, start..start + 3)], |outcome| {
            for (columns, expected) in [
                (Columns::Scalars, "label at line 2, columns 10 to 12"),
                (Columns::Utf16, "label at line 2, columns 11 to 13"),
                (Columns::Bytes, "label at line 2, columns 18 to 20"),
            ] {
                let told = narrated(outcome, Style { columns, ..Style::default() });
                assert!(told.contains(expected), "{told}");
                assert!(told.contains("snippet line 2:   日本\u{1f34b} e\u{301} gin\n"), "{told}");
            }
        });
    }

    #[test]
    fn a_cut_line_keeps_its_columns() {
        let text = format!("{}MARK{}", "é".repeat(500), "a".repeat(5000));
        outcome(&[("a.pour", &text)], vec![finding(0, 1000..1004)], |outcome| {
            let told = narrated(outcome, Style::default());
            assert!(told.contains("label at line 1, columns 501 to 504\n"), "{told}");
            assert!(told.len() < 1000, "{told}");
        });
    }

    #[test]
    fn a_place_far_along_its_line_is_said_in_words_alone() {
        let text = format!("{}MARK{}", "é".repeat(5000), "a".repeat(5000));
        outcome(&[("a.pour", &text)], vec![finding(0, 10_000..10_004)], |outcome| {
            let told = narrated(outcome, Style::default());
            assert!(told.contains("\nplace: a.pour, line 1, column 5001\n"), "{told}");
            assert!(!told.contains("snippet"), "{told}");
        });
    }

    #[test]
    fn a_long_span_is_told_by_its_ends() {
        let text = "x\n".repeat(100);
        outcome(&[("a.pour", &text)], vec![finding(0, 2..100)], |outcome| {
            let told = narrated(outcome, Style::default());
            assert!(told.contains("label at line 2, column 1: it goes on to line 51"), "{told}");
        });
    }
}
