//! Files that change behind the client's texts: on disk, beyond its folders, with their folder.

use serde_json::{Value, json};

use crate::client::{Client, frame, rules};
use crate::houses::House;

const DRINK: &str = "drink: Quarry Lane\n  30 ml slate cordial\n";
const PREP: &str = "prep: slate cordial\n  200 g white sugar\n  200 g water\n";
const OFF: &str = "[rules]\nunknown-ingredient = \"off\"\n";
const EXTENDS: &str = "extends = \"../group.toml\"\n";

/// A house whose standards start from a file above the client's folder.
fn group() -> House {
    let files = [("washline.toml", ""), ("group.toml", ""), ("bar/washline.toml", EXTENDS)];
    House::of(&files)
}

/// A client of the folder `bar`, its list open, that can do `more` with a workspace.
fn begin(house: &House, more: Value) -> Client {
    let mut client = Client::begun(json!({"workspace": more}), &[house.uri("bar")]);
    client.open(&house.uri("bar/list.pour"), 1, DRINK);
    client
}

/// Whether the list has an ingredient that nobody knows, as it is told next.
fn has_unknown(client: &mut Client, house: &House) -> bool {
    let told = client.published(&house.uri("bar/list.pour"), 1);
    rules(&told).contains(&"unknown-ingredient")
}

