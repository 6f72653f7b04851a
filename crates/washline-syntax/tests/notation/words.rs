//! The words for every problem: they are product, so each stands in `words.txt` with
//! the line that brings it, what is said, what to do, and how it is mended.

use expect_test::expect_file;
use washline_syntax::{Entry, Problem};

use crate::read::entry;

/// One line or a few, each of which brings a problem.
const LINES: &str = include_str!("words-input.txt");

#[test]
fn every_problem_has_its_words() {
    let mut shown = String::new();
    for text in LINES.split("\n\n").map(str::trim_end).filter(|text| !text.is_empty()) {
        let text = text.replace("\\u200b", "\u{200b}").replace("\\u0456", "\u{456}");
        let whole =
            if text.contains("X:") { text.replace("X:", "") } else { format!("drink: A\n{text}") };
        let entry = entry(&whole);
        assert!(!entry.problems.is_empty(), "{text}");
        shown += &format!("{}\n", text.escape_debug());
        for problem in &entry.problems {
            shown += &said(&entry, problem);
        }
        shown.push('\n');
    }
    expect_file!["words.txt"].assert_eq(&shown);
}

fn said(entry: &Entry, problem: &Problem) -> String {
    let at = entry.text_of(problem.span).escape_debug();
    let mut said = format!(
        "  [{}] {at}\n    {}\n    help: {}\n",
        problem.rule,
        problem.message.escape_debug(),
        problem.help.escape_debug()
    );
    for mend in &problem.mends {
        let after = washline_text::apply(&entry.text, &mend.edits).expect("edits that apply");
        let safe = if mend.safe { "safe" } else { "shown" };
        let after: Vec<&str> = after.lines().collect();
        let after = after.join(" / ").escape_debug().to_string();
        said += &format!("    {safe}: {} -> {after}\n", mend.title.escape_debug());
    }
    said
}
