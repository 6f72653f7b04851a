//! Findings as JUnit XML, which build servers show as a test report.
//!
//! A book is a suite, a finding a case that fails; one that a house lets off, or knows, is
//! skipped; one that only informs passes, with its words as output. A book without findings is
//! one case that passes. The shape is that of the schema which the xUnit plugin of Jenkins
//! publishes (`junit-10.xsd`); there is no clock here, so no times.

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use washline_text::{Columns, FileId, Finding, Severity};

use crate::{Outcome, escape};

/// The findings as one document, with a line end.
#[must_use]
pub fn junit(outcome: &Outcome<'_>) -> String {
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 2);
    // Writing into memory can't fail.
    let _ = document(outcome, &mut writer);
    let mut out = String::from_utf8(writer.into_inner()).unwrap_or_default();
    out.push('\n');
    out
}

type Xml = Writer<Vec<u8>>;

fn document(outcome: &Outcome<'_>, xml: &mut Xml) -> std::io::Result<()> {
    let mut files: Vec<(FileId, &str, Vec<&Finding>)> = outcome
        .named_files()
        .map(|(id, name)| {
            let here = outcome.findings().iter().filter(|finding| finding.place.file == id);
            (id, name, here.collect())
        })
        .collect();
    files.sort_by_key(|(_, name, _)| *name);
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let all = || outcome.findings().iter();
    let clean = files.iter().filter(|(_, _, found)| found.is_empty()).count();
    xml.create_element("testsuites")
        .with_attribute(("name", "washline"))
        .with_attribute(("tests", (all().count() + clean).to_string().as_str()))
        .with_attribute(("failures", count(all(), Case::Failed).as_str()))
        .with_attribute(("errors", "0"))
        .write_inner_content(|xml| {
            files.iter().try_for_each(|(_, name, found)| suite(name, found, outcome, xml))
        })?;
    Ok(())
}

fn suite(
    name: &str,
    found: &[&Finding],
    outcome: &Outcome<'_>,
    xml: &mut Xml,
) -> std::io::Result<()> {
    let name = legal(name);
    let each = || found.iter().copied();
    xml.create_element("testsuite")
        .with_attribute(("name", name.as_str()))
        .with_attribute(("tests", found.len().max(1).to_string().as_str()))
        .with_attribute(("failures", count(each(), Case::Failed).as_str()))
        .with_attribute(("errors", "0"))
        .with_attribute(("skipped", count(each(), Case::Skipped).as_str()))
        .write_inner_content(|xml| {
            if found.is_empty() {
                xml.create_element("testcase")
                    .with_attribute(("name", "no findings"))
                    .with_attribute(("classname", name.as_str()))
                    .write_empty()?;
            }
            each().try_for_each(|finding| case(finding, &name, outcome, xml))
        })?;
    Ok(())
}

fn case(
    finding: &Finding,
    file: &str,
    outcome: &Outcome<'_>,
    xml: &mut Xml,
) -> std::io::Result<()> {
    let line = outcome
        .file(finding.place.file)
        .map_or(1, |file| file.position(finding.place.span.start, Columns::Scalars).line + 1);
    let entry = finding.entry.as_ref().map_or("the file", |entry| &*entry.name);
    let title = legal(&format!("{}: {entry}, line {line}", finding.rule));
    let message = legal(&finding.message);
    let body =
        legal(&format!("{file}:{line}: {}\n{}\n{}", finding.message, finding.why, finding.help));
    let testcase = xml
        .create_element("testcase")
        .with_attribute(("name", title.as_str()))
        .with_attribute(("classname", file));
    testcase.write_inner_content(|xml| {
        match Case::of(finding) {
            Case::Skipped => {
                let why = match finding.waived_because() {
                    Some(reason) => legal(&format!("waived because {reason}")),
                    None if finding.waived => "waived".to_owned(),
                    None => "known from the baseline".to_owned(),
                };
                xml.create_element("skipped").write_text_content(BytesText::new(&why))?;
            }
            Case::Failed => {
                xml.create_element("failure")
                    .with_attribute(("message", message.as_str()))
                    .with_attribute(("type", finding.severity.name()))
                    .write_text_content(BytesText::new(&body))?;
            }
            Case::Passed => {
                xml.create_element("system-out").write_text_content(BytesText::new(&body))?;
            }
        }
        Ok(())
    })?;
    Ok(())
}

/// What a finding is as a case.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Case {
    Failed,
    Skipped,
    Passed,
}

impl Case {
    const fn of(finding: &Finding) -> Self {
        match finding.severity {
            _ if finding.waived || finding.baselined => Self::Skipped,
            Severity::Error | Severity::Warning => Self::Failed,
            Severity::Information | Severity::Hint => Self::Passed,
        }
    }
}

fn count<'f>(findings: impl Iterator<Item = &'f Finding>, case: Case) -> String {
    findings.filter(|finding| Case::of(finding) == case).count().to_string()
}

/// XML has no way to write control characters: they are shown as escapes.
fn legal(text: &str) -> String {
    let shown = escape::escaped(text);
    shown.replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}")
}

#[cfg(test)]
mod tests {
    use expect_test::expect;

    use super::*;
    use crate::checks::{finding, outcome};

    #[test]
    fn a_book_is_a_suite_and_a_finding_a_case() {
        let (mut waived, mut hint) = (finding(0, 7..8), finding(0, 8..8));
        waived.waived = true;
        hint.severity = Severity::Hint;
        let mut sly = finding(0, 0..5);
        sly.message = "a < b & \"c\" \u{1b}[2J ]]>".to_owned();
        let files = [("a&b.pour", "drink: A"), ("clean.pour", "drink: B")];
        outcome(&files, vec![sly, waived, hint], |outcome| {
            expect![[r#"
                <?xml version="1.0" encoding="UTF-8"?>
                <testsuites name="washline" tests="4" failures="1" errors="0">
                  <testsuite name="a&amp;b.pour" tests="3" failures="1" errors="0" skipped="1">
                    <testcase name="measures-disagree: Quarry Lane, line 1" classname="a&amp;b.pour">
                      <failure message="a &lt; b &amp; &quot;c&quot; \u{1b}[2J ]]&gt;" type="warning">a&amp;b.pour:1: a &lt; b &amp; &quot;c&quot; \u{1b}[2J ]]&gt;
                two bartenders pour two drinks
                keep one of the two</failure>
                    </testcase>
                    <testcase name="measures-disagree: Quarry Lane, line 1" classname="a&amp;b.pour">
                      <skipped>waived</skipped>
                    </testcase>
                    <testcase name="measures-disagree: Quarry Lane, line 1" classname="a&amp;b.pour">
                      <system-out>a&amp;b.pour:1: 1 oz is 29.6 ml, the line says 20 ml: 32 % apart
                two bartenders pour two drinks
                keep one of the two</system-out>
                    </testcase>
                  </testsuite>
                  <testsuite name="clean.pour" tests="1" failures="0" errors="0" skipped="0">
                    <testcase name="no findings" classname="clean.pour"/>
                  </testsuite>
                </testsuites>
            "#]].assert_eq(&junit(outcome));
        });
    }
}
