//! How the command's time grows: ratios within one run, so that the machine does not matter.
//!
//! `cargo bench -p washline-tests` builds the command in release and prints
//! - start-up: `check` of a ten-line file against an empty Rust program,
//! - size: one file of 5, 10, 20 and 50 MB, and 2,500 to 20,000 files,
//! - a line: `check` of 5,000 small files against `wc` on the same tree.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

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
    let room = tempfile::tempdir().unwrap();
    start_up(&washline, room.path());
    one_file(&washline, room.path());
    many_files(&washline, room.path());
}

fn start_up(washline: &Path, room: &Path) {
    let source = room.join("empty.rs");
    fs::write(&source, "fn main() {}\n").unwrap();
    let empty = room.join("empty");
    let built = Command::new("rustc").args(["-O", "-o"]).arg(&empty).arg(&source).status().unwrap();
    assert!(built.success());
    let spec = room.join("ten.pour");
    fs::write(&spec, spec_text(1)).unwrap();
    let mut pairs: Vec<(f64, f64)> = Vec::new();
    for _ in 0..200 {
        let a = seconds(Command::new(&empty));
        let mut check = Command::new(washline);
        check.arg("check").arg(&spec);
        pairs.push((a, seconds(check)));
    }
    let (a, b) = (median(pairs.iter().map(|p| p.0)), median(pairs.iter().map(|p| p.1)));
    println!(
        "start-up: empty program {:.3} ms, check {:.3} ms: {:.2} times",
        a * 1e3,
        b * 1e3,
        b / a
    );
}

fn one_file(washline: &Path, room: &Path) {
    let mut last = None;
    for megabytes in [5_usize, 10, 20, 50] {
        let path = room.join("big.pour");
        let entries = megabytes * 1_000_000 / spec_text(1).len();
        let mut text = String::new();
        for n in 0..entries {
            text.push_str(&spec_text(n));
        }
        fs::write(&path, &text).unwrap();
        let mut check = Command::new(washline);
        check.arg("check").args(["--output", "short"]).arg(&path);
        let time = seconds(check);
        let a_byte = time / text.len() as f64;
        let grew = last.map_or(1.0, |last: f64| a_byte / last);
        println!(
            "one file of {megabytes} MB, {entries} entries: {time:.2} s, {:.1} ns a byte, {grew:.2} times the one before",
            a_byte * 1e9
        );
        last = Some(a_byte);
        fs::remove_file(&path).unwrap();
    }
}

fn many_files(washline: &Path, room: &Path) {
    let mut last = None;
    for count in [2_500_usize, 5_000, 10_000, 20_000] {
        let folder = room.join(format!("book-{count}"));
        fs::create_dir(&folder).unwrap();
        let mut lines = 0;
        for n in 0..count {
            let mut text = String::new();
            for m in 0..3 {
                text.push_str(&spec_text(3 * n + m));
            }
            lines += text.lines().count();
            fs::write(folder.join(format!("{n:05}.pour")), text).unwrap();
        }
        let mut check = Command::new(washline);
        check.arg("check").args(["--output", "short"]).arg(&folder);
        let time = seconds(check);
        let a_line = time / lines as f64;
        let grew = last.map_or(1.0, |last: f64| a_line / last);
        println!(
            "{count} files, {lines} lines: {time:.2} s, {:.2} µs a line, {grew:.2} times the one before",
            a_line * 1e6
        );
        last = Some(a_line);
        if count == 5_000 {
            let mut wc = Command::new("sh");
            wc.env("LC_ALL", "C.UTF-8").current_dir(&folder);
            wc.args(["-c", "find . -name '*.pour' -print0 | xargs -0 wc -lwm | tail -n 1"]);
            let counted = seconds(wc);
            println!(
                "  wc on the same tree: {counted:.3} s; check takes {:.1} times as long",
                time / counted
            );
        }
    }
}

/// A spec as people write them; each a little different from the last.
fn spec_text(n: usize) -> String {
    let spirits = ["gin", "white rum", "bourbon", "blanco tequila", "cognac"];
    let spirit = spirits[n % spirits.len()];
    let mut text = String::new();
    write!(
        text,
        "drink: Lantern {n}\n  family: sour\n  glass: coupe, chilled\n  contains: none\n\n  {} ml {spirit}\n  22.5 ml lemon juice\n  22.5 ml sugar syrup, 1:1\n\n  - shake with ice for 12 s, double strain\n  garnish: lemon twist\n\n",
        50 + n % 4 * 5
    )
    .unwrap();
    text
}

fn seconds(mut command: Command) -> f64 {
    command.stdout(Stdio::null()).stderr(Stdio::null()).stdin(Stdio::null());
    let start = Instant::now();
    let status = command.status().unwrap();
    let time: Duration = start.elapsed();
    assert!(status.code().is_some_and(|code| code < 2), "the run itself works");
    time.as_secs_f64()
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}
