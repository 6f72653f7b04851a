//! How long an editor waits for the language server, and how much memory that takes.
//!
//! `cargo bench -p washline-tests --bench editor` builds the command in release and prints, for
//! a text of 1,000 and one of 20,000 lines within a book of 5,000 specs,
//! - a key struck until its diagnostics are published: median and 99 of 100,
//! - hover and completion: the same,
//! - memory before a book is open, and with all of it open (Linux).

#[path = "../tests/lsp/client.rs"]
#[expect(dead_code, reason = "the tests use more of it")]
mod client;

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::json;

use client::Client;

/// How many keys are struck.
const KEYS: i32 = 200;

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
    for file in 0..100 {
        fs::write(room.path().join(format!("book-{file}.pour")), specs(file * 50, 50)).unwrap();
    }
    for lines in [1_000, 20_000] {
        measure(&washline, room.path(), lines);
    }
}

fn measure(washline: &Path, room: &Path, lines: usize) {
    let mut server = Command::new(washline)
        .arg("lsp")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let (to, from) = (server.stdin.take().unwrap(), server.stdout.take().unwrap());
    let mut client = Client::of(to, from, None);
    client.begin(json!({}), &[]);
    println!("{lines} lines: idle {}", memory(server.id()));
    let folder = json!({"uri": format!("file://{}", room.display()), "name": "book"});
    let event = json!({"event": {"added": [folder], "removed": []}});
    client.tell("workspace/didChangeWorkspaceFolders", event);
    let uri = format!("file://{}/open.pour", room.display());
    let text = specs(9_000, lines / 5);
    let start = Instant::now();
    client.open(&uri, 0, &text);
    client.published(&uri, 0);
    println!("  first diagnostics {:.1} ms, memory {}", ms(start.elapsed()), memory(server.id()));
    let line = text.lines().count() / 2 / 5 * 5 + 1;
    let (mut keys, mut hovers, mut completions) = (Vec::new(), Vec::new(), Vec::new());
    for n in 1..=KEYS {
        let at = json!({"line": line, "character": 14 + n});
        let start = Instant::now();
        client.change(&uri, n, json!([{"range": {"start": at, "end": at}, "text": "x"}]));
        client.published(&uri, n);
        keys.push(start.elapsed());
        let place = json!({"textDocument": {"uri": uri}, "position": at});
        for (method, times) in [("hover", &mut hovers), ("completion", &mut completions)] {
            let start = Instant::now();
            client.ask(&format!("textDocument/{method}"), place.clone());
            times.push(start.elapsed());
        }
    }
    for (what, times) in [("key", keys), ("hover", hovers), ("completion", completions)] {
        println!("  {what}: {}", told(times));
    }
    println!("  memory {}", memory(server.id()));
    drop(client);
    server.wait().unwrap();
}

/// Specs of five lines each.
fn specs(first: usize, count: usize) -> String {
    let mut out = String::new();
    for n in first..first + count {
        let _ = write!(
            out,
            "drink: Spec {n}\n  {} ml gin\n  22.5 ml lemon juice\n  20 ml simple syrup\n\n",
            40 + n % 30
        );
    }
    out
}

fn told(mut times: Vec<Duration>) -> String {
    times.sort();
    let at = |part: usize| ms(times[(times.len() - 1) * part / 100]);
    format!("median {:.2} ms, 99 of 100 below {:.2} ms", at(50), at(99))
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}

/// The memory of a process, where the system says so.
fn memory(process: u32) -> String {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let kib = line.and_then(|line| line.trim().split(' ').next()?.parse::<f64>().ok());
    kib.map_or("unknown".to_owned(), |kib| format!("{:.1} MiB", kib / 1024.0))
}
