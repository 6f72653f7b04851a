//! Explanations are written as the client shows them: as Markdown, or as text to be read as it is.

use serde_json::{Value, json};
use washline_tests::{root, specs};

use crate::client::Client;

/// The client's own names for the two ways.
const MARKDOWN: &str = "markdown";
const PLAIN: &str = "plaintext";
/// What is left of Markdown where nobody renders it.
const MARKS: [&str; 6] = ["**", "`", "](", "|", "\\*", "---"];

const DRINK: &str = "drink: Quarry Lane\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  15 ml sugar syrup, 1:1\n  - shake with ice\n";

/// A client that prefers `formats` and has `text` open.
fn client(formats: &Value, text: &str) -> Client {
    let mut prose = json!({"hover": {}, "completion": {"completionItem": {}}});
    if !formats.is_null() {
        prose["hover"]["contentFormat"] = formats.clone();
        prose["completion"]["completionItem"]["documentationFormat"] = formats.clone();
    }
    let mut client = Client::begun(json!({"textDocument": prose}), &[]);
    client.open(URI, 1, text);
    client
}

const URI: &str = "untitled:Untitled-1";

fn place(line: usize, character: usize) -> Value {
    json!({"textDocument": {"uri": URI}, "position": {"line": line, "character": character}})
}

/// What is told of the words at a place.
fn hover(client: &mut Client, line: usize, character: usize) -> Value {
    client.ask("textDocument/hover", place(line, character))["result"]["contents"].clone()
}

/// What is told of an ingredient on offer.
fn documentation(client: &mut Client) -> Value {
    let offered = client.ask("textDocument/completion", place(3, 20))["result"].clone();
    let items = offered.as_array().unwrap();
    let item = items.iter().find(|item| item["label"] == "lemon juice").unwrap();
    client.ask("completionItem/resolve", item.clone())["result"]["documentation"].clone()
}

#[test]
fn the_clients_first_choice_holds() {
    for (formats, kind) in [
        (json!([PLAIN]), PLAIN),
        (json!([PLAIN, MARKDOWN]), PLAIN),
        (json!([MARKDOWN, PLAIN]), MARKDOWN),
        (json!([]), MARKDOWN),
        (Value::Null, MARKDOWN),
    ] {
        let told = hover(&mut client(&formats, DRINK), 0, 10);
        assert_eq!(told["kind"], kind, "{formats}");
        let is_marked = told["value"].as_str().unwrap().contains("**Quarry Lane**");
        assert_eq!(is_marked, kind == MARKDOWN, "{told}");
    }
}

/// A client that names nothing was promised a string, which is shown as it comes.
#[test]
fn documentation_is_a_string_unless_the_client_renders_it() {
    for (formats, rendered) in
        [(json!([MARKDOWN, PLAIN]), true), (json!([PLAIN]), false), (Value::Null, false)]
    {
        let told = documentation(&mut client(&formats, DRINK));
        if rendered {
            assert_eq!(told["kind"], MARKDOWN);
            assert!(told["value"].as_str().unwrap().starts_with("**lemon juice**"), "{told}");
        } else {
            assert!(told.as_str().unwrap().starts_with("lemon juice (juice)\n\n"), "{told}");
        }
    }
}

#[test]
fn figures_stand_in_columns() {
    let told = hover(&mut client(&json!([PLAIN]), DRINK), 0, 10);
    let text = told["value"].as_str().unwrap();
    let rows: Vec<&str> = text
        .lines()
        .skip_while(|line| !line.contains("19 of 20"))
        .take_while(|line| !line.is_empty())
        .collect();
    let at = rows[0].find("19 of 20").expect("the figures have headings");
    assert!(rows.len() > 4, "{text}");
    for row in &rows[1..] {
        let before: String = row.chars().take(at).collect();
        assert!(before.ends_with("  "), "{row} does not stand in the columns of\n{text}");
    }
}

#[test]
fn nothing_told_of_the_demo_house_has_marks_left() {
    let files = specs(&root().join("corpus/house"));
    assert!(!files.is_empty());
    for (path, text) in files {
        let mut client = client(&json!([PLAIN]), &text);
        for (at, line) in text.lines().enumerate() {
            let columns = (0..line.encode_utf16().count()).step_by(5);
            let asked: Vec<i64> = columns
                .map(|column| client.post("textDocument/hover", place(at, column)))
                .collect();
            for id in asked {
                let told = client.answer(id)["result"]["contents"]["value"].clone();
                let told = told.as_str().unwrap_or_default();
                for mark in MARKS {
                    assert!(!told.contains(mark), "{mark} in {}:{at}\n{told}", path.display());
                }
            }
        }
    }
}
