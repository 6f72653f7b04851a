//! Books of a house: the nearest standards hold, and what is unsaved beats the disk.

use std::fs;
use std::path::Path;

use serde_json::json;
use tempfile::TempDir;

use crate::client::{Client, rules};

/// A house on disk, and how a client calls its files.
pub struct House(TempDir);

impl House {
    pub fn of(files: &[(&str, &str)]) -> Self {
        let house = Self(tempfile::tempdir().unwrap());
        files.iter().for_each(|(name, text)| house.write(name, text));
        house
    }

    pub fn write(&self, name: &str, text: &str) {
        let path = self.0.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    pub fn remove(&self, name: &str) {
        fs::remove_file(self.0.path().join(name)).unwrap();
    }

    pub fn rename(&self, from: &str, to: &str) {
        fs::rename(self.0.path().join(from), self.0.path().join(to)).unwrap();
    }

    pub fn uri(&self, name: &str) -> String {
        let folder: &Path = self.0.path();
        format!("file://{}", folder.canonicalize().unwrap().join(name).display())
    }

    fn client(&self) -> Client {
        Client::begun(json!({}), &[self.uri("")])
    }
}

const DRINK: &str = "drink: Quarry Lane\n  30 ml slate cordial\n";
const PREP: &str = "prep: slate cordial\n  200 g white sugar\n  200 g water\n";
const OFF: &str = "[rules]\nunknown-ingredient = \"off\"\n";

#[test]
fn a_prep_of_another_file_is_known_be_it_unsaved() {
    let house = House::of(&[("list.pour", DRINK)]);
    let mut client = house.client();
    let (list, preps) = (house.uri("list.pour"), house.uri("preps.pour"));
    client.open(&list, 1, DRINK);
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    client.open(&preps, 1, PREP);
    assert!(!rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    // What is closed unsaved was never there.
    client.tell("textDocument/didClose", json!({"textDocument": {"uri": preps}}));
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
}

#[test]
fn what_changes_on_disk_is_read_again_when_the_client_says_so() {
    let house = House::of(&[("list.pour", DRINK)]);
    let mut client = house.client();
    let list = house.uri("list.pour");
    client.open(&list, 1, DRINK);
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    house.write("below/preps.pour", PREP);
    let changed = json!({"changes": [{"uri": house.uri("below/preps.pour"), "type": 1}]});
    client.tell("workspace/didChangeWatchedFiles", changed);
    assert!(!rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
}

#[test]
fn standards_hold_as_the_editor_has_them() {
    let house = House::of(&[("list.pour", DRINK), ("washline.toml", "")]);
    let mut client = house.client();
    let (list, standards) = (house.uri("list.pour"), house.uri("washline.toml"));
    client.open(&list, 1, DRINK);
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    client.open(&standards, 1, OFF);
    assert!(!rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    // What can't be read is told, and the last that could be holds.
    client.change(&standards, 2, json!([{"text": "[rules]\nunknown-ingredient = 3\n"}]));
    let told = client.wait(|m| {
        m["method"] == "textDocument/publishDiagnostics" && m["params"]["uri"] == json!(standards)
    });
    assert_eq!(told["params"]["diagnostics"][0]["range"]["start"]["line"], 1);
    client.change(&standards, 3, json!([{"text": ""}]));
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
}

#[test]
fn standards_lead_to_those_they_start_from() {
    let own = "extends = \"../group standard.toml\"\n";
    let house = House::of(&[("bar/washline.toml", own), ("group standard.toml", "")]);
    let mut client = house.client();
    let standards = house.uri("bar/washline.toml");
    client.open(&standards, 1, own);
    let ask = json!({"textDocument": {"uri": standards}});
    let links = client.ask("textDocument/documentLink", ask.clone())["result"].clone();
    assert_eq!(links[0]["target"], house.uri("group%20standard.toml"));
    assert_eq!(links[0]["range"]["start"], json!({"line": 0, "character": 10}));
    client.change(&standards, 2, json!([{"text": "units = 3\n"}]));
    assert_eq!(client.ask("textDocument/documentLink", ask)["result"], json!([]));
}

#[test]
fn what_standards_start_from_is_read_again_when_it_changes() {
    let files =
        [("list.pour", DRINK), ("washline.toml", "extends = \"group.toml\"\n"), ("group.toml", "")];
    let house = House::of(&files);
    let mut client = house.client();
    let list = house.uri("list.pour");
    client.open(&list, 1, DRINK);
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    house.write("group.toml", OFF);
    let changed = json!({"changes": [{"uri": house.uri("group.toml"), "type": 2}]});
    client.tell("workspace/didChangeWatchedFiles", changed);
    assert!(!rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
}

#[test]
fn the_nearest_standards_hold_but_not_those_above_the_folder() {
    let house = House::of(&[
        ("washline.toml", OFF),
        ("bar/list.pour", DRINK),
        ("bar/annex/washline.toml", OFF),
        ("bar/annex/list.pour", DRINK),
    ]);
    let mut client = Client::begun(json!({}), &[house.uri("bar")]);
    let (list, annex) = (house.uri("bar/list.pour"), house.uri("bar/annex/list.pour"));
    client.open(&list, 1, DRINK);
    client.open(&annex, 1, DRINK);
    assert!(rules(&client.published(&list, 1)).contains(&"unknown-ingredient"));
    assert!(!rules(&client.published(&annex, 1)).contains(&"unknown-ingredient"));
}

#[test]
fn the_client_is_asked_to_watch_and_is_told_how_far_reading_has_come() {
    let house = House::of(&[("list.pour", DRINK)]);
    let capabilities = json!({
        "window": {"workDoneProgress": true},
        "workspace": {"didChangeWatchedFiles": {"dynamicRegistration": true}},
    });
    let mut client = Client::begun(capabilities, &[house.uri("")]);
    let asked = client.wait(|m| m["method"] == "client/registerCapability");
    let watched = asked["params"]["registrations"][0]["method"].clone();
    assert_eq!(watched, "workspace/didChangeWatchedFiles");
    let watchers = &asked["params"]["registrations"][0]["registerOptions"]["watchers"];
    assert_eq!(*watchers, json!([{"globPattern": "**/*.pour"}, {"globPattern": "**/*.toml"}]));
    let create = client.wait(|m| m["method"] == "window/workDoneProgress/create");
    let answer = json!({"jsonrpc": "2.0", "id": create["id"], "result": null});
    client.send(&crate::client::frame(&answer));
    for kind in ["begin", "end"] {
        client.wait(|m| m["method"] == "$/progress" && m["params"]["value"]["kind"] == kind);
    }
}
