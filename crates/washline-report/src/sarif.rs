//! Findings as SARIF 2.1.0, for code scanning services.
//!
//! The format is OASIS's (*Static Analysis Results Interchange Format Version 2.1.0*, OASIS
//! Standard, 27 March 2020). Columns count UTF-16 code units, regions are half open.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use washline_rules::Rule;
use washline_text::{Columns, FileId, Finding, Fix, Place, Severity};

use crate::Outcome;
use crate::line_hash::line_hashes;

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// How many characters a service keeps of a rule's description.
const DESCRIPTION: usize = 1024;

/// The findings as one SARIF log, with a line end. Those that are waived or known are told as
/// suppressed.
#[must_use]
pub fn sarif(outcome: &Outcome<'_>) -> String {
    let mut log = Log { outcome, rules: rules(outcome), hashes: BTreeMap::new() };
    let results: Vec<Value> = outcome.findings().iter().map(|found| log.result(found)).collect();
    let run = json!({
        "tool": { "driver": {
            "name": "Washline",
            "version": env!("CARGO_PKG_VERSION"),
            "semanticVersion": env!("CARGO_PKG_VERSION"),
            "informationUri": env!("CARGO_PKG_REPOSITORY"),
            "rules": log.rules.iter().map(|rule| descriptor(rule)).collect::<Vec<_>>(),
        }},
        "automationDetails": { "id": "washline/" },
        "columnKind": "utf16CodeUnits",
        "results": results,
    });
    let whole = json!({ "$schema": SCHEMA, "version": "2.1.0", "runs": [run] });
    format!("{whole}\n")
}

/// The rules that have findings, in the order of the rules' page.
fn rules(outcome: &Outcome<'_>) -> Vec<&'static Rule> {
    let found = |rule: &&Rule| outcome.findings().iter().any(|finding| finding.rule == rule.name);
    washline_rules::all().filter(found).collect()
}

fn descriptor(rule: &Rule) -> Value {
    let prose = rule.parts();
    let why = if prose.why.is_empty() { rule.why.to_owned() } else { prose.why.clone() };
    let full: String = why.chars().take(DESCRIPTION).collect();
    json!({
        "id": rule.name,
        "shortDescription": { "text": rule.why },
        "fullDescription": { "text": full },
        "help": { "text": why, "markdown": crate::pages::body(rule) },
        "helpUri": rule.page(),
        "defaultConfiguration": {
            "level": rule.severity.map_or("none", level),
            "enabled": rule.severity.is_some(),
        },
        "properties": { "tags": [rule.group.name()] },
    })
}

struct Log<'a> {
    outcome: &'a Outcome<'a>,
    rules: Vec<&'static Rule>,
    /// The hashes of the lines of each file that has a finding.
    hashes: BTreeMap<FileId, Vec<String>>,
}

impl Log<'_> {
    fn result(&mut self, finding: &Finding) -> Value {
        let mut text = finding.message.clone();
        for more in [&finding.why, &finding.help] {
            if !more.is_empty() {
                text.push('\n');
                text.push_str(more);
            }
        }
        let related = finding.related.iter().enumerate().map(|(n, related)| {
            let mut location = self.location(related.place);
            if let Some(location) = location.as_object_mut() {
                location.insert("id".to_owned(), json!(n + 1));
                location.insert("message".to_owned(), json!({ "text": related.message }));
            }
            location
        });
        let related: Vec<Value> = related.collect();
        let mut result = json!({
            "ruleId": finding.rule,
            "level": level(finding.severity),
            "message": { "text": text },
            "locations": [self.location(finding.place)],
            "relatedLocations": related,
            "fixes": finding.fixes.iter().map(|fix| self.fix(fix)).collect::<Vec<_>>(),
            "suppressions": suppressions(finding),
            "partialFingerprints": {
                "washlineFinding/v1": finding.fingerprint,
                "primaryLocationLineHash": self.line_hash(finding.place),
            },
        });
        let index = self.rules.iter().position(|rule| rule.name == finding.rule);
        if let (Some(index), Some(result)) = (index, result.as_object_mut()) {
            result.insert("ruleIndex".to_owned(), json!(index));
        }
        result
    }

    fn fix(&self, fix: &Fix) -> Value {
        let mut by_file: BTreeMap<FileId, Vec<Value>> = BTreeMap::new();
        for (file, edit) in &fix.edits {
            let deleted = self.region(Place { file: *file, span: edit.span });
            let replacement =
                json!({ "deletedRegion": deleted, "insertedContent": { "text": edit.text } });
            by_file.entry(*file).or_default().push(replacement);
        }
        let changes: Vec<Value> = by_file
            .into_iter()
            .map(|(file, replacements)| {
                json!({ "artifactLocation": self.artifact(file), "replacements": replacements })
            })
            .collect();
        json!({ "description": { "text": fix.title }, "artifactChanges": changes })
    }

    fn location(&self, place: Place) -> Value {
        json!({ "physicalLocation": {
            "artifactLocation": self.artifact(place.file),
            "region": self.region(place),
        }})
    }

    fn artifact(&self, file: FileId) -> Value {
        json!({ "uri": self.outcome.file(file).map_or(String::new(), |file| uri(&file.name)) })
    }

    fn region(&self, place: Place) -> Value {
        let Some(file) = self.outcome.file(place.file) else { return json!({ "startLine": 1 }) };
        let start = file.position(place.span.start, Columns::Utf16);
        let end = file.position(place.span.end, Columns::Utf16);
        json!({
            "startLine": start.line + 1,
            "startColumn": start.column + 1,
            "endLine": end.line + 1,
            "endColumn": end.column + 1,
        })
    }

    fn line_hash(&mut self, place: Place) -> String {
        let Some(file) = self.outcome.file(place.file) else { return String::new() };
        let line = file.index.line_of(place.span.start) as usize;
        let hashes = self.hashes.entry(place.file).or_insert_with(|| line_hashes(file.text));
        hashes.get(line).or(hashes.last()).cloned().unwrap_or_default()
    }
}