/// The request that asks to watch what lies beyond the folders.
fn asked_beyond(client: &mut Client, method: &str) -> Value {
    let list =
        if method == "client/registerCapability" { "registrations" } else { "unregisterations" };
    let asked = client.wait(|m| {
        let id = m["params"][list][0]["id"].as_str().unwrap_or_default();
        m["method"] == method && id.starts_with("washline/standards")
    });
    client.send(&frame(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": null})));
    asked["params"][list][0].clone()
}

#[test]
fn standards_beyond_the_folder_are_watched_and_read_again() {
    let house = group();
    let can = json!({"dynamicRegistration": true, "relativePatternSupport": true});
    let mut client = begin(&house, json!({"didChangeWatchedFiles": can}));
    assert!(has_unknown(&mut client, &house));
    let asked = asked_beyond(&mut client, "client/registerCapability");
    let group = json!({"baseUri": house.uri("").trim_end_matches('/'), "pattern": "group.toml"});
    assert_eq!(asked["registerOptions"]["watchers"], json!([{"globPattern": group}]));
    house.write("group.toml", OFF);
    let changed = json!({"changes": [{"uri": house.uri("group.toml"), "type": 2}]});
    client.tell("workspace/didChangeWatchedFiles", changed);
    assert!(!has_unknown(&mut client, &house));
    // It is let go with the last who starts from it.
    client.open(&house.uri("bar/washline.toml"), 1, "");
    assert!(has_unknown(&mut client, &house));
    let gone = asked_beyond(&mut client, "client/unregisterCapability");
    assert_eq!(gone["id"], asked["id"]);
}

#[test]
fn standards_that_are_not_there_yet_are_watched_for() {
    let house = group();
    house.remove("group.toml");
    let can = json!({"dynamicRegistration": true, "relativePatternSupport": true});
    let mut client = begin(&house, json!({"didChangeWatchedFiles": can}));
    let asked = asked_beyond(&mut client, "client/registerCapability");
    let watched = &asked["registerOptions"]["watchers"][0]["globPattern"]["pattern"];
    assert_eq!(watched, "group.toml");
}

#[test]
fn standards_that_nobody_watches_are_read_again_on_saving() {
    for can in [json!({}), json!({"dynamicRegistration": true})] {
        let house = group();
        let mut client = begin(&house, json!({"didChangeWatchedFiles": can}));
        assert_eq!(client.can["textDocumentSync"]["save"], true);
        assert!(has_unknown(&mut client, &house));
        house.write("group.toml", OFF);
        let list = house.uri("bar/list.pour");
        client.tell("textDocument/didSave", json!({"textDocument": {"uri": list}}));
        assert!(!has_unknown(&mut client, &house));
    }
}

#[test]
fn who_refuses_to_watch_is_served_all_the_same() {
    let house = group();
    let can = json!({"dynamicRegistration": true, "relativePatternSupport": true});
    let mut client = begin(&house, json!({"didChangeWatchedFiles": can}));
    for _ in 0..2 {
        let asked = client.wait(|m| m["method"] == "client/registerCapability");
        let error = json!({"code": -32601, "message": "no"});
        client.send(&frame(&json!({"jsonrpc": "2.0", "id": asked["id"], "error": error})));
    }
    assert!(has_unknown(&mut client, &house));
}

#[test]
fn a_folder_that_moves_or_goes_takes_its_files_along() {
    let house = House::of(&[("bar/preps/slate.pour", PREP)]);
    let mut client = begin(&house, json!({}));
    let operations = &client.can["workspace"]["fileOperations"];
    for kind in ["didCreate", "didRename", "didDelete"] {
        assert_eq!(operations[kind]["filters"][1]["pattern"]["matches"], "folder");
    }
    assert!(!has_unknown(&mut client, &house));
    let [preps, archive] = ["bar/preps", "bar/archive"].map(|name| house.uri(name));
    house.rename("bar/preps", "elsewhere");
    client.tell("workspace/didDeleteFiles", json!({"files": [{"uri": preps}]}));
    assert!(has_unknown(&mut client, &house));
    house.rename("elsewhere", "bar/archive");
    client
        .tell("workspace/didRenameFiles", json!({"files": [{"oldUri": preps, "newUri": archive}]}));
    assert!(!has_unknown(&mut client, &house));
    // Other files by the same names, and only the folder is told of.
    house.write("bar/archive/slate.pour", &PREP.replace("slate", "flint"));
    client.tell("workspace/didCreateFiles", json!({"files": [{"uri": archive}]}));
    assert!(has_unknown(&mut client, &house));
}

#[test]
fn what_other_files_have_a_part_in_is_asked_for_anew_when_they_change() {
    let house = House::of(&[("bar/preps.pour", PREP)]);
    let refresh = json!({"refreshSupport": true});
    let can = json!({"codeLens": refresh, "inlayHint": refresh, "semanticTokens": refresh});
    let mut client = begin(&house, can);
    assert!(!has_unknown(&mut client, &house));
    house.write("bar/preps.pour", &PREP.replace("200 g water", "400 g water"));
    let changed = json!({"changes": [{"uri": house.uri("bar/preps.pour"), "type": 2}]});
    client.tell("workspace/didChangeWatchedFiles", changed);
    for what in ["semanticTokens", "codeLens", "inlayHint"] {
        let asked = client.wait(|m| m["method"] == format!("workspace/{what}/refresh"));
        client.send(&frame(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": null})));
    }
}

#[test]
fn nothing_is_asked_of_a_client_that_does_not_listen_yet() {
    let house = House::of(&[("bar/list.pour", DRINK)]);
    let mut client = Client::within();
    let folder = json!([{"uri": house.uri("bar"), "name": "bar"}]);
    let can = json!({"window": {"workDoneProgress": true}});
    let params = json!({"processId": null, "workspaceFolders": folder, "capabilities": can});
    client.ask("initialize", params);
    // Whatever it would ask by itself, it has asked by the time that this is answered.
    let before = client.ask("workspace/symbol", json!({"query": ""}));
    assert!(before["result"].is_array());
    assert_eq!(client.count("window/workDoneProgress/create"), 0);
    client.tell("initialized", json!({}));
    client.wait(|m| m["method"] == "window/workDoneProgress/create");
}

#[test]
fn settings_that_change_are_told_or_asked_for() {
    let house = House::of(&[]);
    let can =
        json!({"configuration": true, "didChangeConfiguration": {"dynamicRegistration": true}});
    let mut client = begin(&house, can);
    let asked = client.wait(|m| m["method"] == "client/registerCapability");
    let wish = &asked["params"]["registrations"][0];
    assert_eq!(wish["method"], "workspace/didChangeConfiguration");
    let answer = |client: &mut Client, figures: bool| {
        let asked = client.wait(|m| m["method"] == "workspace/configuration");
        let settings = json!([{"figures": figures}]);
        client.send(&frame(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": settings})));
    };
    answer(&mut client, true);
    // Some say what changed, some that something did.
    client.tell("workspace/didChangeConfiguration", json!({"settings": {}}));
    answer(&mut client, false);
}
