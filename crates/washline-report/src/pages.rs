//! The rules' pages: what each rule says, with what the check says of its own examples.

use std::fmt::Write;
use std::sync::Arc;

use washline_book::{Known, Settings, Workspace, read_settings};
use washline_reference as reference;
use washline_rules::{Check, Fixes, Group, Rule, all};
use washline_text::{Columns, Severity};

use crate::{Outcome, Style, text};

/// The page of a rule, Markdown: its severity and fixes, why, a spec that is flagged with what
/// the check says of it, the spec mended, the source.
#[must_use]
pub fn page(rule: &Rule) -> String {
    format!("# {}\n\n{}", rule.name, body(rule))
}

/// The page without its title.
pub(crate) fn body(rule: &Rule) -> String {
    let prose = rule.parts();
    let mut out = format!(
        "Group {} · severity {} · fix: {}\n\n{}\n",
        rule.group.name(),
        severity(rule),
        fixes(rule.fixes),
        if prose.why.is_empty() { rule.why } else { &prose.why },
    );
    if !prose.settings.is_empty() {
        section("House standards", "toml", &prose.settings, &mut out);
    }
    for spec in &prose.flagged {
        section("Flagged", "pour", spec, &mut out);
        let said = said(rule, spec, &prose.settings);
        if !said.is_empty() {
            let _ = write!(out, "\n```text\n{said}```\n");
        }
    }
    for spec in &prose.mended {
        section("Mended", "pour", spec, &mut out);
    }
    if !prose.source.is_empty() {
        let _ = write!(out, "\n## Source\n\n{}\n", prose.source);
    }
    out
}

/// The index of all rules, Markdown: the one table of rule, severity and fix, by group.
#[must_use]
pub fn index() -> String {
    let mut out = String::from(
        "# The rules\n\nEach has a page. `washline explain RULE` prints it; `[rules]` in \
         `washline.toml` sets its severity, or `off`.\n",
    );
    let mut group: Option<Group> = None;
    for rule in all() {
        if group != Some(rule.group) {
            group = Some(rule.group);
            let name = rule.group.name();
            let _ = write!(
                out,
                "\n## {name}\n\n| rule | severity | fix | why |\n| --- | --- | --- | --- |\n"
            );
        }
        let (name, why) = (rule.name, rule.why.replace('|', "\\|"));
        let (severity, fixes) = (severity(rule), fixes(rule.fixes));
        let _ = writeln!(out, "| [{name}]({name}.md) | {severity} | {fixes} | {why} |");
    }
    out
}

/// What the check says of `spec`: the findings of the rule itself.
pub(crate) fn said(rule: &Rule, spec: &str, settings: &str) -> String {
    // Bytes that are no text have no spec.
    if matches!(rule.check, Check::Bytes) {
        return String::new();
    }
    let files = vec![(Arc::from("book.pour"), Arc::from(spec))];
    let workspace = Workspace::new(files, standards(settings));
    let mut findings = washline_rules::check(&workspace);
    findings.retain(|finding| finding.rule == rule.name);
    let mut outcome = Outcome::default();
    outcome.add(&workspace, vec!["book.pour".to_owned()], findings);
    let style = Style { colour: false, waived: true, columns: Columns::Scalars };
    let told = text(&outcome, style);
    // The count of books and findings says nothing of the rule.
    let end = told.trim_end().rfind("\n\n").map_or(told.len(), |end| end + 1);
    told.get(..end).unwrap_or(&told).to_owned()
}

fn standards(toml: &str) -> Settings {
    let rules: Vec<&str> = all().map(|rule| rule.name).collect();
    let families: Vec<&str> = reference::families().iter().map(|family| family.name).collect();
    let techniques: Vec<&str> = reference::techniques().iter().map(|one| one.name).collect();
    let known = Known { rules: &rules, families: &families, techniques: &techniques };
    read_settings(toml, &known).unwrap_or_default()
}

fn section(heading: &str, language: &str, text: &str, out: &mut String) {
    let _ = write!(out, "\n## {heading}\n\n```{language}\n{}\n```\n", text.trim_end());
}

/// The word of its severity where the house says nothing.
pub(crate) fn severity(rule: &Rule) -> &'static str {
    rule.severity.map_or("off", Severity::name)
}

/// Which fixes it has, in words.
pub(crate) const fn fixes(fixes: Fixes) -> &'static str {
    match fixes {
        Fixes::None => "none",
        Fixes::Safe => "safe",
        Fixes::Unsafe => "for a person to confirm",
        Fixes::Both => "safe, and some for a person to confirm",
    }
}
