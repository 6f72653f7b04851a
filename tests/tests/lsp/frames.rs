//! Nothing that a client sends keeps the server from going on.

use serde_json::{Value, json};

use crate::client::{Client, frame, framed};

const URI: &str = "untitled:Untitled-1";

/// A client that has a text open, and is told nothing more of it.
fn client() -> Client {
    let mut client = Client::begun(json!({}), &[]);
    client.open(URI, 1, "drink: Quarry Lane\n");
    client.published(URI, 1);
    client
}

/// The server still answers.
fn lives(client: &mut Client) {
    let answer = client.ask(
        "textDocument/formatting",
        json!({"textDocument": {"uri": URI}, "options": {"tabSize": 2, "insertSpaces": true}}),
    );
    assert!(answer.get("result").is_some(), "{answer}");
}

#[test]
fn bad_frames_are_answered_and_the_next_is_read() {
    let mut client = client();
    let bad: [(&[u8], i64); 10] = [
        (b"Content-Length: abc\r\n\r\n{}", -32700),
        (b"Content-Length: -5\r\n\r\n{}", -32700),
        (b"Content-Length: 99999999999999\r\n\r\n{}", -32700),
        (b"Content-Type: text/plain\r\n\r\n{}", -32700),
        (&framed(b"{\"jsonrpc\":\"2.0\",\"id\":1,"), -32700),
        (&framed(b""), -32700),
        (&framed(b"42"), -32600),
        (&framed(b"[]"), -32600),
        (
            &framed(format!("{{\"method\":\"x\",\"params\":{}", "[".repeat(100_000)).as_bytes()),
            -32700,
        ),
        // Its rest is told as well: it comes last.
        (b"Content-Length: 10\r\n\r\n{\"jsonrpc\":\"2.0\",\"method\":\"x\"}", -32700),
    ];
    for (bytes, code) in bad {
        client.send(bytes);
        lives(&mut client);
        assert_eq!(client.complaint(), code, "{}", String::from_utf8_lossy(bytes));
    }
}

#[test]
fn odd_frames_are_taken_as_they_are_meant() {
    let mut client = client();
    client.send(b"content-length: 44\nX-Other: y\nContent-Type: z\n\n{\"jsonrpc\":\"2.0\",\"id\":\"a\",\"method\":\"$/none\"}");
    assert_eq!(client.wait(|m| m["id"] == "a")["error"]["code"], -32601);
    client.send(&framed(b"[{\"jsonrpc\":\"2.0\",\"id\":\"b\",\"method\":\"none\"}]"));
    assert_eq!(client.wait(|m| m["id"] == "b")["error"]["code"], -32601);
    client.send(&framed(b"{\"id\":\"c\",\"method\":\"none\",\"params\":null}"));
    assert_eq!(client.wait(|m| m["id"] == "c")["error"]["code"], -32601);
    // Half a character, as clients send it that cut an emoji in two, and bytes that are none.
    let mut half = frame(&json!({"jsonrpc": "2.0", "method": "textDocument/didChange", "params": {
        "textDocument": {"uri": URI, "version": 2}, "contentChanges": [{"text": "drink: @@@@@@\n"}]}}));
    let at = half.windows(6).position(|six| six == b"@@@@@@").unwrap();
    half[at..at + 6].copy_from_slice(b"\\ud83d");
    client.send(&half);
    client.published(URI, 2);
    half[at..at + 6].copy_from_slice(b"\xff\xfe\xffabc");
    client.send(&half);
    lives(&mut client);
}

#[test]
fn what_nobody_knows_is_answered_or_ignored() {
    let mut client = client();
    for method in ["nothing/such", "$/nothing"] {
        assert_eq!(client.ask(method, json!({}))["error"]["code"], -32601);
        client.tell(method, json!({}));
    }
    let wrong = [
        json!({"nope": 1}),
        json!({"textDocument": {"uri": "not a uri"}, "options": {"tabSize": 2, "insertSpaces": true}}),
        Value::Null,
    ];
    for params in wrong {
        assert_eq!(client.ask("textDocument/formatting", params)["error"]["code"], -32602);
    }
    let elsewhere = json!({"textDocument": {"uri": "file:///nowhere/x.pour"}, "options": {"tabSize": 2, "insertSpaces": true}});
    assert_eq!(client.ask("textDocument/formatting", elsewhere)["result"], Value::Null);
    client.tell(
        "textDocument/didChange",
        json!({"textDocument": {"uri": "file:///x", "version": "two"}}),
    );
    client.change("file:///nowhere/y.pour", 2, json!([{"text": "x"}]));
    client
        .tell("textDocument/didClose", json!({"textDocument": {"uri": "file:///nowhere/z.pour"}}));
    client.tell("$/cancelRequest", json!({"id": 424_242}));
    client.open(URI, 1, "drink: Twice\n");
    lives(&mut client);
}

#[test]
fn every_request_of_many_is_answered() {
    let mut client = client();
    let options = json!({"tabSize": 2, "insertSpaces": true});
    let ask = json!({"textDocument": {"uri": URI}, "options": options});
    let ids: Vec<i64> =
        (0..500).map(|_| client.post("textDocument/formatting", ask.clone())).collect();
    for id in &ids {
        client.tell("$/cancelRequest", json!({"id": id}));
    }
    for id in ids {
        let answer = client.answer(id);
        let cancelled = answer["error"]["code"] == -32800;
        assert!(cancelled || answer.get("result").is_some(), "{answer}");
    }
}
