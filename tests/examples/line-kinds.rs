//! Prints, as JSON, texts and what each of their lines is to the parser: every file of the corpus
//! and every example of the written grammar. Grammars that other tools read are held against it.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use washline_tests::{line_kinds, root, specs};

fn main() {
    let corpus = specs(&root().join("corpus"));
    let files = corpus.iter().map(|(path, text)| said(path, text));
    let all: Vec<Value> = files.chain(examples()).collect();
    println!("{}", Value::from(all));
}

fn said(path: &Path, text: &str) -> Value {
    let name = path.strip_prefix(root()).unwrap_or(path).to_string_lossy();
    json!({ "name": name, "text": text, "kinds": line_kinds(text) })
}

/// Each line of the written grammar's pages, up to what the page says of it.
fn examples() -> Vec<Value> {
    let mut pages: Vec<_> =
        fs::read_dir(root().join("grammar")).unwrap().map(|page| page.unwrap().path()).collect();
    pages.retain(|page| page.extension().is_some_and(|ending| ending == "md"));
    pages.sort();
    let text = |page| fs::read_to_string(page).unwrap();
    let line = |line: &str| line.split("  =>").next().unwrap_or(line).to_owned() + "\n";
    let lines = pages.iter().flat_map(|page| {
        text(page).lines().map(|text| said(page, &line(text))).collect::<Vec<_>>()
    });
    lines.collect()
}
