//! What the server says it can tell, it tells: names followed across a book, and what can be done.

use serde_json::{Value, json};

use crate::client::{Client, rules};
use crate::houses::House;

const LIST: &str = "drink: Quarry Lane
  family: sour
  source: https://example.org/lane
  60 ml gin
  22,5 ml lemon juice
  15 ml slate cordial
  - shake with ice, strain

drink: Quarry Row
  variant-of: Quarry Lane
  60 ml genever
  22.5 ml lemon juice
  15 ml slate cordial
  7.5 ml unheard-of juice
";
const PREPS: &str = "prep: slate cordial\n  200 g white sugar\n  200 g water\n";

/// A client of a house, with its list open.
struct Bar {
    house: House,
    client: Client,
}

impl Bar {
    fn open() -> Self {
        Self::with(json!({"documentSymbol": {"hierarchicalDocumentSymbolSupport": true}}))
    }

    /// One whose client can do `more` with texts than ask for diagnostics.
    fn with(mut more: Value) -> Self {
        let house = House::of(&[("list.pour", LIST), ("preps.pour", PREPS)]);
        more["diagnostic"] = json!({});
        let mut client = Client::begun(json!({"textDocument": more}), &[house.uri("")]);
        client.open(&house.uri("list.pour"), 1, LIST);
        Self { house, client }
    }

    fn list(&self) -> String {
        self.house.uri("list.pour")
    }

    /// Asks something of the first place of `words`, `more` beside it.
    fn ask(&mut self, method: &str, words: &str, more: Value) -> Value {
        let mut params = json!({"textDocument": {"uri": self.list()}, "position": place(words)});
        let members = more.as_object().cloned().unwrap_or_default();
        params.as_object_mut().unwrap().extend(members);
        let answer = self.client.ask(&format!("textDocument/{method}"), params);
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].clone()
    }
}

/// The place behind the first letter of `words`.
fn place(words: &str) -> Value {
    let at = LIST.find(words).expect("the list has the words");
    let line = LIST[..at].matches('\n').count();
    let column = at - LIST[..at].rfind('\n').map_or(0, |end| end + 1);
    json!({"line": line, "character": column + 1})
}

/// A list of answers that must not be empty.
fn items(answer: &Value) -> &Vec<Value> {
    let items = answer.as_array().expect("a list");
    assert!(!items.is_empty());
    items
}

#[test]
fn a_name_leads_to_its_prep_and_back() {
    let mut bar = Bar::open();
    for method in ["definition", "declaration"] {
        let found = bar.ask(method, "slate cordial", Value::Null);
        assert_eq!(items(&found)[0]["uri"], bar.house.uri("preps.pour"), "{method}");
    }
    let variants = bar.ask("implementation", "Quarry Lane", Value::Null);
    assert_eq!(items(&variants)[0]["range"]["start"], json!({"line": 8, "character": 7}));
    let context = json!({"context": {"includeDeclaration": true}});
    assert_eq!(items(&bar.ask("references", "slate cordial", context)).len(), 3);
    assert_eq!(items(&bar.ask("documentHighlight", "slate cordial", Value::Null)).len(), 2);
}

#[test]
fn what_is_marked_under_a_hover_lies_there() {
    let house = House::of(&[]);
    let mut client = Client::begun(json!({}), &[house.uri("")]);
    let uri = house.uri("list.pour");
    client.open(&uri, 1, "drink: Ash\n  glass: coupe, chilled\n");
    for (character, is_marked) in [(10, true), (18, false)] {
        let at = json!({"line": 1, "character": character});
        let ask = json!({"textDocument": {"uri": uri}, "position": at});
        let hover = client.ask("textDocument/hover", ask)["result"].clone();
        assert!(hover["contents"]["value"].is_string(), "{hover}");
        assert_eq!(hover["range"].is_object(), is_marked, "{hover}");
    }
}

#[test]
fn a_prep_is_renamed_across_the_book() {
    let mut bar = Bar::open();
    let offered = bar.ask("prepareRename", "slate cordial", Value::Null);
    assert_eq!(offered["placeholder"], "slate cordial");
    assert_eq!(bar.ask("prepareRename", "shake", Value::Null), Value::Null);
    let edit = bar.ask("rename", "slate cordial", json!({"newName": "flint cordial"}));
    let changes = edit["changes"].as_object().unwrap();
    assert_eq!(items(&changes[&bar.list()]).len(), 2);
    assert_eq!(items(&changes[&bar.house.uri("preps.pour")]).len(), 1);
}

#[test]
fn who_pours_a_prep_is_told_and_what_goes_into_a_drink() {
    let mut bar = Bar::open();
    let found = bar.ask("prepareCallHierarchy", "slate cordial", Value::Null);
    let prep = &items(&found)[0];
    assert_eq!(prep["name"], "slate cordial");
    let users = bar.client.ask("callHierarchy/incomingCalls", json!({"item": prep}));
    let users: Vec<&Value> =
        items(&users["result"]).iter().map(|call| &call["from"]["name"]).collect();
    assert_eq!(users, ["Quarry Lane", "Quarry Row"]);
    let found = bar.ask("prepareCallHierarchy", "Quarry Lane", Value::Null);
    let poured = bar.client.ask("callHierarchy/outgoingCalls", json!({"item": items(&found)[0]}));
    assert_eq!(items(&poured["result"])[0]["to"]["name"], "slate cordial");
}

