//! The command: arguments in, findings and figures out, an exit status.

mod arguments;
mod baseline;
mod check;
mod colour;
mod diff;
mod explain;
mod failure;
mod figures;
mod fix;
mod format;
mod house;
mod output;
mod pick;
mod plan;
mod progress;
mod review;
mod rooms;
mod settings;
mod stdin;

use std::io;
use std::process::ExitCode;

use clap::Parser;

use crate::arguments::{Arguments, Command};
use crate::failure::Failures;

/// The run itself failed.
const FAILED: u8 = 2;

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        // Help and version come this way too; a closed pipe is nobody's fault.
        Err(usage) => {
            let _ = usage.print();
            return ExitCode::from(u8::try_from(usage.exit_code()).unwrap_or(FAILED));
        }
    };
    let mut failures = Failures::new(arguments.color, arguments.is_narrated());
    let status = match &arguments.command {
        Command::Check(check) => check::run(check, arguments.color, &mut failures),
        Command::Format(format) => format::run(format, &mut failures),
        Command::Figures(figures) => figures::run(figures, &mut failures),
        Command::Settings(settings) => settings::run(settings, &mut failures),
        Command::Review(review) => review::run(review, arguments.color, &mut failures),
        Command::Explain(explain) => explain::run(explain, &mut failures),
        Command::Lsp => washline_lsp::serve(io::stdin(), io::stdout()),
    };
    ExitCode::from(if failures.any() { FAILED } else { status })
}
