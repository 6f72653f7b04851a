//! Very long texts, and very many texts of one book, are served like any other.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::client::{Client, rules};
use crate::command::serving;
use crate::houses::House;

/// The most diagnostics that a text gets.
const MOST: usize = 1_000;
/// The bytes of a long text.
const LONG: usize = 10 << 20;
/// The lines of an entry.
const ENTRY: usize = 12;
/// The line of an entry that names what nobody knows in one entry of four.
const JUICE: usize = 6;
/// A remark of the writer's.
const REMARK: &str =
    "# The lamp over the harbour is lit at six, and whoever is late drinks water.\n";
/// How many texts are open at once.
const MANY: usize = 1_000;
/// More than a server of so many short texts may need, KiB.
const TOO_MUCH: u64 = 1 << 20;
/// Ten times what the end may take.
const END: Duration = Duration::from_secs(10);

const URI: &str = "untitled:long";

/// Entries up to so many bytes, each with so many lines of remarks below it.
fn book(bytes: usize, remarks: usize) -> String {
    let mut out = String::with_capacity(bytes + 10_000);
    let remarks = REMARK.repeat(remarks);
    for n in 0.. {
        let juice = ["lemon juice", "lime juice", "grapefruit juice", "unheard-of juice"][n % 4];
        let base = ["gin", "vodka", "white rum", "blanco tequila", "cognac"][n / 4 % 5];
        let measure = 30 + n / 20 % 40;
        let _ = write!(
            out,
            "drink: Lantern {n}\n  family: sour\n  glass: coupe, chilled\n  contains: none\n\n  \
             {measure} ml {base}\n  22.5 ml {juice}\n  15 ml sugar syrup, 1:1\n\n  \
             - shake with ice for 12 s, double strain\n  garnish: none\n\n{remarks}"
        );
        if out.len() >= bytes {
            break;
        }
    }
    out
}

/// Asks something of a place, or of its text alone.
fn ask(client: &mut Client, method: &str, line: usize, character: usize) -> Value {
    let params = json!({
        "textDocument": {"uri": URI},
        "position": {"line": line, "character": character},
    });
    let answer = client.ask(&format!("textDocument/{method}"), params);
    assert!(answer.get("error").is_none(), "{method}: {}", answer["error"]);
    answer["result"].clone()
}

#[test]
fn a_text_of_ten_megabytes_is_served() {
    let remarks = 16;
    let text = book(LONG, remarks);
    let entries = text.matches("drink:").count();
    let nested = json!({"hierarchicalDocumentSymbolSupport": true});
    let mut client = Client::begun(json!({"textDocument": {"documentSymbol": nested}}), &[]);
    client.open(URI, 1, &text);
    let told = client.published(URI, 1);
    assert_eq!(told.len(), MOST);
    let last = told.last().unwrap()["message"].as_str().unwrap();
    assert!(last.starts_with("and ") && last.ends_with(" more findings in this file"), "{last}");

    // A lemon in the middle of the text, and half a one.
    let line = entries / 8 * 4 * (ENTRY + remarks) + JUICE;
    let lemon = text.lines().nth(line).unwrap();
    assert_eq!(lemon, "  22.5 ml lemon juice");
    let hover = ask(&mut client, "hover", line, lemon.len() - 1);
    assert!(hover["contents"]["value"].as_str().unwrap().contains("lemon juice"), "{hover}");
    let painted = ask(&mut client, "semanticTokens/full", 0, 0);
    let numbers = painted["data"].as_array().unwrap().len();
    assert!(numbers > 5 * 10 * entries, "{numbers}");
    let gone = json!({
        "start": {"line": line, "character": lemon.len() - 6},
        "end": {"line": line, "character": lemon.len()},
    });
    client.change(URI, 2, json!([{"range": gone, "text": ""}]));
    let delta = json!({"textDocument": {"uri": URI}, "previousResultId": painted["resultId"]});
    let delta = client.ask("textDocument/semanticTokens/full/delta", delta)["result"].clone();
    let told = delta["edits"][0]["data"].as_array().map_or(0, Vec::len);
    assert!(told <= 10 && delta["edits"].as_array().unwrap().len() == 1, "{delta}");
    let offered = ask(&mut client, "completion", line, lemon.len() - 6);
    let labels: Vec<&str> =
        offered.as_array().unwrap().iter().filter_map(|item| item["label"].as_str()).collect();
    assert!(labels.contains(&"lemon juice"), "{labels:?}");
    assert_eq!(client.published(URI, 2).len(), MOST);

    assert_eq!(ask(&mut client, "documentSymbol", 0, 0).as_array().unwrap().len(), entries);
    let pulled = ask(&mut client, "diagnostic", 0, 0);
    assert_eq!(pulled["items"].as_array().unwrap().len(), MOST);
    client.tell("textDocument/didClose", json!({"textDocument": {"uri": URI}}));
    let told = client.wait(|m| {
        m["method"] == "textDocument/publishDiagnostics" && m["params"].get("version").is_none()
    });
    assert_eq!(told["params"]["diagnostics"], json!([]));
    client.tell("exit", Value::Null);
    assert_eq!(client.status(), 1);
}

