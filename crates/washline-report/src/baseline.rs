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

/// Known findings.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Baseline {
    findings: Vec<Known>,
    /// How many of each fingerprint.
    counts: BTreeMap<String, usize>,
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

/// A known finding. The fingerprint decides; the rest is for people who read the file, and tells
/// which findings a run could have met.
#[derive(Clone, Debug, Serialize, Deserialize, PartialEq, Eq, PartialOrd, Ord)]
pub struct Known {
    /// The rule.
    pub rule: String,
    /// The file that it stood in, from the baseline's folder on; none where it lies elsewhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub file: Option<String>,
    /// The entry that it stood in.
    pub entry: Option<String>,
    /// What was found.
    pub message: String,
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
        Ok(Self::of(written.findings))
    }

    fn of(findings: Vec<Known>) -> Self {
        let mut counts = BTreeMap::new();
        for finding in &findings {
            *counts.entry(finding.fingerprint.clone()).or_insert(0) += 1;
        }
        Self { findings, counts }
    }

    /// How many findings it holds.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.findings.len()
    }

    /// Whether it holds none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.findings.is_empty()
    }

    /// Whether it holds a finding like this one.
    #[must_use]
    pub fn knows(&self, finding: &Finding) -> bool {
        self.counts.contains_key(&finding.fingerprint)
    }

    /// Marks the findings that it knows; each of its lines holds one. Those of its lines that hold
    /// none are given back.
    pub fn mark(&self, findings: &mut [Finding]) -> Vec<&Known> {
        let mut left = self.counts.clone();
        for finding in findings {
            if let Some(count) = left.get_mut(&finding.fingerprint).filter(|count| **count > 0) {
                *count -= 1;
                finding.baselined = true;
            }
        }
        let mut idle = Vec::new();
        for known in self.findings.iter().rev() {
            if let Some(count) = left.get_mut(&known.fingerprint).filter(|count| **count > 0) {
                *count -= 1;
                idle.push(known);
            }
        }
        idle.reverse();
        idle
    }

    /// The text of the file without the findings `gone`.
    #[must_use]
    pub fn without(&self, gone: &[&Known]) -> String {
        let mut out: BTreeMap<&Known, usize> = BTreeMap::new();
        for known in gone {
            *out.entry(known).or_insert(0) += 1;
        }
        let mut stay = self.findings.clone();
        stay.retain(|known| match out.get_mut(known).filter(|count| **count > 0) {
            Some(count) => {
                *count -= 1;
                false
            }
            None => true,
        });
        file(stay)
    }
}

/// The text of a baseline file that holds every finding of `outcome` that is not let off. `from`
/// gives the name of a file from the baseline's folder on. The order is that of the rules' names,
/// so that two versions compare line by line.
#[must_use]
pub fn write(outcome: &Outcome<'_>, from: impl Fn(&str) -> Option<String>) -> String {
    let standing = outcome.findings().iter().filter(|finding| !finding.waived);
    let known = standing.map(|finding| Known {
        rule: finding.rule.to_owned(),
        file: outcome.file(finding.place.file).and_then(|file| from(&file.name)),
        entry: finding.entry.as_ref().map(|entry| entry.name.to_string()),
        message: finding.message.clone(),
        fingerprint: finding.fingerprint.clone(),
    });
    file(known.collect())
}

fn file(mut findings: Vec<Known>) -> String {
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
            let text = write(outcome, |name| Some(name.to_owned()));
            expect![[r#"
                {
                  "format": 1,
                  "version": "0.1.0",
                  "findings": [
                    {
                      "rule": "measures-disagree",
                      "file": "a.pour",
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
            assert!(baseline.mark(&mut findings).is_empty());
            assert!(findings[0].baselined && !findings[1].baselined);
            let gone = baseline.mark(&mut []);
            let told: Vec<Option<&str>> = gone.iter().map(|known| known.entry.as_deref()).collect();
            assert_eq!(told, [Some("Quarry Lane")]);
            assert!(Baseline::read(&baseline.without(&gone)).unwrap().is_empty());
        });
    }

    /// A file of a version that named no files is read as before.
    #[test]
    fn what_names_no_file_is_read() {
        let text = r#"{"format": 1, "version": "0.1.0", "findings": [
            {"rule": "naming", "entry": null, "message": "m", "fingerprint": "v1:1"}]}"#;
        assert_eq!(Baseline::read(text).unwrap().len(), 1);
    }

    #[test]
    fn what_is_no_baseline_is_refused_where_it_goes_wrong() {
        let wrong = |text: &str| Baseline::read(text).unwrap_err();
        assert_eq!(wrong("{\n  \"format\": true\n}").offset, 17);
        let later = r#"{"format": 2, "version": "9.0.0", "findings": []}"#;
        assert_eq!(wrong(later).message, "its format is 2, this program reads 1");
    }
}
