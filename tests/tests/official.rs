//! Half of the official list of the International Bartenders Association (2025 edition), as
//! facts: amounts and generic ingredients, each drink named by its position in the list.
//!
//! A default rule that condemns a classic is at fault until shown otherwise.

use std::fs;

use washline_rules::{Group, check, find};
use washline_tests::{root, told, workspace};
use washline_text::{Finding, Severity};

fn findings() -> (usize, Vec<Finding>) {
    let text = fs::read_to_string(root().join("tests/data/official.pour")).unwrap();
    let workspace = workspace(&[("official.pour", &text)], "");
    (workspace.records().len(), check(&workspace))
}

#[test]
fn all_are_read_and_every_name_is_known() {
    let (count, findings) = findings();
    assert_eq!(count, 48);
    let unread: Vec<Finding> = findings
        .into_iter()
        .filter(|finding| {
            let group = find(finding.rule).map(|rule| rule.group);
            finding.severity == Severity::Error && group == Some(Group::Notation)
                || finding.rule == "unknown-ingredient"
        })
        .collect();
    assert!(unread.is_empty(), "{}", told(&unread).join("\n"));
}

#[test]
fn every_drink_has_its_figures() {
    let text = fs::read_to_string(root().join("tests/data/official.pour")).unwrap();
    let workspace = workspace(&[("official.pour", &text)], "");
    for record in workspace.records() {
        let abv = record.figures.value(washline_book::Figure::Abv);
        assert!(abv.is_some_and(|abv| (3.0..45.0).contains(&abv)), "{}: {abv:?}", record.name);
    }
}

/// What balance, dilution and technique say above information of an official drink, and why
/// each stands.
const DEFENSIBLE: &[(&str, &str, &str)] = &[(
    "Official 43",
    "too-sweet",
    "pineapple is its only acid: as a sour it is far sweeter than any of the others",
)];

#[test]
fn few_are_told_anything_about_balance_or_dilution() {
    let (count, findings) = findings();
    let told_of: Vec<(String, &str)> = findings
        .iter()
        .filter(|finding| finding.severity <= Severity::Warning)
        .filter(|finding| {
            let group = find(finding.rule).map(|rule| rule.group);
            matches!(group, Some(Group::Balance | Group::Dilution | Group::Method))
        })
        .filter_map(|finding| Some((finding.entry.as_ref()?.name.to_string(), finding.rule)))
        .collect();
    for (name, rule) in &told_of {
        let known = DEFENSIBLE.iter().any(|(drink, of, _)| drink == name && of == rule);
        assert!(known, "{name} gets {rule}\n{}", told(&findings).join("\n"));
    }
    assert!(told_of.len() * 10 < count, "{} of {count}", told_of.len());
}
