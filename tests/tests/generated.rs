//! What is written from the code is as the code has it: the rules' pages, the schema and the
//! page of `washline.toml`.
//!
//! `UPDATE_EXPECT=1 cargo test -p washline-tests --test generated` writes them anew.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use washline_report::{keys, pages};
use washline_rules::all;
use washline_tests::root;

/// Holds the file at `path` to be `wanted`, or writes it.
fn hold(path: &Path, wanted: &str, stale: &mut Vec<String>) {
    if fs::read_to_string(path).unwrap_or_default() == wanted {
        return;
    }
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, wanted).unwrap();
    } else {
        stale.push(path.display().to_string());
    }
}

#[test]
fn every_rule_has_its_page() {
    let folder = root().join("crates/washline-rules/docs");
    let mut wanted: BTreeMap<String, String> =
        all().map(|rule| (format!("{}.md", rule.name), pages::page(rule))).collect();
    wanted.insert("README.md".to_owned(), pages::index());
    let mut stale = Vec::new();
    wanted.iter().for_each(|(name, text)| hold(&folder.join(name), text, &mut stale));
    for file in fs::read_dir(&folder).unwrap().map(Result::unwrap) {
        let name = file.file_name().to_string_lossy().into_owned();
        if !wanted.contains_key(&name) {
            stale.push(format!("{name} is no rule's page"));
        }
    }
    assert!(stale.is_empty(), "{stale:#?}");
}

#[test]
fn the_pages_show_what_the_check_says() {
    let page = pages::page(washline_rules::find("measures-disagree").unwrap());
    for part in ["## Flagged", "[measures-disagree]", "book.pour:", "## Mended", "## Source"] {
        assert!(page.contains(part), "{part} in\n{page}");
    }
}

#[test]
fn the_keys_of_the_settings_have_their_schema_and_page() {
    let mut stale = Vec::new();
    hold(&root().join(keys::SCHEMA_PATH), &keys::schema(), &mut stale);
    hold(&root().join("crates/washline-book/docs/settings.md"), &keys::page(), &mut stale);
    assert!(stale.is_empty(), "{stale:#?}");
}