/// Whoever asks and thinks better of it is answered at once or in the end.
#[test]
fn a_question_of_a_long_text_can_be_cancelled() {
    let mut client = Client::begun(json!({"textDocument": {"diagnostic": {}}}), &[]);
    client.open(URI, 1, &book(LONG / 10, 0));
    let params = json!({"textDocument": {"uri": URI}});
    let asked = ["diagnostic", "semanticTokens/full", "documentSymbol", "foldingRange"]
        .map(|method| client.post(&format!("textDocument/{method}"), params.clone()));
    for id in asked {
        client.tell("$/cancelRequest", json!({"id": id}));
    }
    for id in asked {
        let answer = client.answer(id);
        let cancelled = answer["error"]["code"] == -32800;
        assert!(cancelled || answer["result"].is_object() || answer["result"].is_array());
    }
}

#[test]
fn a_long_check_does_not_put_off_the_end() {
    let text = book(LONG, 0);
    for exits in [true, false] {
        let (mut client, mut server) = serving();
        client.begin(json!({}), &[]);
        client.open(URI, 1, &text);
        // It was taken in: from here on it is being checked.
        assert!(client.ask("shutdown", Value::Null)["error"].is_null());
        if exits {
            client.tell("exit", Value::Null);
        } else {
            client.hang_up();
        }
        let start = Instant::now();
        let ended = server.wait().unwrap();
        assert!(start.elapsed() < END, "{:?}", start.elapsed());
        assert_eq!(ended.code(), Some(0));
        assert_eq!(client.count("textDocument/publishDiagnostics"), 0, "the check was under way");
    }
}

#[test]
fn a_thousand_texts_of_one_book_are_told_of_once_for_each_change() {
    let name = |n: usize| format!("drinks/lantern-{n}.pour");
    let text = |n: usize, measure: &str| {
        format!("drink: Lantern {n}\n  {} ml gin\n  {measure} ml lemon juice\n", 30 + n % 40)
    };
    let files: Vec<(String, String)> = (0..MANY).map(|n| (name(n), text(n, "22.5"))).collect();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (&**name, &**text)).collect();
    let house = House::of(&files);
    let (mut client, mut server) = serving();
    client.begin(json!({}), &[house.uri("")]);
    let uris: Vec<String> = (0..MANY).map(|n| house.uri(&name(n))).collect();
    for (n, uri) in uris.iter().enumerate() {
        client.open(uri, 1, &text(n, "22.5"));
    }
    for (n, uri) in uris.iter().enumerate() {
        client.change(uri, 2, json!([{"text": text(n, "22,5")}]));
    }
    let mut told: BTreeMap<String, Vec<(i64, Value)>> = BTreeMap::new();
    let mut level = 0;
    while level < MANY {
        let one = client.wait(|m| m["method"] == "textDocument/publishDiagnostics");
        let of = told.entry(one["params"]["uri"].as_str().unwrap().to_owned()).or_default();
        let version = one["params"]["version"].as_i64().unwrap();
        let first = version == 2 && of.last().is_none_or(|(before, _)| *before < 2);
        level += usize::from(first);
        of.push((version, one["params"]["diagnostics"].clone()));
    }
    for uri in &uris {
        let of = &told[uri];
        assert!(of.windows(2).all(|pair| pair[0].0 <= pair[1].0), "{uri}: a version came late");
        assert!(of.windows(2).all(|pair| pair[0] != pair[1]), "{uri} was told the same twice");
        let (_, last) = of.last().unwrap();
        assert!(rules(last.as_array().unwrap()).contains(&"decimal-comma"), "{uri}: {last}");
    }
    if let Some(memory) = memory(server.id()) {
        assert!(memory < TOO_MUCH, "{memory} KiB");
    }
    assert!(client.ask("shutdown", Value::Null)["error"].is_null());
    client.tell("exit", Value::Null);
    assert_eq!(server.wait().unwrap().code(), Some(0));
}

/// The memory of a process, KiB, where the system says so.
fn memory(process: u32) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?;
    line.trim().split(' ').next()?.parse().ok()
}
