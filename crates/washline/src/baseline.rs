//! The baseline file of a check.

use std::fs;
use std::path::Path;

use washline_report::Outcome;
use washline_report::baseline::{self, Baseline, BaselineError, FILE};

use crate::arguments::Check;
use crate::failure::{self, Failure, Failures};
use crate::output;

/// What the house knows already, read before anything is mended; none without a file, or when
/// it is to be written anew.
pub(crate) fn known(check: &Check, failures: &mut Failures) -> Option<Baseline> {
    let file = check.baseline.as_deref().filter(|_| !check.write_baseline)?;
    match fs::read_to_string(file) {
        Ok(text) => read(file, &text, failures),
        Err(error) => {
            failures.tell(&failure::path(file, &error));
            None
        }
    }
}

/// Marks what the baseline knows. With `--write-baseline` it is first made of all there is.
pub(crate) fn apply(
    check: &Check,
    known: Option<Baseline>,
    outcome: &mut Outcome<'_>,
    failures: &mut Failures,
) {
    let mut known = known;
    if check.write_baseline {
        let text = baseline::write(outcome);
        let file = check.baseline.as_deref().unwrap_or(Path::new(FILE));
        output::to_file(file, &text, failures);
        known = read(file, &text, failures);
    }
    if let Some(known) = known {
        known.mark(outcome.findings_mut());
    }
}

fn read(file: &Path, text: &str, failures: &mut Failures) -> Option<Baseline> {
    let name = file.to_string_lossy();
    let told =
        |error: BaselineError| Failure::about(&name, &error).at(&name, text, (error.offset, 0));
    Baseline::read(text).map_err(|error| failures.tell(&told(error))).ok()
}
