//! What a client can take decides what it is offered, and in which form it is told.

use serde_json::{Value, json};

use crate::client::Client;
use crate::houses::House;

const LIST: &str = "drink: Quarry Lane\n  60 ml gin\n  30 ml slate cordial\n";
const PREPS: &str = "prep: slate cordial\n  200 g white sugar\n  200 g water\n";

/// A client of a house, with its list open in version 4.
fn begin(house: &House, capabilities: Value) -> Client {
    let mut client = Client::begun(capabilities, &[house.uri("")]);
    client.open(&house.uri("list.pour"), 4, LIST);
    client
}

fn house() -> House {
    House::of(&[("list.pour", LIST), ("preps.pour", PREPS)])
}

/// Asks something of the slate cordial in the list.
fn ask(client: &mut Client, house: &House, method: &str, more: Value) -> Value {
    let uri = house.uri("list.pour");
    let mut params =
        json!({"textDocument": {"uri": uri}, "position": {"line": 2, "character": 10}});
    params.as_object_mut().unwrap().extend(more.as_object().cloned().unwrap_or_default());
    client.ask(&format!("textDocument/{method}"), params)
}

#[test]
fn options_are_for_clients_that_know_them() {
    let old = Client::begun(json!({}), &[]);
    assert_eq!(
        (&old.can["renameProvider"], &old.can["codeActionProvider"]),
        (&json!(true), &json!(true))
    );
    let kinds = json!({"codeActionKind": {"valueSet": ["quickfix"]}});
    let new = json!({"rename": {"prepareSupport": true}, "codeAction": {"codeActionLiteralSupport": kinds}});
    let new = Client::begun(json!({"textDocument": new}), &[]);
    assert_eq!(new.can["renameProvider"]["prepareProvider"], true);
    assert_eq!(new.can["codeActionProvider"]["resolveProvider"], true);
}

#[test]
fn edits_name_the_version_that_they_are_of() {
    let house = house();
    let mut client =
        begin(&house, json!({"workspace": {"workspaceEdit": {"documentChanges": true}}}));
    let edit = ask(&mut client, &house, "rename", json!({"newName": "flint cordial"}));
    let changes = &edit["result"]["documentChanges"];
    let list = json!({"uri": house.uri("list.pour"), "version": 4});
    let preps = json!({"uri": house.uri("preps.pour"), "version": null});
    assert_eq!((&changes[0]["textDocument"], &changes[1]["textDocument"]), (&list, &preps));
    assert_eq!(edit["result"].get("changes"), None);
    // A version may change and the text stay.
    let uri = house.uri("list.pour");
    client.change(&uri, 5, json!([{"text": LIST}]));
    let at = json!({"line": 1, "character": 3});
    let range = json!({"start": at, "end": at});
    let asked = json!({"range": range, "context": {"diagnostics": [], "only": ["refactor"]}});
    let offered = ask(&mut client, &house, "codeAction", asked)["result"].clone();
    assert_eq!(offered[0]["edit"]["documentChanges"][0]["textDocument"]["version"], 5, "{offered}");
}

#[test]
fn what_is_no_name_is_not_renamed() {
    let house = house();
    let mut client = begin(&house, json!({}));
    let refused = ask(&mut client, &house, "rename", json!({"newName": " "}));
    assert_eq!(refused["error"]["code"], -32803, "{refused}");
    assert!(!refused["error"]["message"].as_str().unwrap().is_empty());
}

#[test]
fn links_are_told_where_the_client_takes_them() {
    let house = house();
    let mut client = begin(&house, json!({"textDocument": {"declaration": {"linkSupport": true}}}));
    let link = ask(&mut client, &house, "declaration", Value::Null);
    assert!(link["result"][0]["targetUri"].is_string(), "{link}");
    let place = ask(&mut client, &house, "definition", Value::Null);
    assert!(place["result"][0]["uri"].is_string(), "{place}");
}

#[test]
fn who_pours_is_found_though_the_text_moved_meanwhile() {
    let house = house();
    let mut client = begin(&house, json!({}));
    let uri = house.uri("list.pour");
    let at = json!({"textDocument": {"uri": uri}, "position": {"line": 0, "character": 10}});
    let item = client.ask("textDocument/prepareCallHierarchy", at)["result"][0].clone();
    let above = json!({"start": {"line": 0, "character": 0}, "end": {"line": 0, "character": 0}});
    client.change(&uri, 5, json!([{"range": above, "text": "drink: Ash\n  30 ml gin\n\n"}]));
    let poured = client.ask("callHierarchy/outgoingCalls", json!({"item": item}));
    assert_eq!(poured["result"][0]["to"]["name"], "slate cordial", "{poured}");
    assert_eq!(poured["result"][0]["fromRanges"][0]["start"]["line"], 5);
}
