//! Findings as JSON: every key always there.

use serde::Serialize;
use washline_text::{Columns, Edit, FileId, Finding, Fix, Place, Severity};

use crate::Outcome;

/// The findings and their count as one JSON object, with a line end.
///
/// Lines and columns count from 1, ranges are half open, and the text of an edit has LF for
/// every line end.
#[must_use]
pub fn json(outcome: &Outcome<'_>, columns: Columns) -> String {
    let shape = Shape { outcome, columns };
    let tally = outcome.tally();
    let report = Report {
        format: 1,
        files: outcome.books,
        entries: outcome.entries,
        findings: outcome.findings().iter().map(|finding| shape.finding(finding)).collect(),
        summary: Summary {
            error: tally.of(Severity::Error),
            warning: tally.of(Severity::Warning),
            information: tally.of(Severity::Information),
            hint: tally.of(Severity::Hint),
            waived: tally.waived,
            baselined: tally.baselined,
        },
    };
    let mut out = serde_json::to_string(&report).unwrap_or_default();
    out.push('\n');
    out
}

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    files: usize,
    entries: usize,
    findings: Vec<Found<'a>>,
    summary: Summary,
}

#[derive(Serialize)]
struct Summary {
    error: usize,
    warning: usize,
    information: usize,
    hint: usize,
    waived: usize,
    baselined: usize,
}

#[derive(Serialize)]
struct Found<'a> {
    rule: &'a str,
    severity: &'a str,
    message: &'a str,
    why: &'a str,
    help: &'a str,
    entry: Option<&'a str>,
    kind: Option<&'a str>,
    file: &'a str,
    range: Range,
    related: Vec<Second<'a>>,
    fixes: Vec<Mend<'a>>,
    fingerprint: &'a str,
    waived: bool,
    baselined: bool,
}

#[derive(Serialize)]
struct Second<'a> {
    file: &'a str,
    range: Range,
    message: &'a str,
}

#[derive(Serialize)]
struct Mend<'a> {
    title: &'a str,
    safe: bool,
    edits: Vec<Change<'a>>,
}

#[derive(Serialize)]
struct Change<'a> {
    file: &'a str,
    range: Range,
    text: String,
}

#[derive(Serialize)]
struct Range {
    start: At,
    end: At,
}

#[derive(Serialize)]
struct At {
    line: u32,
    column: u32,
}

struct Shape<'a> {
    outcome: &'a Outcome<'a>,
    columns: Columns,
}

impl<'a> Shape<'a> {
    fn finding(&self, finding: &'a Finding) -> Found<'a> {
        let (file, range) = self.place(finding.place);
        Found {
            rule: finding.rule,
            severity: finding.severity.name(),
            message: &finding.message,
            why: &finding.why,
            help: &finding.help,
            entry: finding.entry.as_ref().map(|entry| &*entry.name),
            kind: finding.entry.as_ref().map(|entry| entry.kind.name()),
            file,
            range,
            related: finding
                .related
                .iter()
                .map(|related| {
                    let (file, range) = self.place(related.place);
                    Second { file, range, message: &related.message }
                })
                .collect(),
            fixes: finding.fixes.iter().map(|fix| self.fix(fix)).collect(),
            fingerprint: &finding.fingerprint,
            waived: finding.waived,
            baselined: finding.baselined,
        }
    }

    fn fix(&self, fix: &'a Fix) -> Mend<'a> {
        let edits = fix.edits.iter().map(|(file, edit)| self.edit(*file, edit)).collect();
        Mend { title: &fix.title, safe: fix.safe, edits }
    }

    fn edit(&self, file: FileId, edit: &Edit) -> Change<'a> {
        let (file, range) = self.place(Place { file, span: edit.span });
        let text = edit.text.replace("\r\n", "\n").replace('\r', "\n");
        Change { file, range, text }
    }

    fn place(&self, place: Place) -> (&'a str, Range) {
        let Some(file) = self.outcome.file(place.file) else {
            return (
                "",
                Range { start: At { line: 1, column: 1 }, end: At { line: 1, column: 1 } },
            );
        };
        let at = |offset| {
            let position = file.position(offset, self.columns);
            At { line: position.line + 1, column: position.column + 1 }
        };
        (&file.name, Range { start: at(place.span.start), end: at(place.span.end) })
    }
}

#[cfg(test)]
mod tests {
    use expect_test::expect;
    use washline_text::{Related, Span};

