//! How long an editor waits for the language server, and how much memory that takes.
//!
//! `cargo bench -p washline-tests --bench editor` builds the command in release and prints, for
//! a text of 1,000 and one of 20,000 lines within a book of 5,000 specs,
//! - a key struck until its diagnostics have come, not yet looked into: median and 99 of 100,
//! - hover, completion and the answers over a whole text: the same,
//! - how often diagnostics are published when 30 keys come at once,
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

/// What is struck, key by key, again and again: a line, and its end takes it away.
const TYPED: &str = "  15 ml maraschino liqueur, chilled\n";
const ROUNDS: usize = 10;
/// How many keys are struck at once.
const BURST: usize = 30;
/// The lines of a spec.
const SPEC: usize = 14;
/// What specs are made of, in turns, so that hardly two are alike.
const BASES: &[&str] = &[
    "gin",
    "white rum",
    "aged rum",
    "blanco tequila",
    "mezcal",
    "pisco",
    "vodka",
    "bourbon",
    "rye whiskey",
    "cognac",
    "calvados",
    "genever",
];
const MODIFIERS: &[&str] = &[
    "dry vermouth",
    "sweet vermouth",
    "triple sec",
    "maraschino liqueur",
    "elderflower liqueur",
    "apricot liqueur",
    "coffee liqueur",
    "peach liqueur",
    "fino sherry",
    "ruby port",
    "cherry liqueur",
];

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
    let text = specs(9_000, lines / SPEC);
    let start = Instant::now();
    client.open(&uri, 0, &text);
    let found = client.published(&uri, 0).len();
    println!(
        "  first diagnostics {:.1} ms ({found}), memory {}",
        ms(start.elapsed()),
        memory(server.id())
    );
    let line = lines / 2 / SPEC * SPEC + 4;
    let (mut keys, mut hovers, mut completions) = (Vec::new(), Vec::new(), Vec::new());
    let mut version = 0;
    for struck in TYPED.repeat(ROUNDS).chars() {
        version += 1;
        let column = (version as usize - 1) % TYPED.len();
        let from = json!({"line": line, "character": column});
        // The last key takes the line away again.
        let (range, text) = match struck {
            '\n' => (json!({"start": {"line": line, "character": 0}, "end": from}), String::new()),
            struck => (json!({"start": from, "end": from}), struck.to_string()),
        };
        let start = Instant::now();
        client.change(&uri, version, json!([{"range": range, "text": text}]));
        client.published(&uri, version);
        keys.push(client.heard - start);
        let place = json!({"textDocument": {"uri": uri}, "position": from});
        for (method, times) in [("hover", &mut hovers), ("completion", &mut completions)] {
            let start = Instant::now();
            client.ask(&format!("textDocument/{method}"), place.clone());
            times.push(client.heard - start);
        }
    }
    for (what, times) in [("key", keys), ("hover", hovers), ("completion", completions)] {
        println!("  {what}: {}", told(times));
    }
    let whole =
        json!({"start": {"line": 0, "character": 0}, "end": {"line": lines, "character": 0}});
    let params = json!({
        "textDocument": {"uri": uri}, "range": whole,
        "options": {"tabSize": 2, "insertSpaces": true},
    });
    for method in
        ["semanticTokens/full", "documentSymbol", "inlayHint", "foldingRange", "formatting"]
    {
        let times = (0..20).map(|_| {
            let start = Instant::now();
            client.ask(&format!("textDocument/{method}"), params.clone());
            client.heard - start
        });
        println!("  {method}: {}", told(times.collect()));
    }
    for _ in 0..BURST {
        version += 1;
        let at = json!({"line": line, "character": 0});
        client.change(&uri, version, json!([{"range": {"start": at, "end": at}, "text": " "}]));
    }
    client.published(&uri, version);
    let more = client.count("textDocument/publishDiagnostics");
    println!("  {BURST} keys at once: {} publishes", more + 1);
    println!("  memory {}", memory(server.id()));
    drop(client);
    server.wait().unwrap();
}

/// Specs of so many lines each, as a book has them: few findings.
fn specs(first: usize, count: usize) -> String {
    let mut out = String::new();
    for n in first..first + count {
        let one = |of: &[&'static str], by: usize| of[n / by % of.len()];
        let base = one(BASES, 1);
        let (first, second) = (one(MODIFIERS, BASES.len()), one(MODIFIERS, BASES.len() * 11));
        let sour = one(&["lemon juice", "lime juice"], 11);
        let sweet = one(&["sugar syrup, 1:1", "agave syrup", "honey syrup", "grenadine"], 23);
        let _ = write!(
            out,
            "drink: Spec {n}\n  family: sour\n  glass: coupe, chilled\n  contains: none\n\n  \
             45 ml {base}\n  15 ml {first}\n  7.5 ml {second}\n  22.5 ml {sour}\n  \
             15 ml {sweet}\n\n  - shake with ice for 12 s, double strain\n  \
             garnish: lemon twist\n\n",
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
