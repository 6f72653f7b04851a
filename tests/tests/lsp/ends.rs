//! The server ends when it is told to, or when nobody is there any more, and says how.

use std::process::{Command, Stdio};

use serde_json::{Value, json};

use crate::client::{Client, frame};
use crate::command::serving;

#[test]
fn after_shutdown_it_ends_well_though_the_pipe_stays_open() {
    let mut client = Client::begun(json!({}), &[]);
    let answer = client.ask("shutdown", Value::Null);
    assert_eq!(answer["result"], Value::Null);
    assert!(answer.get("error").is_none(), "{answer}");
    assert_eq!(client.ask("textDocument/hover", json!({}))["error"]["code"], -32600);
    client.tell("exit", Value::Null);
    assert_eq!(client.status(), 0);
}

#[test]
fn without_shutdown_it_ends_with_1() {
    let mut client = Client::begun(json!({}), &[]);
    client.tell("exit", Value::Null);
    assert_eq!(client.status(), 1);
    let mut never_begun = Client::within();
    assert_eq!(never_begun.ask("shutdown", Value::Null)["error"]["code"], -32002);
    never_begun.tell("exit", Value::Null);
    assert_eq!(never_begun.status(), 1);
}

#[test]
fn a_closed_pipe_ends_it() {
    let mut client = Client::begun(json!({}), &[]);
    client.hang_up();
    assert_eq!(client.status(), 1);
    let mut cut = Client::within();
    cut.send(b"Content-Length: 100\r\n\r\n{");
    cut.hang_up();
    assert_eq!(cut.status(), 1);
}

#[test]
fn what_follows_exit_is_not_waited_for() {
    let mut client = Client::begun(json!({}), &[]);
    let mut both = frame(&json!({"jsonrpc": "2.0", "id": 9, "method": "shutdown"}));
    both.extend(frame(&json!({"jsonrpc": "2.0", "method": "exit"})));
    both.extend(frame(&json!({"jsonrpc": "2.0", "id": 10, "method": "textDocument/hover"})));
    client.send(&both);
    assert_eq!(client.answer(9)["result"], Value::Null);
    assert_eq!(client.status(), 0);
}

#[test]
fn requests_before_the_first_are_refused_and_it_still_begins() {
    let mut client = Client::within();
    client.open("untitled:a", 1, "drink: A\n");
    assert_eq!(client.ask("textDocument/hover", json!({}))["error"]["code"], -32002);
    client.begin(json!({}), &[]);
    assert!(client.can.is_object());
    assert_eq!(client.ask("initialize", json!({"capabilities": {}}))["error"]["code"], -32600);
}

#[test]
fn the_command_serves_and_ends_with_its_client() {
    let (mut client, mut server) = serving();
    // The client that is named here lives as long as its own input is open.
    let mut named = Command::new("cat").stdin(Stdio::piped()).spawn().unwrap();
    let params = json!({"processId": named.id(), "rootUri": null, "capabilities": {}});
    assert!(client.ask("initialize", params)["result"].is_object());
    drop(named.stdin.take());
    named.wait().unwrap();
    assert_eq!(server.wait().unwrap().code(), Some(1));
}
