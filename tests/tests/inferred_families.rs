//! The families of official drinks, left unsaid, against those assigned by the technique and
//! make of each.
//!
//! Source: International Bartenders Association, official cocktail list, 2025 edition, odd
//! positions, as facts; the assignment is common practice, no source.

use std::fs;

use washline_rules::{Group, check, find};
use washline_tests::{root, told, workspace};
use washline_text::Severity;

fn official() -> String {
    fs::read_to_string(root().join("tests/data/official.pour")).unwrap()
}

fn unsaid() -> String {
    let lines = official();
    let kept = lines.lines().filter(|line| !line.trim_start().starts_with("family:"));
    kept.map(|line| format!("{line}\n")).collect()
}

/// Most are inferred as assigned; the others lie between two families, as a cobbler that is all
/// wine or an old-fashioned that is also spirit-forward.
#[test]
fn most_are_inferred_as_they_were_assigned() {
    let (official, unsaid) = (official(), unsaid());
    let stated = workspace(&[("official.pour", &official)], "");
    let inferred = workspace(&[("official.pour", &unsaid)], "");
    let pairs = stated.records().iter().zip(inferred.records());
    let (same, other): (Vec<_>, Vec<_>) = pairs
        .map(|(stated, inferred)| (&inferred.name, &stated.families.list, &inferred.families.list))
        .partition(|(_, stated, inferred)| stated == inferred);
    assert!(same.len() >= 36, "{} of {}: {other:?}", same.len(), stated.records().len());
}

/// An inferred family is uncertain ground: nothing it says of balance is above information.
#[test]
fn an_inferred_family_accuses_nobody() {
    let text = unsaid();
    let mut findings = check(&workspace(&[("official.pour", &text)], ""));
    findings.retain(|finding| {
        let group = find(finding.rule).map(|rule| rule.group);
        group == Some(Group::Balance) && finding.severity < Severity::Information
    });
    assert!(findings.is_empty(), "{}", told(&findings).join("\n"));
}
