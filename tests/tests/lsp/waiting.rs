//! What is wrong in all files, for a client that asks once and waits for news.

use serde_json::{Value, json};

use crate::client::{Client, rules};
use crate::houses::House;

const DRINK: &str = "drink: Quarry Lane\n  30 ml slate cordial\n";
const PREP: &str = "prep: slate cordial\n  200 g white sugar\n  200 g water\n";

/// A client that asks for diagnostics, and a house.
struct Bar {
    house: House,
    client: Client,
    /// What the client has of each file.
    known: Vec<Value>,
}

impl Bar {
    fn of(files: &[(&str, &str)]) -> Self {
        let house = House::of(files);
        let asks = json!({"textDocument": {"diagnostic": {}}});
        let client = Client::begun(asks, &[house.uri("")]);
        Self { house, client, known: Vec::new() }
    }

    /// Asks with what it has; the question.
    fn post(&mut self) -> i64 {
        let params = json!({"identifier": "washline", "previousResultIds": self.known});
        self.client.post("workspace/diagnostic", params)
    }

    /// What it is told when there is news: it has that from now on.
    fn news(&mut self, question: i64) -> Vec<Value> {
        let answer = self.client.answer(question);
        let items = answer["result"]["items"].as_array().expect("a report").clone();
        for item in &items {
            self.known.retain(|one| one["uri"] != item["uri"]);
            if item["resultId"].is_string() {
                self.known.push(json!({"uri": item["uri"], "value": item["resultId"]}));
            }
        }
        items
    }

    fn told(&mut self) -> Vec<Value> {
        let question = self.post();
        self.news(question)
    }

    fn of_file<'a>(&self, items: &'a [Value], name: &str) -> &'a Value {
        let uri = self.house.uri(name);
        items.iter().find(|item| item["uri"] == uri).expect("the file is told of")
    }

    fn changed_on_disk(&mut self, name: &str, kind: u8) {
        let changes = json!({"changes": [{"uri": self.house.uri(name), "type": kind}]});
        self.client.tell("workspace/didChangeWatchedFiles", changes);
    }
}

#[test]
fn every_file_is_told_of_at_once_and_then_what_changes() {
    let mut bar = Bar::of(&[("list.pour", DRINK), ("below/preps.pour", "# none yet\n")]);
    assert_eq!(bar.client.can["diagnosticProvider"]["workspaceDiagnostics"], true);
    let list = bar.house.uri("list.pour");
    bar.client.open(&list, 7, DRINK);
    let items = bar.told();
    assert_eq!(items.len(), 2);
    let one = bar.of_file(&items, "list.pour");
    assert_eq!((&one["kind"], &one["version"]), (&json!("full"), &json!(7)));
    assert!(rules(one["items"].as_array().unwrap()).contains(&"unknown-ingredient"));
    let other = bar.of_file(&items, "below/preps.pour");
    assert_eq!((&other["kind"], other.get("version")), (&json!("full"), Some(&Value::Null)));
    // Nothing is new until a file changes: an earlier answer would not tell of it.
    let question = bar.post();
    bar.house.write("below/preps.pour", PREP);
    bar.changed_on_disk("below/preps.pour", 2);
    let items = bar.news(question);
    let one = bar.of_file(&items, "list.pour");
    assert_eq!((&one["kind"], &one["version"]), (&json!("full"), &json!(7)));
    assert!(!rules(one["items"].as_array().unwrap()).contains(&"unknown-ingredient"));
    // What is typed counts no less, and what it leaves alone is unchanged.
    let question = bar.post();
    bar.client.change(&list, 8, json!([{"text": "drink: Quarry Lane\n  30 ml {\n"}]));
    let items = bar.news(question);
    assert_eq!(bar.of_file(&items, "list.pour")["version"], 8);
    assert_eq!(bar.of_file(&items, "list.pour")["kind"], "full");
}

#[test]
fn what_has_not_changed_is_not_told_twice() {
    let mut bar = Bar::of(&[("a.pour", DRINK), ("b.pour", "drink: Ash\n  30 ml {\n")]);
    bar.told();
    let question = bar.post();
    bar.house.write("a.pour", &DRINK.replace("30 ml", "30 ml {"));
    bar.changed_on_disk("a.pour", 2);
    let items = bar.news(question);
    assert_eq!(bar.of_file(&items, "a.pour")["kind"], "full");
    let same = bar.of_file(&items, "b.pour");
    assert_eq!((&same["kind"], &same["version"]), (&json!("unchanged"), &Value::Null));
}

#[test]
fn of_a_file_that_is_no_more_nothing_is_left() {
    let mut bar = Bar::of(&[("a.pour", DRINK), ("old/b.pour", DRINK)]);
    bar.told();
    for (name, kind) in [("old/b.pour", 3), ("a.pour", 3)] {
        let question = bar.post();
        bar.house.remove(name);
        bar.changed_on_disk(name, kind);
        let items = bar.news(question);
        let gone = bar.of_file(&items, name);
        assert_eq!((&gone["kind"], &gone["items"]), (&json!("full"), &json!([])));
        assert_eq!((&gone["version"], gone.get("resultId")), (&Value::Null, None));
    }
    assert!(bar.known.is_empty());
}

