//! What a client is told as a text is opened, changed and closed.

use serde_json::{Value, json};

use crate::client::{Client, rules};

const URI: &str = "untitled:Untitled-1";
const UNKNOWN: &str = "drink: Quarry Lane\n  30 ml unheard-of cordial\n";

fn pushes() -> Value {
    json!({"textDocument": {"publishDiagnostics": {"dataSupport": true, "versionSupport": true}}})
}

#[test]
fn a_finding_says_what_why_and_where_to_read_on() {
    let mut client = Client::begun(pushes(), &[]);
    client.open(URI, 3, UNKNOWN);
    let told = client.published(URI, 3);
    let unknown = told.iter().find(|one| one["code"] == "unknown-ingredient").unwrap();
    assert_eq!(unknown["source"], "washline");
    assert!(unknown["severity"].is_number());
    assert_eq!(unknown["range"]["start"]["line"], 1);
    let page = unknown["codeDescription"]["href"].as_str().unwrap();
    assert!(page.ends_with("/unknown-ingredient.md"), "{page}");
    assert!(unknown["data"]["fixes"].is_array());
}

#[test]
fn many_changes_at_once_are_told_of_together() {
    let mut client = Client::begun(pushes(), &[]);
    client.open(URI, 1, UNKNOWN);
    client.published(URI, 1);
    let mut burst = Vec::new();
    for n in 0..30 {
        let at = json!({"line": 0, "character": 18 + n});
        let change = json!([{"range": {"start": at, "end": at}, "text": "x"}]);
        let params =
            json!({"textDocument": {"uri": URI, "version": 2 + n}, "contentChanges": change});
        let message =
            json!({"jsonrpc": "2.0", "method": "textDocument/didChange", "params": params});
        burst.extend(crate::client::frame(&message));
    }
    client.send(&burst);
    client.published(URI, 31);
    let others = client.count("textDocument/publishDiagnostics");
    assert!(others <= 2, "{} publishes", others + 1);
}

#[test]
fn a_closed_text_has_no_findings_left() {
    let mut client = Client::begun(pushes(), &[]);
    client.open(URI, 1, UNKNOWN);
    assert!(!client.published(URI, 1).is_empty());
    client.tell("textDocument/didClose", json!({"textDocument": {"uri": URI}}));
    let told = client.wait(|m| {
        m["method"] == "textDocument/publishDiagnostics" && m["params"].get("version").is_none()
    });
    assert_eq!(told["params"]["diagnostics"], json!([]));
}

#[test]
fn who_asks_for_diagnostics_is_not_told_them_unasked() {
    let mut client = Client::begun(json!({"textDocument": {"diagnostic": {}}}), &[]);
    assert_eq!(client.can["diagnosticProvider"]["interFileDependencies"], true);
    client.open(URI, 1, UNKNOWN);
    let ask = json!({"textDocument": {"uri": URI}});
    let first = client.ask("textDocument/diagnostic", ask)["result"].clone();
    assert_eq!(first["kind"], "full");
    assert!(rules(first["items"].as_array().unwrap()).contains(&"unknown-ingredient"));
    let again = json!({"textDocument": {"uri": URI}, "previousResultId": first["resultId"]});
    assert_eq!(client.ask("textDocument/diagnostic", again)["result"]["kind"], "unchanged");
    assert_eq!(client.count("textDocument/publishDiagnostics"), 0);
}

#[test]
fn of_very_many_findings_the_last_says_how_many_more() {
    let mut client = Client::begun(pushes(), &[]);
    let text = format!("drink: Quarry Lane\n{}", "  30 ml {\n".repeat(1_200));
    client.open(URI, 1, &text);
    let told = client.published(URI, 1);
    assert_eq!(told.len(), 1_000);
    let last = told.last().unwrap()["message"].as_str().unwrap();
    assert!(last.starts_with("and ") && last.ends_with(" more findings in this file"), "{last}");
}

/// A client that is newer than the server, or mistaken, is served by what can be read of it.
#[test]
fn what_cannot_be_read_of_a_client_is_left_out() {
    let mut client = Client::within();
    let capabilities = json!({
        "general": {"positionEncodings": ["utf-8"], "staleRequestSupport": 3},
        "textDocument": {
            "hover": {"contentFormat": ["hologram", "plaintext"]},
            "completion": {"completionItem": {"resolveSupport": "yes"}},
        },
        "window": [],
    });
    let params = json!({
        "processId": "none", "trace": "loud", "rootUri": "no address", "capabilities": capabilities,
    });
    let told = client.ask("initialize", params)["result"]["capabilities"].clone();
    assert_eq!(told["positionEncoding"], "utf-8");
    client.open(URI, 1, UNKNOWN);
    let at = json!({"textDocument": {"uri": URI}, "position": {"line": 0, "character": 9}});
    let hover = client.ask("textDocument/hover", at)["result"].clone();
    assert_eq!(hover["contents"]["kind"], "plaintext");
}

#[test]
fn the_unit_of_columns_is_agreed_on() {
    for (offered, agreed) in [
        (json!(["utf-32", "utf-8", "utf-16"]), "utf-8"),
        (json!(["utf-16", "utf-8"]), "utf-8"),
        (json!(["utf-16"]), "utf-16"),
        (json!(["utf-32"]), "utf-32"),
        (Value::Null, "utf-16"),
    ] {
        let client = Client::begun(json!({"general": {"positionEncodings": offered}}), &[]);
        assert_eq!(client.can["positionEncoding"], agreed);
    }
}

#[test]
fn a_layout_is_small_edits_and_a_mend_is_an_action() {
    let mut client = Client::begun(pushes(), &[]);
    client.open(
        URI,
        1,
        "drink: Quarry Lane\n     22.5 ml (3/4 oz)   lime juice\n  22,5 ml lemon juice\n",
    );
    let told = client.published(URI, 1);
    let options = json!({"tabSize": 2, "insertSpaces": true});
    let ask = json!({"textDocument": {"uri": URI}, "options": options});
    let edits = client.ask("textDocument/formatting", ask)["result"].clone();
    for edit in edits.as_array().unwrap() {
        assert_ne!(edit["range"]["start"]["line"], 0, "{edit}");
    }
    let comma = told.iter().find(|one| one["code"] == "decimal-comma").expect("it is told");
    let ask = json!({"textDocument": {"uri": URI}, "range": comma["range"], "context": {"diagnostics": [comma]}});
    let actions = client.ask("textDocument/codeAction", ask)["result"].clone();
    let mends = actions.as_array().unwrap();
    assert!(
        mends.iter().any(|one| one["kind"] == "quickfix" && one["edit"].is_object()),
        "{actions}"
    );
}

#[test]
fn a_thousand_texts_may_be_open() {
    let mut client = Client::begun(pushes(), &[]);
    let uri = |n: usize| format!("untitled:Untitled-{n}");
    for n in 0..1_000 {
        client.open(&uri(n), 1, UNKNOWN);
    }
    for n in [999, 0, 500] {
        assert!(rules(&client.published(&uri(n), 1)).contains(&"unknown-ingredient"));
    }
}
