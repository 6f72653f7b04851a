//! How rules are tested: a spec with carets under the words that are flagged.

use std::sync::Arc;

use washline_book::{Known, Settings, Workspace, read_settings};
use washline_text::{Columns, FileId, Finding, Fix, Severity, apply};

use crate::{Reach, Rule, all, check as run, mend};

/// The workspace of one file.
pub(crate) fn workspace(text: &str, settings: &str) -> Workspace {
    let names: Vec<&str> = all().map(|rule| rule.name).collect();
    let families: Vec<&str> = washline_reference::families().iter().map(|f| f.name).collect();
    let techniques: Vec<&str> = washline_reference::techniques().iter().map(|t| t.name).collect();
    let known = Known { rules: &names, families: &families, techniques: &techniques };
    let settings = match settings {
        "" => Settings::default(),
        text => read_settings(text, &known).unwrap(),
    };
    Workspace::new(vec![(Arc::from("book.pour"), Arc::from(text))], settings)
}

/// What all rules find in `text`, waived ones left out.
pub(crate) fn findings(text: &str, settings: &str) -> Vec<Finding> {
    let mut found = run(&workspace(text, settings));
    found.retain(|finding| !finding.waived);
    found
}

/// The names of the rules that find something.
pub(crate) fn names(text: &str, settings: &str) -> Vec<&'static str> {
    findings(text, settings).iter().map(|finding| finding.rule).collect()
}

/// What is found, a line each: place, rule, message.
pub(crate) fn shown(text: &str, settings: &str) -> Vec<String> {
    let workspace = workspace(text, settings);
    let file = workspace.file(FileId(0)).unwrap();
    findings(text, settings)
        .iter()
        .map(|finding| {
            let at = file.index.position(text, finding.place.span.start, Columns::Scalars);
            format!(
                "{}:{} {} {}: {}",
                at.line + 1,
                at.column + 1,
                finding.severity,
                finding.rule,
                finding.message
            )
        })
        .collect()
}

/// Checks that `rule` flags just the words that carets stand under, in a spec such as
///
/// ```text
/// drink: Lantern
///   1 oz (20 ml) gin
///        ^^^^^^^
/// ```
///
/// A spec without carets must not be flagged by `rule`. What other rules find is not looked at.
pub(crate) fn check(rule: &Rule, marked: &str) {
    check_under(rule, "", marked);
}

/// The same under a `washline.toml`.
pub(crate) fn check_under(rule: &Rule, settings: &str, marked: &str) {
    let (text, expected) = unmark(marked);
    let workspace = workspace(&text, settings);
    let file = workspace.file(FileId(0)).unwrap();
    let mut got: Vec<(u32, u32, u32)> = findings(&text, settings)
        .iter()
        .filter(|finding| finding.rule == rule.name)
        .map(|finding| {
            let start = file.index.position(&text, finding.place.span.start, Columns::Scalars);
            let end = file.index.position(&text, finding.place.span.end, Columns::Scalars);
            (start.line, start.column, end.column)
        })
        .collect();
    got.sort_unstable();
    assert_eq!(got, expected, "{}\n{text}\n{}", rule.name, shown(&text, settings).join("\n"));
}

/// The severity with which `rule` flags `text` first.
pub(crate) fn severity(rule: &Rule, text: &str, settings: &str) -> Option<Severity> {
    let found = findings(text, settings);
    found.iter().find(|finding| finding.rule == rule.name).map(|finding| finding.severity)
}

/// The first message of `rule`.
pub(crate) fn message(rule: &Rule, text: &str, settings: &str) -> Option<String> {
    let found = findings(text, settings);
    found.iter().find(|finding| finding.rule == rule.name).map(|finding| finding.message.clone())
}

/// `text` after the first fix of the first finding of `rule`.
pub(crate) fn fixed(rule: &Rule, text: &str, settings: &str) -> Option<String> {
    let found = findings(text, settings);
    let finding = found.iter().find(|finding| finding.rule == rule.name)?;
    Some(applied(text, finding.fixes.first()?))
}

/// What is wrong with `fix`: applying it takes the finding away, and what it brings is no graver
/// than what it mends.
pub(crate) fn ill(
    rule: &Rule,
    text: &str,
    settings: &str,
    (finding, fix): (&Finding, &Fix),
) -> Option<String> {
    let after = applied(text, fix);
    let (before, then) = (findings(text, settings), findings(&after, settings));
    if then.iter().any(|f| f.fingerprint == finding.fingerprint && f.rule == rule.name) {
        return Some(format!("{}: «{}» leaves it\n{after}", rule.name, fix.title));
    }
    let count = |all: &[Finding], name: &str| all.iter().filter(|f| f.rule == name).count();
    let graver = then.iter().find(|new| {
        let more = count(&then, new.rule) > count(&before, new.rule);
        more && new.severity < finding.severity
    });
    graver.map(|new| format!("{}: «{}» brings {}\n{after}", rule.name, fix.title, new.rule))
}

/// What is wrong with mending `text` until nothing is left: that it never ends, or that there is
/// something left to do a second time.
pub(crate) fn restless(rule: &Rule, text: &str, settings: &str) -> Option<String> {
    for reach in [Reach::Safe, Reach::First] {
        let once = mend(workspace(text, settings), reach, &|_| true);
        if once.stopped {
            return Some(format!("{}: {reach:?} fixes never end\n{text}", rule.name));
        }
        let twice = mend(once.workspace, reach, &|_| true);
        if !twice.done.is_empty() {
            return Some(format!("{}: {reach:?}: {:?}\n{text}", rule.name, twice.done));
        }
    }
    None
}

fn applied(text: &str, fix: &Fix) -> String {
    let edits: Vec<_> = fix.edits.iter().map(|(_, edit)| edit.clone()).collect();
    apply(text, &edits).unwrap()
}

/// The bytes of an example whose `\xNN` each stand for one.
pub(crate) fn bytes(example: &str) -> Vec<u8> {
    let mut parts = example.split("\\x");
    let mut out = parts.next().unwrap_or("").as_bytes().to_vec();
    for part in parts {
        out.push(u8::from_str_radix(&part[..2], 16).unwrap());
        out.extend_from_slice(&part.as_bytes()[2..]);
    }
    out
}

/// Takes the caret lines out: the text, and the ranges as line, first and last column.
fn unmark(marked: &str) -> (String, Vec<(u32, u32, u32)>) {
    let mut text = String::new();
    let mut expected = Vec::new();
    let mut line = 0_u32;
    for row in marked.strip_prefix('\n').unwrap_or(marked).lines() {
        if row.trim_start().starts_with('^') {
            let mut start = None;
            for (column, c) in (0_u32..).zip(row.chars().chain([' '])) {
                match (c, start) {
                    ('^', None) => start = Some(column),
                    ('^', Some(_)) => {}
                    (_, Some(from)) => {
                        expected.push((line - 1, from, column));
                        start = None;
                    }
                    _ => {}
                }
            }
            continue;
        }
        text.push_str(row);
        text.push('\n');
        line += 1;
    }
    expected.sort_unstable();
    (text, expected)
}
