//! The command itself as the server.

use std::process::{Child, Command, Stdio};

use washline_tests::program;

use crate::client::Client;

/// A client of the command, and the command.
pub fn serving() -> (Client, Child) {
    let mut server = Command::new(program())
        .arg("lsp")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let (input, output) = (server.stdin.take().unwrap(), server.stdout.take().unwrap());
    (Client::of(input, output, None), server)
}
