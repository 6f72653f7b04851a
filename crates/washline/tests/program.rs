//! The program is there and answers. (That it is tested here makes `cargo test` build it for the
//! cases of `tests/cmd` too.)

use std::process::{Command, Stdio};

fn washline() -> Command {
    Command::new(env!("CARGO_BIN_EXE_washline"))
}

#[test]
fn it_says_which_version_it_is() {
    let output = washline().arg("--version").output().unwrap();
    assert!(output.status.success());
    let said = String::from_utf8(output.stdout).unwrap();
    assert_eq!(said, format!("washline {}\n", env!("CARGO_PKG_VERSION")));
}

/// A reader that closes the pipe early is no failure and no panic.
#[test]
fn a_closed_pipe_ends_it_quietly() {
    let mut child =
        washline().arg("explain").stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    assert_eq!(output.status.code(), Some(0));
}
