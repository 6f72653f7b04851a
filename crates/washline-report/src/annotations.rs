//! Findings as workflow commands, which a continuous integration service shows beside the
//! changed lines: `::warning file=…,line=…::message`.

use std::fmt::Write;

use washline_text::{Columns, Finding, Severity};

use crate::{Outcome, Style};

/// A line for each finding that counts (with `style.waived`, of the others too).
#[must_use]
pub fn annotations(outcome: &Outcome<'_>, style: Style) -> String {
    let mut out = String::new();
    for finding in outcome.shown(style.waived) {
        write(finding, outcome, &mut out);
    }
    out
}

fn write(finding: &Finding, outcome: &Outcome<'_>, out: &mut String) {
    let Some(file) = outcome.file(finding.place.file) else { return };
    let start = file.position(finding.place.span.start, Columns::Scalars);
    let end = file.position(finding.place.span.end, Columns::Scalars);
    let command = match finding.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Information | Severity::Hint => "notice",
    };
    let _ = write!(
        out,
        "::{command} file={},line={},endLine={}",
        property(&file.name),
        start.line + 1,
        end.line + 1
    );
    // Columns are refused where the lines differ, and an end that is no further.
    if start.line == end.line && start.column < end.column {
        let _ = write!(out, ",col={},endColumn={}", start.column + 1, end.column + 1);
    }
    let mut message = finding.message.clone();
    if !finding.help.is_empty() {
        message.push('\n');
        message.push_str(&finding.help);
    }
    let _ = writeln!(out, ",title={}::{}", property(finding.rule), data(&message));
}

/// A message: what ends the line is escaped.
fn data(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// A property: what ends it too.
fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{finding, outcome};

    fn told(name: &str, text: &str, finding: Finding) -> String {
        let mut out = String::new();
        let style = Style { colour: false, waived: false, columns: Columns::Scalars };
        outcome(&[(name, text)], vec![finding], |outcome| out = annotations(outcome, style));
        out
    }

    #[test]
    fn a_finding_is_one_line_whatever_it_says() {
        let mut sly = finding(0, 7..8);
        sly.message = "100 %\n::error::no".to_owned();
        assert_eq!(
            told("a,b:c.pour", "drink: A", sly),
            "::warning file=a%2Cb%3Ac.pour,line=1,endLine=1,col=8,endColumn=9,\
             title=measures-disagree::100 %25%0A::error::no%0Akeep one of the two\n"
        );
    }

    #[test]
    fn columns_stand_on_one_line_alone() {
        let told = told("a.pour", "drink: A\n  1 oz gin", finding(0, 0..12));
        assert!(told.starts_with("::warning file=a.pour,line=1,endLine=2,title="), "{told}");
    }
}
