//! The TextMate grammar is made of its source and of the parser's word lists.
//!
//! `UPDATE_EXPECT=1 cargo test -p washline-tests --test grammar_textmate` writes it anew; `npm test`
//! in `editors/textmate/test` then holds it against the parser, line by line.

use std::collections::BTreeMap;
use std::fs;

use serde_json::{Value, json};
use washline_syntax::Key;
use washline_tests::generated::{is_current, words};
use washline_tests::root;

const FOLDER: &str = "editors/textmate";

/// What stands for what: fragments by their names, `words NAME` for the lists.
type Fragments = BTreeMap<String, String>;

#[test]
fn the_grammar_is_that_of_its_source() {
    let source = fs::read_to_string(root().join(FOLDER).join("pour.tmLanguage.toml")).unwrap();
    let source: toml::Table = toml::from_str(&source).unwrap();
    let mut grammar = serde_json::to_value(source).unwrap();
    let own = grammar.as_object_mut().unwrap().remove("fragments").unwrap();
    let mut fragments = lists();
    fragments.extend(serde_json::from_value::<Fragments>(own).unwrap());
    expand(&mut grammar, &fragments);
    let notice = "Made from pour.tmLanguage.toml and the parser's word lists; edit that, not this.";
    grammar["information_for_contributors"] = json!([notice]);
    let text = serde_json::to_string_pretty(&grammar).unwrap() + "\n";
    is_current(&format!("{FOLDER}/pour.tmLanguage.json"), &text);
}

#[test]
fn an_editor_indents_below_every_heading() {
    let path = root().join(FOLDER).join("language-configuration.json");
    let settings: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    let headings = &words().into_iter().find(|(name, _)| name == "heading").unwrap().1;
    let rule = settings["onEnterRules"][0]["beforeText"]["pattern"].as_str().unwrap();
    assert!(rule.contains(&format!("(?:{})", headings.join("|"))), "{rule}");
}

/// The parser's lists, both kinds of units as one, and the keys of what something costs.
fn lists() -> Fragments {
    let lists: BTreeMap<String, Vec<String>> = words().into_iter().collect();
    let mut units = [&lists["measured unit"][..], &lists["counted unit"][..]].concat();
    units.sort_by_key(|unit| (std::cmp::Reverse(unit.len()), unit.clone()));
    let units: Vec<String> = units.iter().map(|unit| unit.replace(' ', r"\.?\s{gap}")).collect();
    let mut fragments: Fragments =
        lists.iter().map(|(name, words)| (format!("words {name}"), pattern(words))).collect();
    fragments.insert("words unit".to_owned(), units.join("|"));
    let money = [Key::Cost, Key::Price].map(Key::word);
    fragments.insert("words money key".to_owned(), money.join("|"));
    fragments
}

/// Words as one pattern, longest first as they stand.
fn pattern(words: &[String]) -> String {
    let escaped = words.join("|").replace('.', r"\.");
    escaped.replace(' ', "{between}")
}

fn expand(value: &mut Value, fragments: &Fragments) {
    match value {
        Value::String(text) => *text = expanded(text, fragments),
        Value::Array(items) => items.iter_mut().for_each(|item| expand(item, fragments)),
        Value::Object(items) => items.values_mut().for_each(|item| expand(item, fragments)),
        _ => {}
    }
}

/// `text` with each `{name}` replaced, those in fragments too. `{2,3}` and `\x{AD}` are no names.
fn expanded(text: &str, fragments: &Fragments) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(open) = rest.find('{') {
        let (before, from) = rest.split_at(open);
        let length = from.find('}').expect("a brace is closed");
        let name = &from[1..length];
        out.push_str(before);
        if name.starts_with(|c: char| c.is_ascii_lowercase()) {
            let fragment = fragments.get(name).unwrap_or_else(|| panic!("no fragment {name}"));
            out.push_str(&expanded(fragment, fragments));
        } else {
            out.push_str(&from[..=length]);
        }
        rest = &from[length + 1..];
    }
    out + rest
}
