//! `washline explain`: why a rule exists, what is known of an ingredient.

use washline_report as report;

use crate::arguments::Explain;
use crate::failure::{Failure, Failures};
use crate::output;

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(explain: &Explain, failures: &mut Failures) -> u8 {
    if explain.words.is_empty() {
        output::to_stdout(&report::rules(), failures);
        return 0;
    }
    let word = explain.words.join(" ");
    match report::explain(&word) {
        Ok(text) => output::to_stdout(&text, failures),
        Err(near) => failures.tell(&not_known(&word, &near)),
    }
    0
}

fn not_known(word: &str, near: &[String]) -> Failure {
    let failure =
        Failure::new(format!("`{word}` is neither a rule nor an ingredient of the reference"));
    let near: Vec<String> = near.iter().map(|name| format!("`{name}`")).collect();
    match near.is_empty() {
        true => failure.help("`washline explain` alone lists the rules"),
        false => failure.help(format!("did you mean {}?", near.join(" or "))),
    }
}