#[test]
fn a_folder_that_the_client_lets_go_takes_its_findings_along() {
    let mut bar = Bar::of(&[("list.pour", DRINK)]);
    assert_eq!(bar.told().len(), 1);
    let question = bar.post();
    let folder = json!({"uri": bar.house.uri(""), "name": "house"});
    let event = json!({"event": {"added": [], "removed": [folder]}});
    bar.client.tell("workspace/didChangeWorkspaceFolders", event);
    let items = bar.news(question);
    assert_eq!(bar.of_file(&items, "list.pour")["items"], json!([]));
}

#[test]
fn an_open_text_is_told_the_same_whichever_way_it_is_asked_for() {
    let mut bar = Bar::of(&[("list.pour", DRINK)]);
    let list = bar.house.uri("list.pour");
    bar.client.open(&list, 1, DRINK);
    let ask = json!({"textDocument": {"uri": list}});
    let one = bar.client.ask("textDocument/diagnostic", ask)["result"].clone();
    let items = bar.told();
    let same = bar.of_file(&items, "list.pour");
    assert_eq!((&one["resultId"], &one["items"]), (&same["resultId"], &same["items"]));
    // One that has it of the text alone has it.
    bar.known = vec![json!({"uri": list, "value": one["resultId"]})];
    let question = bar.post();
    bar.client.change(&list, 2, json!([{"text": ""}]));
    let items = bar.news(question);
    assert_eq!(bar.of_file(&items, "list.pour")["version"], 2);
}

#[test]
fn the_same_bytes_on_another_line_are_news() {
    let mut bar = Bar::of(&[]);
    let list = bar.house.uri("list.pour");
    let text = "drink: Ash\n  # a remark\n  30 ml {\n";
    bar.client.open(&list, 1, text);
    bar.told();
    let question = bar.post();
    bar.client.change(&list, 2, json!([{"text": text.replace(" remark", "\nremark")}]));
    let items = bar.news(question);
    assert_eq!(bar.of_file(&items, "list.pour")["kind"], "full");
}

#[test]
fn a_client_may_spell_a_file_otherwise() {
    let ash = "drink: Ash\n  30 ml {\n";
    let mut bar = Bar::of(&[("sour, short.pour", ash), ("b.pour", DRINK)]);
    bar.told();
    for one in &mut bar.known {
        one["uri"] = Value::from(one["uri"].as_str().unwrap().replace(',', "%2C"));
    }
    let question = bar.post();
    bar.house.write("b.pour", &DRINK.replace("30 ml", "30 ml {"));
    bar.changed_on_disk("b.pour", 2);
    let items = bar.news(question);
    assert_eq!(items.len(), 2, "{items:?}");
    let same = items.iter().filter(|item| item["kind"] == "unchanged").count();
    assert_eq!(same, 1, "{items:?}");
}

#[test]
fn of_very_many_findings_the_last_says_how_many_more() {
    let text = format!("drink: Quarry Lane\n{}", "  30 ml {\n".repeat(1_200));
    let mut bar = Bar::of(&[("list.pour", &text)]);
    let items = bar.told();
    assert_eq!(items[0]["items"].as_array().unwrap().len(), 1_000);
}

#[test]
fn who_gives_up_waiting_is_answered() {
    let mut bar = Bar::of(&[("list.pour", DRINK)]);
    bar.told();
    let question = bar.post();
    bar.client.tell("$/cancelRequest", json!({"id": question}));
    assert_eq!(bar.client.answer(question)["error"]["code"], -32800);
    // The next is held like the first.
    let question = bar.post();
    assert_eq!(bar.client.ask("shutdown", Value::Null)["result"], Value::Null);
    assert_eq!(bar.client.answer(question)["result"]["items"], json!([]));
    let late = bar.post();
    assert_eq!(bar.client.answer(late)["error"]["code"], -32600);
    bar.client.tell("exit", Value::Null);
    assert_eq!(bar.client.status(), 0);
}

#[test]
fn a_client_that_leaves_while_it_waits_is_let_go() {
    let mut bar = Bar::of(&[("list.pour", DRINK)]);
    bar.told();
    bar.post();
    bar.client.hang_up();
    assert_eq!(bar.client.status(), 1);
}

#[test]
fn however_many_wait_others_are_answered() {
    let mut bar = Bar::of(&[("list.pour", DRINK)]);
    bar.told();
    let first = bar.post();
    let last = (0..400).map(|_| bar.post()).last().unwrap();
    assert_eq!(bar.client.answer(first)["result"]["items"], json!([]));
    let found = bar.client.ask("workspace/symbol", json!({"query": "Quarry"}));
    assert_eq!(found["result"][0]["name"], "Quarry Lane");
    bar.house.remove("list.pour");
    bar.changed_on_disk("list.pour", 3);
    assert_eq!(bar.news(last).len(), 1);
}

#[test]
fn who_does_not_ask_for_diagnostics_has_none_to_wait_for() {
    let house = House::of(&[("list.pour", DRINK)]);
    let mut client = Client::begun(json!({}), &[house.uri("")]);
    let ask = json!({"previousResultIds": []});
    assert_eq!(client.ask("workspace/diagnostic", ask)["error"]["code"], -32601);
}