/// Why a result does not count: the entry lets it off, or the baseline knows it.
fn suppressions(finding: &Finding) -> Value {
    let mut out = Vec::new();
    if finding.waived {
        out.push(match finding.waived_because() {
            Some(reason) => json!({ "kind": "inSource", "justification": reason }),
            None => json!({ "kind": "inSource" }),
        });
    }
    if finding.baselined {
        out.push(json!({ "kind": "external" }));
    }
    out.into()
}

const fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Information | Severity::Hint => "note",
    }
}

/// A path as a relative reference (RFC 3986): bytes outside of its unreserved characters are
/// percent-encoded, slashes stay; a first segment with a colon is no scheme.
fn uri(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                out.push(char::from(byte));
            }
            byte => {
                out.push_str(&format!("%{byte:02X}"));
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use washline_text::{Edit, Entry, Kind, Related, Span};

    use super::*;
    use crate::checks::{finding, outcome, place};

    fn log(files: &[(&str, &str)], findings: Vec<Finding>) -> Value {
        let mut log = Value::Null;
        outcome(files, findings, |outcome| log = serde_json::from_str(&sarif(outcome)).unwrap());
        log
    }

    #[test]
    fn a_result_has_its_rule_place_fix_and_fingerprints() {
        let mut full = finding(0, 12..16);
        full.entry = Some(Entry { kind: Kind::Drink, name: Arc::from("A") });
        full.related = vec![Related { place: place(1, 0..4), message: "here".to_owned() }];
        let edit = Edit::new(Span::new(12, 16), "20 ml");
        full.fixes = vec![Fix {
            title: "keep the first".to_owned(),
            safe: false,
            edits: vec![(FileId(0), edit)],
        }];
        let log =
            log(&[("bär/a b.pour", "drink: 🍋\n  1 oz gin"), ("b.pour", "prep: B")], vec![full]);
        let run = &log["runs"][0];
        assert_eq!(run["columnKind"], "utf16CodeUnits");
        let result = &run["results"][0];
        let index = result["ruleIndex"].as_u64().unwrap() as usize;
        let rule = &run["tool"]["driver"]["rules"][index];
        assert_eq!((&rule["id"], &result["ruleId"]), (&json!("measures-disagree"), &rule["id"]));
        assert!(rule["help"]["markdown"].as_str().unwrap().contains("```"));
        assert!(rule["helpUri"].as_str().unwrap().ends_with("/measures-disagree.md"));
        let physical = &result["locations"][0]["physicalLocation"];
        assert_eq!(physical["artifactLocation"]["uri"], "b%C3%A4r/a%20b.pour");
        let region = json!({"startLine": 2, "startColumn": 1, "endLine": 2, "endColumn": 5});
        assert_eq!(physical["region"], region);
        assert_eq!(result["relatedLocations"][0]["message"]["text"], "here");
        let replacement = &result["fixes"][0]["artifactChanges"][0]["replacements"][0];
        assert_eq!(replacement["insertedContent"]["text"], "20 ml");
        let prints = &result["partialFingerprints"];
        assert_eq!(prints["washlineFinding/v1"], "v1:0123456789abcdef");
        assert!(prints["primaryLocationLineHash"].as_str().unwrap().ends_with(":1"));
    }

    #[test]
    fn what_does_not_count_is_suppressed() {
        let (mut waived, mut known) = (finding(0, 0..1), finding(0, 1..2));
        (waived.waived, known.baselined) = (true, true);
        let log = log(&[("a.pour", "drink: A")], vec![waived, known, finding(0, 2..3)]);
        let kinds = |n: usize| log["runs"][0]["results"][n]["suppressions"].clone();
        assert_eq!(kinds(0), json!([{ "kind": "inSource" }]));
        assert_eq!(kinds(1), json!([{ "kind": "external" }]));
        assert_eq!(kinds(2), json!([]));
    }
}
