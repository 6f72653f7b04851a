//! A rule for people: why, a spec that is flagged, the spec mended, the source.

use std::fmt::Write;

use washline_rules::{Group, Rule};

use crate::grid::Grid;
use crate::pages::{self, fixes, severity};

/// All that a rule says of itself.
pub(super) fn write(rule: &Rule, out: &mut String) {
    let prose = rule.parts();
    let _ = writeln!(out, "{}: a rule of the group {}", rule.name, rule.group.name());
    let mut grid = Grid::default();
    grid.row().left("severity").left(severity(rule));
    grid.row().left("fixes").left(fixes(rule.fixes));
    grid.write(out);
    section("Why", &prose.why, out);
    section("Settings", &prose.settings, out);
    for spec in &prose.flagged {
        section("Flagged", spec, out);
        section("The check says", &pages::said(rule, spec, &prose.settings), out);
    }
    prose.mended.iter().for_each(|spec| section("Mended", spec, out));
    section("Source", &prose.source, out);
    section("Page", &rule.page(), out);
}

/// Every rule, a line each, below its group.
pub(super) fn list() -> String {
    let mut out = String::new();
    let mut group: Option<Group> = None;
    let mut grid = Grid::default();
    for rule in washline_rules::all() {
        if group != Some(rule.group) {
            grid.write(&mut out);
            grid = Grid::default();
            let blank = if group.is_some() { "\n" } else { "" };
            let _ = writeln!(out, "{blank}{}", rule.group.name());
            group = Some(rule.group);
        }
        grid.row().left(rule.name).left(severity(rule)).left(rule.why);
    }
    grid.write(&mut out);
    out
}

fn section(heading: &str, text: &str, out: &mut String) {
    if text.trim().is_empty() {
        return;
    }
    let _ = writeln!(out, "\n{heading}");
    for line in text.trim_end().lines() {
        let line = format!("  {line}");
        let _ = writeln!(out, "{}", line.trim_end());
    }
}