    use super::*;
    use crate::checks::{finding, outcome, place};

    #[test]
    fn every_key_is_there() {
        let mut full = finding(0, 7..8);
        full.related = vec![Related { place: place(1, 0..4), message: "here".to_owned() }];
        let edit = |start, end, text: &str| (FileId(0), Edit::new(Span::new(start, end), text));
        full.fixes = vec![Fix {
            title: "name it".to_owned(),
            safe: false,
            edits: vec![edit(0, 5, "drink"), edit(8, 8, "\r\n  serve: up")],
        }];
        let mut bare = finding(1, 0..0);
        (bare.entry, bare.severity) = (None, Severity::Error);
        let files = [("a.pour", "drink: A\r\n"), ("b.pour", "prep: B")];
        outcome(&files, vec![full, bare], |outcome| {
            let value: serde_json::Value =
                serde_json::from_str(&json(outcome, Columns::Scalars)).unwrap();
            expect![[r#"
                {
                  "format": 1,
                  "files": 2,
                  "entries": 1,
                  "findings": [
                    {
                      "rule": "measures-disagree",
                      "severity": "warning",
                      "message": "1 oz is 29.6 ml, the line says 20 ml: 32 % apart",
                      "why": "two bartenders pour two drinks",
                      "help": "keep one of the two",
                      "entry": "Quarry Lane",
                      "kind": "drink",
                      "file": "a.pour",
                      "range": {
                        "start": {
                          "line": 1,
                          "column": 8
                        },
                        "end": {
                          "line": 1,
                          "column": 9
                        }
                      },
                      "related": [
                        {
                          "file": "b.pour",
                          "range": {
                            "start": {
                              "line": 1,
                              "column": 1
                            },
                            "end": {
                              "line": 1,
                              "column": 5
                            }
                          },
                          "message": "here"
                        }
                      ],
                      "fixes": [
                        {
                          "title": "name it",
                          "safe": false,
                          "edits": [
                            {
                              "file": "a.pour",
                              "range": {
                                "start": {
                                  "line": 1,
                                  "column": 1
                                },
                                "end": {
                                  "line": 1,
                                  "column": 6
                                }
                              },
                              "text": "drink"
                            },
                            {
                              "file": "a.pour",
                              "range": {
                                "start": {
                                  "line": 1,
                                  "column": 9
                                },
                                "end": {
                                  "line": 1,
                                  "column": 9
                                }
                              },
                              "text": "\n  serve: up"
                            }
                          ]
                        }
                      ],
                      "fingerprint": "v1:0123456789abcdef",
                      "waived": false,
                      "baselined": false
                    },
                    {
                      "rule": "measures-disagree",
                      "severity": "error",
                      "message": "1 oz is 29.6 ml, the line says 20 ml: 32 % apart",
                      "why": "two bartenders pour two drinks",
                      "help": "keep one of the two",
                      "entry": null,
                      "kind": null,
                      "file": "b.pour",
                      "range": {
                        "start": {
                          "line": 1,
                          "column": 1
                        },
                        "end": {
                          "line": 1,
                          "column": 1
                        }
                      },
                      "related": [],
                      "fixes": [],
                      "fingerprint": "v1:0123456789abcdef",
                      "waived": false,
                      "baselined": false
                    }
                  ],
                  "summary": {
                    "error": 1,
                    "warning": 1,
                    "information": 0,
                    "hint": 0,
                    "waived": 0,
                    "baselined": 0
                  }
                }"#]]
            .assert_eq(&format!("{value:#}"));
        });
    }

    #[test]
    fn columns_are_counted_as_asked() {
        let text = "\u{1f34b}é gin";
        outcome(&[("a.pour", text)], vec![finding(0, 7..10)], |outcome| {
            let column = |columns| {
                let value: serde_json::Value =
                    serde_json::from_str(&json(outcome, columns)).unwrap();
                value["findings"][0]["range"]["start"]["column"].as_u64().unwrap()
            };
            assert_eq!(column(Columns::Scalars), 4);
            assert_eq!(column(Columns::Utf16), 5);
            assert_eq!(column(Columns::Bytes), 8);
        });
    }
}
