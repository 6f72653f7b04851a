//! What a review costs against a check: ratios within one run, so that the machine does not matter.
//!
//! `cargo bench -p washline-tests --bench review` builds the command in release and reviews a book
//! of 5,000 specs in which 200 were touched and a syrup, that all of them pour, was changed:
//! against the disk and between two commits, each against `check` of one side. Aim: 2.5 times.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

const SPECS: usize = 5_000;
const TOUCHED: usize = 200;
const A_FILE: usize = 25;
const RUNS: usize = 7;

fn main() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("a parent");
    let status = Command::new(env!("CARGO"))
        .args(["build", "--release", "--quiet", "-p", "washline"])
        .current_dir(root)
        .status()
        .unwrap();
    assert!(status.success(), "the command builds");
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or(root.join("target"), PathBuf::from);
    let washline = target.join("release/washline");
    for syrup in [false, true] {
        let what = if syrup { "200 touched and the syrup of all" } else { "200 touched" };
        let room = tempfile::tempdir().unwrap();
        book(room.path(), false, false);
        git(room.path(), &["init", "--quiet"]);
        commit(room.path());
        book(room.path(), true, syrup);
        let check =
            fastest(room.path(), &washline, &["check", "--output", "short", "--fail-on", "never"]);
        let disk = fastest(room.path(), &washline, &["review", "HEAD"]);
        commit(room.path());
        let commits = fastest(room.path(), &washline, &["review", "HEAD~1", "HEAD"]);
        println!(
            "{SPECS} specs, {what}: check {:.0} ms; review of the disk {:.2} times, of two commits {:.2} times",
            check.0 * 1e3,
            disk.0 / check.0,
            commits.0 / check.0
        );
        println!(
            "  memory: check {} MB, review of the disk {} MB, of two commits {} MB",
            check.1 / 1024,
            disk.1 / 1024,
            commits.1 / 1024
        );
    }
}

/// The book, in files of some drinks each; `touched` pours some of them larger.
fn book(folder: &Path, touched: bool, syrup: bool) {
    for file in 0..SPECS / A_FILE {
        let mut text = String::new();
        for n in file * A_FILE..(file + 1) * A_FILE {
            let larger = touched && n % (SPECS / TOUCHED) == 0;
            let pour = 50 + n % 4 * 5 + if larger { 10 } else { 0 };
            write!(
                text,
                "drink: Lantern {n}\n  family: sour\n  glass: coupe, chilled\n  contains: none\n\n  {pour} ml gin\n  22.5 ml lemon juice\n  22.5 ml House Syrup\n\n  - shake with ice for 12 s, double strain\n  garnish: lemon twist\n\n"
            )
            .unwrap();
        }
        fs::write(folder.join(format!("{file:04}.pour")), text).unwrap();
    }
    let water = if syrup { 120 } else { 100 };
    let prep = format!(
        "prep: House Syrup\n  keeps: 2 weeks chilled\n\n  100 g sugar\n  {water} g water\n\n  - stir until even\n"
    );
    fs::write(folder.join("preps.pour"), prep).unwrap();
}

fn commit(folder: &Path) {
    git(folder, &["add", "--all"]);
    let who = ["-c", "user.name=Bar Lead", "-c", "user.email=lead@example.org"];
    git(folder, &[&who[..], &["commit", "--quiet", "--no-verify", "-m", "a state"]].concat());
}

fn git(folder: &Path, arguments: &[&str]) {
    let status = Command::new("git").args(arguments).current_dir(folder).status().unwrap();
    assert!(status.success(), "{arguments:?}");
}

/// The fastest of some runs, in seconds, and the most memory that one took, in KB.
fn fastest(folder: &Path, washline: &Path, arguments: &[&str]) -> (f64, u64) {
    let mut best = f64::INFINITY;
    let mut memory = 0;
    for _ in 0..RUNS {
        let mut command = Command::new(washline);
        command.args(arguments).current_dir(folder).stdout(Stdio::null()).stderr(Stdio::null());
        let start = Instant::now();
        let mut child = command.spawn().unwrap();
        memory = memory.max(peak(child.id(), &mut child));
        let status = child.wait().unwrap();
        best = best.min(start.elapsed().as_secs_f64());
        assert!(status.code().is_some_and(|code| code < 2), "the run itself works");
    }
    (best, memory)
}

/// The most memory of a running process in KB, as far as the system tells it.
fn peak(id: u32, child: &mut std::process::Child) -> u64 {
    let mut most = 0;
    while child.try_wait().unwrap().is_none() {
        let status = fs::read_to_string(format!("/proc/{id}/status")).unwrap_or_default();
        let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let kb = line.and_then(|line| line.split_whitespace().next()?.parse().ok());
        most = most.max(kb.unwrap_or(0));
        std::thread::sleep(std::time::Duration::from_millis(2));
    }
    most
}