#[test]
fn the_shape_of_a_text_is_told() {
    let mut bar = Bar::open();
    let range = json!({"range": {"start": {"line": 0, "character": 0}, "end": {"line": 99, "character": 0}}});
    for method in ["documentSymbol", "foldingRange", "codeLens", "inlayHint"] {
        items(&bar.ask(method, "drink", range.clone()));
    }
    let positions = json!({"positions": [place("lemon juice")]});
    let grown = bar.ask("selectionRange", "drink", positions);
    assert!(items(&grown)[0]["parent"]["parent"].is_object(), "{grown}");
    let links = bar.ask("documentLink", "drink", Value::Null);
    assert_eq!(items(&links)[0]["target"], "https://example.org/lane");
    let found = bar.client.ask("workspace/symbol", json!({"query": "slate"}));
    assert_eq!(items(&found["result"])[0]["name"], "slate cordial");
}

#[test]
fn an_outline_is_flat_for_a_client_that_takes_no_other() {
    let nested = Bar::open().ask("documentSymbol", "drink", Value::Null);
    assert_eq!(items(&nested)[0]["children"][0]["name"], "gin");
    let house = House::of(&[]);
    let mut client = Client::begun(json!({}), &[house.uri("")]);
    let uri = house.uri("list.pour");
    client.open(&uri, 1, LIST);
    let ask = json!({"textDocument": {"uri": uri}});
    let flat = client.ask("textDocument/documentSymbol", ask)["result"].clone();
    let told: Vec<[&Value; 2]> =
        items(&flat).iter().take(2).map(|one| [&one["name"], &one["containerName"]]).collect();
    assert_eq!(
        told,
        [[&json!("Quarry Lane"), &Value::Null], [&json!("gin"), &json!("Quarry Lane")]]
    );
    assert_eq!(flat[0]["location"]["uri"], uri);
}

/// The actions offered where `rule` finds something; `only` those kinds.
fn actions(bar: &mut Bar, rule: &str, only: &Value) -> Vec<Value> {
    let told = bar.ask("diagnostic", "drink", Value::Null)["items"].clone();
    let told = told.as_array().unwrap();
    assert!(rules(told).contains(&rule), "{told:?}");
    let found = told.iter().find(|one| one["code"] == rule).unwrap();
    let context = json!({"diagnostics": [found], "only": only});
    let ask = json!({"range": found["range"], "context": context});
    bar.ask("codeAction", "drink", ask).as_array().unwrap().clone()
}

#[test]
fn a_finding_is_mended_or_let_off_with_a_reason() {
    let mut bar = Bar::open();
    let offered = actions(&mut bar, "unknown-ingredient", &json!(["quickfix"]));
    let title = "waive unknown-ingredient here, because …";
    let waiver = offered.iter().find(|one| one["title"] == title).expect("it can be let off");
    let edit = &waiver["edit"]["changes"][bar.list()][0];
    assert_eq!(edit["newText"], "\n  waive: unknown-ingredient because ");
    assert_eq!(edit["range"]["start"]["line"], 9);
    let offered = actions(&mut bar, "decimal-comma", &Value::Null);
    assert!(offered.iter().any(|one| one["isPreferred"] == true), "{offered:?}");
}

#[test]
fn all_mends_at_once_are_asked_for_of_any_server_or_of_this_one() {
    let mut bar = Bar::open();
    for (kind, is_offered) in [
        ("source.fixAll", true),
        ("source.fixAll.washline", true),
        ("source", true),
        ("source.fixAll.other", false),
        ("source.organizeImports", false),
    ] {
        let offered = actions(&mut bar, "decimal-comma", &json!([kind]));
        assert_eq!(!offered.is_empty(), is_offered, "{kind}");
        assert!(offered.iter().all(|one| one["kind"] == "source.fixAll.washline"), "{offered:?}");
    }
}

/// The rewritings offered of the gin.
fn rewritings(bar: &mut Bar) -> Vec<Value> {
    let range = json!({"start": place("60 ml gin"), "end": place("60 ml gin")});
    let context = json!({"diagnostics": [], "only": ["refactor"]});
    let offered = bar.ask("codeAction", "drink", json!({"range": range, "context": context}));
    items(&offered).clone()
}

#[test]
fn what_is_rewritten_is_told_when_it_is_taken() {
    let asks = json!({"dataSupport": true, "resolveSupport": {"properties": ["edit"]}});
    let mut bar = Bar::with(json!({"codeAction": asks}));
    for action in rewritings(&mut bar) {
        assert!(action["edit"].is_null(), "{action}");
        let resolved = bar.client.ask("codeAction/resolve", action);
        assert!(resolved["result"]["edit"]["changes"].is_object(), "{resolved}");
    }
}

#[test]
fn what_is_rewritten_is_told_at_once_to_a_client_that_does_not_ask_again() {
    for action in rewritings(&mut Bar::open()) {
        assert!(action["edit"]["changes"].is_object(), "{action}");
    }
}
