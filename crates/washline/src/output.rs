//! Writing what was asked for to where it was asked.

use std::io::{self, Write};
use std::path::Path;

use washline_files::put;

use crate::arguments::Output;
use crate::failure::{Failure, Failures};

/// Whether at most one of `outputs` goes to standard output.
pub(crate) fn are_apart<F>(outputs: &[Output<F>], failures: &mut Failures) -> bool {
    if outputs.iter().filter(|output| output.file.is_none()).count() <= 1 {
        return true;
    }
    let failure = Failure::new("only one --output can go to standard output");
    failures.tell(&failure.help("name a file for the others: --output json=findings.json"));
    false
}

/// Writes `text` to the output's file, or to standard output.
pub(crate) fn write<F>(output: &Output<F>, text: &str, failures: &mut Failures) {
    match &output.file {
        Some(file) => to_file(file, text, failures),
        None => to_stdout(text, failures),
    }
}

/// Writes `text` to `file`, whole or not at all.
pub(crate) fn to_file(file: &Path, text: &str, failures: &mut Failures) {
    if let Err(error) = put(file, text.as_bytes()) {
        failures.tell(&Failure::about(&file.to_string_lossy(), error));
    }
}

/// Writes `text` to standard output. A reader that has seen enough is no failure.
pub(crate) fn to_stdout(text: &str, failures: &mut Failures) {
    let mut out = io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            failures.tell(&Failure::about("standard output", error));
        }
        _ => {}
    }
}

/// Writes `text` to standard error, where a reader that has gone is no failure either.
pub(crate) fn to_stderr(text: &str) {
    let _ = io::stderr().lock().write_all(text.as_bytes());
}
