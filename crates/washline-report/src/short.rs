//! Findings one a line, in the GNU form that editors and tools jump by.

use std::fmt::Write;

use crate::text::message;
use crate::{Outcome, Style, escape};

/// `file:line:column: severity: message [rule]`, a line each.
#[must_use]
pub fn short(outcome: &Outcome<'_>, style: Style) -> String {
    let mut out = String::new();
    for finding in outcome.shown(style.waived) {
        let Some(file) = outcome.file(finding.place.file) else { continue };
        let at = file.position(finding.place.span.start, style.columns);
        let name = escape::on_one_line(&file.name);
        let (line, column) = (at.line + 1, at.column + 1);
        let (severity, message) = (finding.severity, message(finding));
        let _ = writeln!(out, "{name}:{line}:{column}: {severity}: {message} [{}]", finding.rule);
    }
    out
}

#[cfg(test)]
mod tests {
    use washline_text::Columns;

    use super::*;
    use crate::checks::{finding, outcome};

    #[test]
    fn one_line_a_finding() {
        let text = "drink: A\r  é\u{1f34b} gin\n";
        let start = u32::try_from(text.find("gin").unwrap()).unwrap();
        let mut found = finding(0, start..start + 3);
        found.message = "a\nb".to_owned();
        outcome(&[("a.pour", text)], vec![found], |outcome| {
            let column = |columns| {
                let line = short(outcome, Style { columns, ..Style::default() });
                let rest = line.strip_prefix("a.pour:2:").unwrap().to_owned();
                rest.split_once(": warning: a\\u{a}b [measures-disagree]\n").unwrap().0.to_owned()
            };
            assert_eq!(column(Columns::Scalars), "6");
            assert_eq!(column(Columns::Utf16), "7");
            assert_eq!(column(Columns::Bytes), "10");
        });
    }
}
