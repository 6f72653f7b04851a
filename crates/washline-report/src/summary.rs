//! The last line: what was looked at and what was found.

use washline_text::Severity;

use crate::Outcome;

/// `3 files, 24 entries: 1 error, 2 warnings`, with a line end.
#[must_use]
pub fn line(outcome: &Outcome<'_>) -> String {
    let tally = outcome.tally();
    let mut found: Vec<String> = Severity::ALL
        .into_iter()
        .filter(|severity| tally.of(*severity) > 0)
        .map(|severity| counted(tally.of(severity), severity))
        .collect();
    if found.is_empty() {
        let nothing = if outcome.books == 0 { "nothing was checked" } else { "nothing found" };
        found.push(nothing.to_owned());
    }
    if tally.waived > 0 {
        found.push(format!("{} waived", tally.waived));
    }
    if tally.baselined > 0 {
        found.push(format!("{} in the baseline", tally.baselined));
    }
    let books = many(outcome.books, "file", "files");
    let entries = many(outcome.entries, "entry", "entries");
    format!("{books}, {entries}: {}\n", found.join(", "))
}

fn counted(count: usize, severity: Severity) -> String {
    match severity {
        Severity::Error => many(count, "error", "errors"),
        Severity::Warning => many(count, "warning", "warnings"),
        Severity::Information => format!("{count} for information"),
        Severity::Hint => many(count, "hint", "hints"),
    }
}

fn many(count: usize, one: &str, more: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { more })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{finding, outcome};

    #[test]
    fn it_reads_as_a_sentence() {
        let kinds = [
            (Severity::Warning, false),
            (Severity::Hint, false),
            (Severity::Error, false),
            (Severity::Warning, false),
            (Severity::Warning, true),
            (Severity::Information, false),
        ];
        let findings = kinds.map(|(severity, waived)| {
            let mut found = finding(0, 0..0);
            (found.severity, found.waived) = (severity, waived);
            found
        });
        outcome(&[("a.pour", ""), ("b.pour", "")], findings.into(), |outcome| {
            let expected =
                "2 files, 1 entry: 1 error, 2 warnings, 1 for information, 1 hint, 1 waived\n";
            assert_eq!(line(outcome), expected);
        });
        outcome(&[], Vec::new(), |outcome| {
            assert_eq!(line(outcome), "0 files, 1 entry: nothing was checked\n");
        });
    }
}
