//! The findings that a house knows of and has put aside: new ones still count.

use std::collections::BTreeMap;
use std::fmt;

use serde::{Deserialize, Serialize};
use washline_text::Finding;

use crate::Outcome;

/// The name of the file where none is said.
pub const FILE: &str = "washline-baseline.json";

/// The form of the file that is written and read.
const FORMAT: u32 = 1;

/// Known findings, by fingerprint.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Baseline {
    known: BTreeMap<String, usize>,
}

/// Why a baseline could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BaselineError {
    /// What is wrong.
    pub message: String,
    /// The byte at which reading stopped.
    pub offset: usize,
}

impl fmt::Display for BaselineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for BaselineError {}

#[derive(Serialize, Deserialize)]
struct Written {
    format: u32,
    /// The program's, when it wrote the file.
    version: String,
    findings: Vec<Known>,
}

/// The fingerprint decides; the rest is for people who read the file.
#[derive(Serialize, Deserialize, PartialEq, Eq, PartialOrd, Ord)]
struct Known {
    rule: String,
    entry: Option<String>,
    message: String,
    fingerprint: String,
}

impl Baseline {
    /// Reads the text of a baseline file.
    ///
    /// # Errors
    /// [`BaselineError`] where the text is no such file, or one of a later version.
    pub fn read(text: &str) -> Result<Self, BaselineError> {
        let written: Written = serde_json::from_str(text).map_err(|error| BaselineError {
            message: error.to_string(),
            offset: offset(text, error.line(), error.column()),
        })?;
        if written.format != FORMAT {
            let message = format!("its format is {}, this program reads {FORMAT}", written.format);
            return Err(BaselineError { message, offset: 0 });
        }
        let mut known = BTreeMap::new();
        for finding in written.findings {
            *known.entry(finding.fingerprint).or_insert(0) += 1;
        }
        Ok(Self { known })
    }

    /// Whether it holds a finding like this one.
    #[must_use]
    pub fn knows(&self, finding: &Finding) -> bool {
        self.known.contains_key(&finding.fingerprint)
    }

    /// Marks the findings that it knows; each of its lines holds one.
    pub fn mark(&self, findings: &mut [Finding]) {
        let mut left = self.known.clone();
        for finding in findings {
            if let Some(count) = left.get_mut(&finding.fingerprint).filter(|count| **count > 0) {
                *count -= 1;
                finding.baselined = true;
            }
        }
    }
}

/// The text of a baseline file that holds every finding of `outcome` that is not let off.
/// The order is that of the rules' names, so that two versions compare line by line.
#[must_use]
pub fn write(outcome: &Outcome<'_>) -> String {
    let standing = outcome.findings().iter().filter(|finding| !finding.waived);
    let mut findings: Vec<Known> = standing
        .map(|finding| Known {
            rule: finding.rule.to_owned(),
            entry: finding.entry.as_ref().map(|entry| entry.name.to_string()),
            message: finding.message.clone(),
            fingerprint: finding.fingerprint.clone(),
        })
        .collect();
    findings.sort();
    let version = env!("CARGO_PKG_VERSION").to_owned();
    let written = Written { format: FORMAT, version, findings };
    let mut out = serde_json::to_string_pretty(&written).unwrap_or_default();
    out.push('\n');
    out
}

/// The byte at a line and column that count from 1, the column in bytes.
fn offset(text: &str, line: usize, column: usize) -> usize {
    let before: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    (before + column.saturating_sub(1)).min(text.len())
}

#[cfg(test)]
mod tests {
    use expect_test::expect;

    use super::*;
    use crate::checks::{finding, outcome};

    #[test]
    fn what_is_written_is_known_again() {
        let mut waived = finding(0, 0..0);
        waived.waived = true;
        outcome(&[("a.pour", "drink: A")], vec![finding(0, 0..5), waived], |outcome| {
            let text = write(outcome);
            expect![[r#"
                {
                  "format": 1,
                  "version": "0.1.0",
                  "findings": [
                    {
                      "rule": "measures-disagree",
                      "entry": "Quarry Lane",
                      "message": "1 oz is 29.6 ml, the line says 20 ml: 32 % apart",
                      "fingerprint": "v1:0123456789abcdef"
                    }
                  ]
                }
            "#]]
            .assert_eq(&text);
            let baseline = Baseline::read(&text).unwrap();
            // One of a kind was known; a second one like it is new.
            let mut findings = [finding(0, 0..5), finding(0, 0..5)];
            baseline.mark(&mut findings);
            assert!(findings[0].baselined && !findings[1].baselined);
        });
    }

    #[test]
    fn what_is_no_baseline_is_refused_where_it_goes_wrong() {
        let wrong = |text: &str| Baseline::read(text).unwrap_err();
        assert_eq!(wrong("{\n  \"format\": true\n}").offset, 17);
        let later = r#"{"format": 2, "version": "9.0.0", "findings": []}"#;
        assert_eq!(wrong(later).message, "its format is 2, this program reads 1");
    }
}
