//! Layout changes what a card looks like and nothing of what it says: over the corpus, over
//! books made by chance, and over books with broken entries in them.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use washline_book::{Record, Workspace};
use washline_format::{Fractions, Options, format};
use washline_rules::check;
use washline_syntax::{Document, LineKind};
use washline_tests::{root, specs, specs::book, workspace};
use washline_text::apply;

const HOUSES: [Options; 3] = [
    Options { fractions: Fractions::AsWritten, indent: 2, align: true },
    Options { fractions: Fractions::Fraction, indent: 4, align: true },
    Options { fractions: Fractions::Decimal, indent: 0, align: false },
];

fn laid_out(text: &str, options: &Options) -> String {
    apply(text, &format(&Document::parse(text), options).edits).unwrap()
}

/// What an entry comes to, without where its words stand.
fn typed(record: &Record) -> String {
    let mut out = format!("{:?} {} {:?}\n", record.kind, words(&record.name), record.serves);
    for read in record.reads.iter().chain(&record.garnishes) {
        let text: &str = &record.entry.text;
        let said: Vec<String> = read.qualifiers.iter().map(|span| words(span.text(text))).collect();
        let _ = writeln!(
            out,
            "{} {:?} {} {:?} {:?} {said:?} {:?} {:?} {:?}",
            read.amount,
            read.unit,
            words(&read.name),
            read.role,
            read.resolution,
            read.ml,
            read.g,
            read.temperature
        );
    }
    let families = (&record.families.list, record.families.inferred);
    let _ = writeln!(out, "{:?}\n{families:?}", record.figures);
    let steps = record.method.acts.iter().map(|act| format!("{:?}", act.act.technique));
    out + &steps.collect::<Vec<_>>().join(" ")
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace(" ,", ",")
}

fn comments(text: &str) -> Vec<String> {
    let document = Document::parse(text);
    let lines = document.entries().iter().flat_map(|at| {
        let text: &str = &at.entry.text;
        at.entry
            .lines
            .iter()
            .filter_map(move |line| Some(line.comment?.text(text).trim().to_owned()))
    });
    lines.collect()
}

/// The findings by rule, entry and fingerprint, counted.
fn found(workspace: &Workspace) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for finding in check(workspace) {
        let entry = finding.entry.map(|entry| words(&entry.name)).unwrap_or_default();
        let key = format!("{} {} {entry} {}", finding.severity, finding.rule, finding.fingerprint);
        *counts.entry(key).or_insert(0) += 1;
    }
    counts
}

/// The bytes of entries that have a line nobody can read.
fn broken(text: &str) -> Vec<String> {
    let document = Document::parse(text);
    let unread = document
        .entries()
        .iter()
        .filter(|at| at.entry.lines.iter().any(|line| matches!(line.what, LineKind::Unread)));
    unread.map(|at| at.entry.text.to_string()).collect()
}

fn keeps(text: &str, options: &Options) -> Result<(), String> {
    let once = laid_out(text, options);
    let said = |what: &str| Err(format!("{what}\n--- as written\n{text}\n--- laid out\n{once}"));
    if laid_out(&once, options) != once {
        return said("twice is not once");
    }
    if comments(text) != comments(&once) {
        return said("a comment is gone");
    }
    if broken(text).iter().any(|entry| !once.contains(entry.as_str())) {
        return said("a broken entry was touched");
    }
    let (before, after) = (workspace(&[("a.pour", text)], ""), workspace(&[("a.pour", &once)], ""));
    for (old, new) in before.records().iter().zip(after.records()) {
        if typed(old) != typed(new) {
            return said(&format!("means something else:\n{}\n{}", typed(old), typed(new)));
        }
    }
    if found(&before) != found(&after) {
        return said(&format!("{:#?}\n{:#?}", found(&before), found(&after)));
    }
    Ok(())
}

#[test]
fn every_file_of_the_corpus_keeps_its_meaning() {
    for (path, text) in specs(&root().join("corpus")) {
        for options in &HOUSES {
            if let Err(wrong) = keeps(&text, options) {
                panic!("{}: {wrong}", path.display());
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(20_251), ..ProptestConfig::with_cases(2_000) })]

    #[test]
    fn two_thousand_books_keep_their_meaning(text in book(), house in 0_usize..3) {
        prop_assert_eq!(keeps(&text, &HOUSES[house]), Ok(()));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(20_251), ..ProptestConfig::with_cases(400) })]

    #[test]
    fn a_broken_line_holds_its_entry_still(text in book(), at in any::<prop::sample::Index>()) {
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        let mut lines: Vec<String> = lines.into_iter().map(str::to_owned).collect();
        let at = 1 + at.index(lines.len());
        lines.insert(at, "   60 60   ml  (( gin\n".to_owned());
        prop_assert_eq!(keeps(&lines.concat(), &HOUSES[0]), Ok(()));
    }

    #[test]
    fn arbitrary_text_keeps_its_meaning(text in "(?s).{0,300}") {
        prop_assert_eq!(keeps(&text, &HOUSES[0]), Ok(()));
    }
}
