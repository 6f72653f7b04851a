//! The baseline file of a check.

use std::fs;
use std::path::Path;

use washline_report::Outcome;
use washline_report::baseline::{self, Baseline, FILE};

use crate::arguments::Check;
use crate::failure::{self, Failure, Failures};
use crate::output;

/// Marks what the baseline knows. With `--write-baseline` it is first made of all there is.
pub(crate) fn apply(check: &Check, outcome: &mut Outcome<'_>, failures: &mut Failures) {
    if check.write_baseline {
        let text = baseline::write(outcome);
        let file = check.baseline.as_deref().unwrap_or(Path::new(FILE));
        output::to_file(file, &text, failures);
        mark(file, &text, outcome, failures);
    } else if let Some(file) = &check.baseline {
        match fs::read_to_string(file) {
            Ok(text) => mark(file, &text, outcome, failures),
            Err(error) => failures.tell(&failure::path(file, &error)),
        }
    }
}

fn mark(file: &Path, text: &str, outcome: &mut Outcome<'_>, failures: &mut Failures) {
    match Baseline::read(text) {
        Ok(baseline) => baseline.mark(outcome.findings_mut()),
        Err(error) => {
            let name = file.to_string_lossy();
            failures.tell(&Failure::about(&name, &error).at(&name, text, (error.offset, 0)));
        }
    }
}
