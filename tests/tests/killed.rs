//! A run that is killed at any point of a write leaves the old file or the new one, never a part.
//!
//! `strace` kills the program as it enters the first, second, third … system call of a kind, until
//! a run ends by itself. Without `strace` the test says so and is skipped, except in CI.

#![cfg(target_os = "linux")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use washline_tests::program;

/// The kinds of call that a write is made of. A kind that this machine does not have is left out.
const CALLS: [&str; 12] = [
    "openat",
    "write",
    "fsync",
    "fdatasync",
    "fchmod",
    "chmod",
    "fchown",
    "rename",
    "renameat",
    "renameat2",
    "close",
    "unlink",
];

/// More calls of one kind than a run makes.
const MOST: usize = 400;

const OLD: &str = "drink: Slate Ferry\n glass:coupe\n  contains:none\n1,5 oz gin\n";

#[test]
fn format_is_killed() {
    everywhere(&["format", "list.pour"]);
}

#[test]
fn check_fix_is_killed() {
    everywhere(&["check", "--fix", "--fail-on", "never", "list.pour"]);
}

/// Kills a run at each call in turn.
fn everywhere(arguments: &[&str]) {
    if Command::new("strace").arg("-V").stdout(Stdio::null()).status().is_err() {
        assert!(std::env::var_os("CI").is_none(), "strace is missing: CI installs it");
        eprintln!("skipped: strace is missing");
        return;
    }
    let new = undisturbed(arguments);
    assert_ne!(new, OLD, "the run writes something");
    let mut kept = 0;
    let mut replaced = 0;
    for call in CALLS {
        for nth in 1..MOST {
            let folder = tempfile::tempdir().unwrap();
            let file = book(folder.path());
            let ended = killed_at(call, nth, arguments, folder.path());
            let left = fs::read_to_string(&file).unwrap();
            assert!(left == OLD || left == new, "{call} {nth} leaves a part:\n{left}");
            match left == new {
                true => replaced += 1,
                false => kept += 1,
            }
            if ended {
                break;
            }
        }
    }
    assert!(kept > 0 && replaced > 0, "some runs were killed before the write, some behind it");
}

fn book(folder: &Path) -> PathBuf {
    let file = folder.join("list.pour");
    fs::write(&file, OLD).unwrap();
    file
}

fn undisturbed(arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let file = book(folder.path());
    let run = Command::new(program()).args(arguments).current_dir(folder.path()).output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    fs::read_to_string(file).unwrap()
}

/// Whether the run came to its end, there being fewer than `nth` such calls.
fn killed_at(call: &str, nth: usize, arguments: &[&str], folder: &Path) -> bool {
    let status = Command::new("strace")
        .args(["-f", "-qq", "-o", "/dev/null", "-e"])
        .arg(format!("trace=?{call}"))
        .arg("-e")
        .arg(format!("inject=?{call}:signal=KILL:when={nth}"))
        .arg(program())
        .args(arguments)
        .current_dir(folder)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .unwrap();
    status.success()
}
