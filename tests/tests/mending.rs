//! Mending comes to rest and harms nothing: over the corpus, and over books made by chance.

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use washline_book::{Record, Workspace};
use washline_measure::Estimate;
use washline_rules::{Mended, Reach, check, mend};
use washline_syntax::Key;
use washline_tests::{root, specs, specs::book, workspace};
use washline_text::{Finding, Severity, fold};

fn mended(text: &str, reach: Reach) -> Mended {
    mend(workspace(&[("book.pour", text)], ""), reach, &|_| true)
}

/// How many errors of each rule.
fn errors(findings: &[Finding]) -> BTreeMap<&'static str, usize> {
    let mut count = BTreeMap::new();
    for finding in findings.iter().filter(|finding| finding.severity == Severity::Error) {
        *count.entry(finding.rule).or_default() += 1;
    }
    count
}

/// What a safe fix may not touch: what is poured, what its name refers to, what is declared.
fn kept(workspace: &Workspace) -> Vec<String> {
    let entry = |record: &Record| {
        let declared = [Key::Contains, Key::MayContain, Key::FreeFrom, Key::Strength].map(|key| {
            let said = record.fields(key).next();
            said.map(|field| fold(record.text(field.value_span))).unwrap_or_default()
        });
        let reads = record.reads.iter();
        // To a tenth: a yield that is written down is rounded, and so is what is made with it.
        let tenths = |amount: Option<Estimate>| amount.map(|is| (is.value * 10.0).round());
        let poured: Vec<_> =
            reads.map(|read| (tenths(read.ml), tenths(read.g), &read.resolution)).collect();
        format!("{} {:?} {declared:?} {poured:?}", record.key, record.kind)
    };
    workspace.records().iter().map(entry).collect()
}

/// What is wrong with mending `text`.
fn wrong(text: &str) -> Option<String> {
    let before = workspace(&[("book.pour", text)], "");
    let had = errors(&check(&before));
    for reach in [Reach::Safe, Reach::First] {
        let once = mended(text, reach);
        if once.stopped {
            return Some(format!("{reach:?} never comes to rest"));
        }
        let after = check(&once.workspace);
        if let Some((rule, count)) = errors(&after).into_iter().find(|(rule, count)| {
            // What an unread line hid is not brought by the mend that let it be read.
            *count > had.get(rule).copied().unwrap_or(0)
                && !before.records().iter().any(|r| r.unread)
        }) {
            return Some(format!("{reach:?} brings {rule}: {count}"));
        }
        // Lines that can be read now are poured now.
        let unread = before.records().iter().any(|record| record.unread);
        if reach == Reach::Safe && !unread && kept(&before) != kept(&once.workspace) {
            let (was, is) = (kept(&before), kept(&once.workspace));
            return Some(format!("safe fixes change\n{was:#?}\nto\n{is:#?}\n{:#?}", once.done));
        }
        let twice = mend(once.workspace, reach, &|_| true);
        if !twice.done.is_empty() {
            return Some(format!("{reach:?} goes on: {:#?}", twice.done));
        }
    }
    None
}

#[test]
fn the_corpus_comes_to_rest() {
    let mut done = 0;
    for (path, text) in specs(&root().join("corpus")) {
        let ill = wrong(&text);
        assert!(ill.is_none(), "{}: {}\n", path.display(), ill.unwrap_or_default());
        done += mended(&text, Reach::First).done.len();
    }
    assert!(done > 150, "the corpus has much to mend: {done}");
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 2_000,
        rng_seed: RngSeed::Fixed(20_261_125),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn books_made_by_chance_come_to_rest(text in book()) {
        let ill = wrong(&text);
        prop_assert!(ill.is_none(), "{}\n{text}", ill.unwrap_or_default());
    }
}
