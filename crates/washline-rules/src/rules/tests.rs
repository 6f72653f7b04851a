//! What holds for every rule: its file, its prose, its examples.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use super::{all, find};
use crate::{Check, Fixes, Rule, harness};

/// Every file below a group's folder is a rule of that name, and the reverse.
#[test]
#[expect(clippy::disallowed_methods, reason = "a test that reads the crate's own files")]
fn the_list_is_the_files() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules");
    let mut files = BTreeSet::new();
    for group in fs::read_dir(root).unwrap().map(Result::unwrap) {
        if !group.path().is_dir() {
            continue;
        }
        for file in fs::read_dir(group.path()).unwrap().map(Result::unwrap) {
            let path = file.path();
            let stem = path.file_stem().unwrap().to_string_lossy().replace('_', "-");
            if find(&stem).is_some() || stem != "mend" {
                files.insert(stem);
            }
        }
    }
    let listed: BTreeSet<String> = all().map(|rule| rule.name.to_owned()).collect();
    assert_eq!(listed, files);
}

/// Every rule is tried on a spec that a hasty reader would flag and that must stay silent: one
/// that its tests give without a caret.
#[test]
#[expect(clippy::disallowed_methods, reason = "a test that reads the crate's own files")]
fn every_rule_has_cases_where_it_is_silent() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules");
    let mut cases = 0;
    for rule in all().filter(|rule| is_of_text(rule)) {
        let file = format!("{}/{}.rs", rule.group.name(), rule.name.replace('-', "_"));
        let text = fs::read_to_string(root.join(&file)).unwrap();
        let (_, tests) = text.split_once("#[cfg(test)]").unwrap();
        let checked: Vec<&str> = ["check(", "check_under("]
            .iter()
            .flat_map(|call| tests.split(call).skip(1))
            .map(|rest| rest.split_once(");").map_or(rest, |(given, _)| given))
            .collect();
        let asked = ["message(", "severity(", "fixed(", "names(", "findings("];
        cases += checked.len();
        cases += asked.iter().map(|call| tests.matches(call).count()).sum::<usize>();
        cases += rule.parts().flagged.len() + rule.parts().mended.len();
        let silent = checked.iter().any(|given| !given.contains('^'));
        assert!(silent, "{}: no test in which it is silent", rule.name);
    }
    assert!(cases >= 500, "{cases} cases");
}

#[test]
fn names_are_one_each() {
    let names: Vec<&str> = all().map(|rule| rule.name).collect();
    let set: BTreeSet<&str> = names.iter().copied().collect();
    assert_eq!(names.len(), set.len());
}

/// Every rule says why, shows a spec that breaks it and the spec mended, and names its source.
#[test]
fn every_rule_has_its_prose() {
    for rule in all() {
        let prose = rule.parts();
        assert!(prose.why.len() > 40, "{}: why", rule.name);
        assert!(!prose.source.is_empty(), "{}: source", rule.name);
        assert!(!prose.flagged.is_empty(), "{}: flagged", rule.name);
        assert_eq!(prose.flagged.len(), prose.mended.len(), "{}: mended", rule.name);
        assert!(rule.why.len() < 120 && !rule.why.ends_with('.'), "{}: one clause", rule.name);
    }
}

/// Examples of bytes that are no text are run by their rule's own tests.
fn is_of_text(rule: &Rule) -> bool {
    !matches!(rule.check, Check::Bytes)
}

/// Each flagged example gives that finding and no other; each mended one none.
#[test]
fn examples_are_executed() {
    let mut wrong = Vec::new();
    for rule in all().filter(|rule| is_of_text(rule)) {
        let prose = rule.parts();
        for text in &prose.flagged {
            let found = harness::names(text, &prose.settings);
            if found.is_empty() || found.iter().any(|name| *name != rule.name) {
                wrong.push(format!("{}: flagged gives {found:?}\n{text}", rule.name));
            }
        }
        for text in &prose.mended {
            let found = harness::shown(text, &prose.settings);
            if !found.is_empty() {
                let found = found.join("\n");
                wrong.push(format!("{}: mended gives\n{found}\n{text}", rule.name));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A rule that says it fixes offers a fix of that kind in its examples. Each fix, the alternatives
/// among them, gives text in which the finding is gone and nothing graver than it is new; applied
/// round after round they come to rest.
#[test]
fn fixes_are_what_they_say() {
    let mut wrong = Vec::new();
    for rule in all().filter(|rule| is_of_text(rule)) {
        let prose = rule.parts();
        let mut kinds = (false, false);
        for text in &prose.flagged {
            for finding in harness::findings(text, &prose.settings) {
                for fix in &finding.fixes {
                    if fix.safe {
                        kinds.0 = true;
                    } else {
                        kinds.1 = true;
                    }
                }
                let ill = |fix| harness::ill(rule, text, &prose.settings, (&finding, fix));
                wrong.extend(finding.fixes.iter().filter_map(ill));
            }
            wrong.extend(harness::restless(rule, text, &prose.settings));
        }
        let said = match rule.fixes {
            Fixes::None => (false, false),
            Fixes::Safe => (true, false),
            Fixes::Unsafe => (false, true),
            Fixes::Both => (true, true),
        };
        assert_eq!(kinds, said, "{}: (safe, unsafe) fixes emitted against declared", rule.name);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
