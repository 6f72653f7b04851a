//! What each word is, told whole and told as what is new.

use serde_json::{Value, json};

use crate::client::Client;
use crate::truth::{Dice, edit};

const URI: &str = "untitled:Untitled-1";
const TEXT: &str = "drink: Quarry Lane\n  60 ml gin 🍋\r\n  30 ml slate cordial\r";
/// How many times a text is changed.
const ROUNDS: usize = 300;
/// How many edits each change holds at most.
const BURST: usize = 4;

fn client() -> Client {
    let diagnostic = json!({"diagnostic": {}});
    let mut client = Client::begun(json!({"textDocument": diagnostic}), &[]);
    client.open(URI, 1, TEXT);
    client
}

/// The tokens as they are, without a result that the next question could name.
fn all(client: &mut Client) -> Vec<u64> {
    let range =
        json!({"start": {"line": 0, "character": 0}, "end": {"line": 99_999, "character": 0}});
    let ask = json!({"textDocument": {"uri": URI}, "range": range});
    numbers(&client.ask("textDocument/semanticTokens/range", ask)["result"]["data"])
}

fn whole(client: &mut Client) -> Value {
    let ask = json!({"textDocument": {"uri": URI}});
    client.ask("textDocument/semanticTokens/full", ask)["result"].clone()
}

/// What is new since the result `id`.
fn news(client: &mut Client, id: &Value) -> Value {
    let ask = json!({"textDocument": {"uri": URI}, "previousResultId": id});
    client.ask("textDocument/semanticTokens/full/delta", ask)["result"].clone()
}

fn numbers(data: &Value) -> Vec<u64> {
    let numbers = data.as_array().into_iter().flatten();
    numbers.map(|number| number.as_u64().unwrap()).collect()
}

/// Does what an answer says to what the client has; how many numbers it was told.
fn apply(has: &mut Vec<u64>, edits: &[Value]) -> usize {
    let mut told = 0;
    for edit in edits {
        let start = usize::try_from(edit["start"].as_u64().unwrap()).unwrap();
        let gone = usize::try_from(edit["deleteCount"].as_u64().unwrap()).unwrap();
        let come = numbers(&edit["data"]);
        told += come.len();
        has.splice(start..start + gone, come);
    }
    told
}

#[test]
fn what_is_new_makes_of_the_old_what_is_there() {
    let mut client = client();
    assert_eq!(client.can["semanticTokensProvider"]["full"], json!({"delta": true}));
    let first = whole(&mut client);
    let mut has = numbers(&first["data"]);
    let mut id = first["resultId"].clone();
    let mut text = TEXT.to_owned();
    let mut dice = Dice(5);
    for round in 0..ROUNDS {
        let many = 1 + dice.below(BURST);
        let changes: Vec<Value> = (0..many).map(|_| edit(&mut text, "utf-16", &mut dice)).collect();
        client.change(URI, 2 + i32::try_from(round).unwrap(), Value::from(changes));
        let told = news(&mut client, &id);
        let edits = told["edits"].as_array().expect("the result that is named is known");
        assert!(edits.len() <= 1, "{told}");
        apply(&mut has, edits);
        assert_eq!(has, all(&mut client), "round {round}: {text:?}");
        assert_ne!(told["resultId"], id);
        id = told["resultId"].clone();
    }
}

#[test]
fn a_letter_in_a_long_text_is_told_in_few_numbers() {
    let mut client = client();
    let text = "drink: Quarry Lane\n  60 ml gin\n  30 ml lime juice\n".repeat(500);
    client.change(URI, 2, json!([{"text": text}]));
    let first = whole(&mut client);
    let at = json!({"line": 751, "character": 11});
    client.change(URI, 3, json!([{"range": {"start": at, "end": at}, "text": "x"}]));
    let told = news(&mut client, &first["resultId"]);
    let mut has = numbers(&first["data"]);
    assert!(apply(&mut has, told["edits"].as_array().unwrap()) <= 10, "{told}");
    assert_eq!(has, all(&mut client));
    let again = news(&mut client, &told["resultId"]);
    assert_eq!(again["edits"], json!([]));
}

/// Only the last result of an open text is kept.
#[test]
fn who_names_a_result_that_is_gone_is_told_all() {
    let mut client = client();
    let first = whole(&mut client)["resultId"].clone();
    let second = whole(&mut client)["resultId"].clone();
    for id in [json!("none such"), first] {
        let told = news(&mut client, &id);
        assert_eq!(numbers(&told["data"]), all(&mut client), "{id}");
    }
    assert_ne!(second, Value::Null);
    let last = whole(&mut client)["resultId"].clone();
    client.tell("textDocument/didClose", json!({"textDocument": {"uri": URI}}));
    assert_eq!(news(&mut client, &last), Value::Null);
    client.open(URI, 1, TEXT);
    assert!(news(&mut client, &last)["data"].is_array());
}
