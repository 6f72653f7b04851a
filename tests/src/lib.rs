//! Helpers that the workspace tests share.

pub mod generated;
mod line_kinds;
pub mod specs;

pub use line_kinds::line_kinds;

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use washline_book::{Figure, Known, Record, Settings, Workspace, read_settings};
use washline_measure::Interval;
use washline_text::Finding;

/// The root of the repository.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// Every file with the ending `.pour` below `folder`, sorted, with its text.
#[must_use]
pub fn specs(folder: &Path) -> Vec<(PathBuf, String)> {
    let mut out = Vec::new();
    let mut open = vec![folder.to_owned()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|ending| ending == "pour")
                && let Ok(text) = String::from_utf8(fs::read(&path).unwrap())
            {
                out.push((path, text));
            }
        }
    }
    out.sort();
    out
}

/// The workspace of `texts` under a `washline.toml`; empty settings are a house that has said nothing.
#[must_use]
pub fn workspace(texts: &[(&str, &str)], settings: &str) -> Workspace {
    let rules: Vec<&str> = washline_rules::all().map(|rule| rule.name).collect();
    let families: Vec<&str> = washline_reference::families().iter().map(|f| f.name).collect();
    let techniques: Vec<&str> = washline_reference::techniques().iter().map(|t| t.name).collect();
    let known = Known { rules: &rules, families: &families, techniques: &techniques };
    let settings = match settings {
        "" => Settings::default(),
        text => read_settings(text, &known).expect("the settings are read"),
    };
    let files = texts.iter().map(|(name, text)| (Arc::from(*name), Arc::from(*text))).collect();
    Workspace::new(files, settings)
}

/// The entry called `name`.
#[must_use]
pub fn entry<'a>(workspace: &'a Workspace, name: &str) -> &'a Record {
    let found = workspace.records().iter().find(|record| &*record.name == name);
    found.expect("the entry is there")
}

/// A figure of the only entry of `text`.
#[must_use]
pub fn figure(text: &str, figure: Figure) -> Interval {
    let workspace = workspace(&[("book.pour", text)], "");
    let record = workspace.records().last().unwrap();
    record.figures.get(figure).expect("the figure applies")
}

/// Findings as `rule: message` with the entry's name before them.
#[must_use]
pub fn told(findings: &[Finding]) -> Vec<String> {
    let entry = |finding: &Finding| finding.entry.as_ref().map(|entry| entry.name.to_string());
    findings
        .iter()
        .map(|f| {
            format!("{} {} {}: {}", entry(f).unwrap_or_default(), f.severity, f.rule, f.message)
        })
        .collect()
}

/// The program that `cargo test --workspace` has built beside the test that runs.
///
/// # Panics
/// Where it is missing: `cargo build -p washline` makes it.
#[must_use]
pub fn program() -> PathBuf {
    let this = std::env::current_exe().unwrap();
    let folder = this.ancestors().nth(2).unwrap();
    let program = folder.join(format!("washline{}", std::env::consts::EXE_SUFFIX));
    assert!(program.is_file(), "{} is missing: cargo build -p washline", program.display());
    program
}
