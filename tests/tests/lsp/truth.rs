//! However a text came to be, what is told of it is what is told of it as it is.
//!
//! Random edits in bursts, over text of all widths and line ends, in every unit of columns:
//! after each burst the server's text is the client's, and at the end of each script its
//! findings, tokens and outline are those of a server that was given the final text.

use serde_json::{Value, json};

use crate::client::Client;

/// How many edits a unit of columns gets, in how many scripts.
const EDITS: usize = 33_340;
const SCRIPTS: usize = 20;
/// How many edits a message carries at most.
const BURST: usize = 120;
/// What is typed and pasted.
const BITS: &[&str] = &[
    "a",
    " ",
    "\n",
    "\r\n",
    "\r",
    "é",
    "🍋",
    "👩\u{200d}🍳",
    "e\u{301}",
    "\t",
    "½",
    "30 ml lime juice\n",
    "drink: Ash\r\n",
    "prep: slate cordial\n",
    "  2 oz gin\r",
    "# ",
    ":",
    "(3/4 oz)",
    "10",
    "\u{2028}",
    "",
];

#[test]
fn bytes() {
    scripts("utf-8", 1);
}

#[test]
fn utf16_units() {
    scripts("utf-16", 2);
}

#[test]
fn scalars() {
    scripts("utf-32", 3);
}

fn scripts(unit: &str, seed: u64) {
    let mut dice = Dice(seed);
    for script in 0..SCRIPTS {
        let mut client = begin(unit);
        let mut text = "drink: Quarry Lane\n  60 ml gin 🍋\r\n  30 ml slate cordial\r".to_owned();
        let uri = format!("untitled:{script}");
        client.open(&uri, 0, &text);
        let mut version = 0;
        let mut left = EDITS / SCRIPTS;
        while left > 0 {
            let burst = left.min(1 + dice.below(BURST));
            left -= burst;
            let changes: Vec<Value> =
                (0..burst).map(|_| edit(&mut text, unit, &mut dice)).collect();
            version += 1;
            client.change(&uri, version, Value::from(changes));
            assert_eq!(held(&mut client, &uri), text, "{unit}, script {script}, version {version}");
        }
        let mut fresh = begin(unit);
        fresh.open(&uri, version, &text);
        assert_eq!(
            told(&mut client, &uri),
            told(&mut fresh, &uri),
            "{unit}, script {script}: {text:?}"
        );
    }
}

fn begin(unit: &str) -> Client {
    let text = json!({"diagnostic": {}});
    Client::begun(json!({"general": {"positionEncodings": [unit]}, "textDocument": text}), &[])
}

/// The text as the server has it.
fn held(client: &mut Client, uri: &str) -> String {
    let answer = client.ask("washline/text", json!({"textDocument": {"uri": uri}}));
    answer["result"].as_str().expect("the text is open").to_owned()
}

/// What the server says of a text.
fn told(client: &mut Client, uri: &str) -> Vec<Value> {
    let one = json!({"textDocument": {"uri": uri}});
    ["diagnostic", "semanticTokens/full", "documentSymbol"]
        .iter()
        .map(|method| {
            let mut answer =
                client.ask(&format!("textDocument/{method}"), one.clone())["result"].clone();
            answer.as_object_mut().map(|answer| answer.remove("resultId"));
            answer
        })
        .collect()
}

/// A random edit of `text`, and what the client says of it.
pub fn edit(text: &mut String, unit: &str, dice: &mut Dice) -> Value {
    // Long texts are cut down to keep each script quick.
    let cut = if text.len() > 600 { 200 } else { 8 };
    let from = boundary(text, dice.below(text.len() + 1));
    let to = match dice.below(2) {
        0 => from,
        _ => boundary(text, (from + dice.below(cut)).min(text.len())).max(from),
    };
    let bit = BITS[dice.below(BITS.len())];
    let range = json!({"start": position(text, from, unit), "end": position(text, to, unit)});
    text.replace_range(from..to, bit);
    json!({"range": range, "text": bit})
}

/// The nearest place at or before `at` that a cursor can stand at: between characters, and not
/// in the middle of a line end.
fn boundary(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) || text[..at].ends_with('\r') && text[at..].starts_with('\n') {
        at -= 1;
    }
    at
}

/// The client's own reckoning of lines and columns.
fn position(text: &str, at: usize, unit: &str) -> Value {
    let before = text[..at].replace("\r\n", "\n").replace('\r', "\n");
    let line = before.matches('\n').count();
    let column = before.rsplit('\n').next().unwrap();
    let character = match unit {
        "utf-8" => column.len(),
        "utf-16" => column.encode_utf16().count(),
        _ => column.chars().count(),
    };
    json!({"line": line, "character": character})
}

/// Numbers that are the same on every run.
pub struct Dice(pub u64);

impl Dice {
    pub fn below(&mut self, most: usize) -> usize {
        // A linear congruence of 64 bits, its constants from memory; the high half is random.
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % most
    }
}
