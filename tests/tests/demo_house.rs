//! The demo house: a group's standard, a venue that starts from it, and an old card whose known
//! findings a baseline holds.

use std::process::{Command, Output};

use washline_tests::{program, root};

const LAST_SUMMER: &str = "corpus/house/slip/last-summer.pour";

fn check(arguments: &[&str]) -> Output {
    let run = Command::new(program()).arg("check").args(arguments).current_dir(root()).output();
    run.unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// What the README shows first, venue and all.
#[test]
fn it_is_clean() {
    let output = check(&["corpus/house"]);
    assert!(output.status.success(), "{}", said(&output));
    assert!(said(&output).contains("nothing found"), "{}", said(&output));
}

/// The venue's own limits hold on its slip, and the group's beside them.
#[test]
fn the_venue_holds_to_the_groups_standard_too() {
    let output = check(&[LAST_SUMMER, "--output", "short"]);
    for rule in ["[measures-disagree]", "[required-field]", "[naming]"] {
        assert!(said(&output).contains(rule), "{rule}\n{}", said(&output));
    }
    assert!(!output.status.success());
}

#[test]
fn what_was_wrong_last_summer_is_held_by_the_baseline() {
    let baseline = "corpus/house/slip/washline-baseline.json";
    let output = check(&[LAST_SUMMER, "--baseline", baseline]);
    assert!(output.status.success(), "{}", said(&output));
    assert!(said(&output).contains("in the baseline"), "{}", said(&output));
}
