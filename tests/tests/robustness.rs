//! Whatever stands in a file, it is read without loss and checked without a panic.

use std::fs;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use washline_rules::check;
use washline_syntax::Document;
use washline_tests::{root, specs, workspace};

/// Files of the corpus up to 16 KB.
fn small() -> Vec<(String, String)> {
    let files = specs(&root().join("corpus"));
    assert!(!files.is_empty(), "the corpus has files");
    let name = |path: &std::path::Path| path.to_string_lossy().into_owned();
    files
        .into_iter()
        .filter(|(_, text)| text.len() <= 16 * 1024)
        .map(|(path, text)| (name(&path), text))
        .collect()
}

fn lossless(text: &str) {
    let document = Document::parse(text);
    assert_eq!(&**document.text(), text);
    let joined: String = document.entries().iter().map(|at| &*at.entry.text).collect();
    assert_eq!(joined, text, "the entries are the file");
}

/// Where the entry that ends a prefix starts: what stands before it was checked with earlier prefixes.
fn last_entry(text: &str) -> usize {
    let document = Document::parse(text);
    document.entries().last().map_or(0, |at| at.start as usize)
}

#[test]
fn every_prefix_is_read_and_checked() {
    for (name, text) in small() {
        let mut document = Document::parse("");
        for (at, _) in text.char_indices().chain([(text.len(), ' ')]) {
            let prefix = &text[..at];
            document = document.edit(prefix);
            assert_eq!(&**document.text(), prefix, "{name}");
            let joined: usize = document.entries().iter().map(|at| at.entry.text.len()).sum();
            assert_eq!(joined, prefix.len(), "{name}");
            let start = document.entries().last().map_or(0, |at| at.start as usize);
            let found = check(&workspace(&[("a.pour", &prefix[start..])], ""));
            for finding in &found {
                assert!(finding.place.span.end as usize <= prefix.len() - start + 1, "{name}");
            }
        }
    }
}

#[test]
fn every_file_is_read_with_any_line_removed() {
    for (_, text) in small() {
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        for gone in 0..lines.len() {
            let mut left = lines.clone();
            left.remove(gone);
            let left = left.concat();
            lossless(&left);
            let from = last_entry(&lines[..gone].concat());
            let near: String = left.chars().skip(left[..from].chars().count()).take(2000).collect();
            let _ = check(&workspace(&[("a.pour", &near)], ""));
        }
    }
}

#[test]
fn an_edited_document_is_a_fresh_one() {
    for (name, text) in small() {
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        let whole = Document::parse(&*text);
        for gone in (0..lines.len()).step_by(3) {
            let mut left = lines.clone();
            left.remove(gone);
            let left = left.concat();
            let edited = whole.edit(&*left);
            let fresh = Document::parse(&*left);
            let same = edited
                .entries()
                .iter()
                .zip(fresh.entries())
                .all(|(a, b)| a.start == b.start && a.entry == b.entry);
            assert!(same && edited.entries().len() == fresh.entries().len(), "{name} line {gone}");
        }
    }
}

/// Pieces from which half-sensible text is made.
fn piece() -> impl Strategy<Value = String> {
    prop_oneof![
        "(drink|prep|stock|book|section): [A-Za-z ]{0,12}\n",
        "  (glass|serve|family|contains|yields|keeps|abv|waive|garnish|part|total): .{0,20}\n",
        "  [0-9]{1,4}([./ -][0-9]{1,3})? ?(ml|oz|g|dash|tsp|l|part|)? .{0,24}\n",
        "  - (shake|stir|add|top|muddle|strain)( .{0,20})?[,;]? ?(then|and)? .{0,10}\n",
        ".{0,30}(\n|\r\n|\r)",
        "[½¼⅔#:()/~%,.-]{1,8}",
        "\u{feff}|\u{200b}|\u{202e}|\u{85}|\u{2028}|🍋|e\u{301}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(20_251), ..ProptestConfig::with_cases(400) })]

    #[test]
    fn half_sensible_text_is_checked(pieces in prop::collection::vec(piece(), 0..40)) {
        let text = pieces.concat();
        lossless(&text);
        let _ = check(&workspace(&[("a.pour", &text)], ""));
    }

    #[test]
    fn any_text_is_checked(text in "(?s).{0,400}") {
        lossless(&text);
        let _ = check(&workspace(&[("a.pour", &text)], ""));
    }

    /// Checking twice, or with the files in another order, says the same.
    #[test]
    fn the_order_of_files_changes_nothing(pieces in prop::collection::vec(piece(), 0..20)) {
        let text = pieces.concat();
        let one = [("a.pour", text.as_str()), ("b.pour", "prep: Syrup\n  100 g sugar\n")];
        let other = [one[1], one[0]];
        let said = |files: &[(&str, &str)]| {
            let found = check(&workspace(files, ""));
            found.iter().map(|f| (f.rule, f.message.clone(), f.place.span)).collect::<Vec<_>>()
        };
        prop_assert_eq!(said(&one), said(&other));
    }
}

#[test]
fn the_settings_of_the_demo_house_are_read() {
    let text = fs::read_to_string(root().join("corpus/house/washline.toml")).unwrap();
    let _ = workspace(&[], &text);
}
