//! The word lists of the grammars that other tools read are those of the parser.
//!
//! `UPDATE_EXPECT=1 cargo test -p washline-tests --test grammar_words` writes them anew; then
//! `grammar/tree-sitter/regenerate` makes the parser of them.

use washline_tests::generated::{is_current, words};

/// The lists as `grammar.js` reads them.
fn json() -> String {
    let lists: Vec<String> = words()
        .iter()
        .map(|(name, words)| format!("  \"{name}\": [\n    {}\n  ]", quoted(words).join(",\n    ")))
        .collect();
    format!("{{\n{}\n}}\n", lists.join(",\n"))
}

/// The lists as `scanner.c` reads them.
fn header() -> String {
    let mut out = String::from(
        "// The words of the notation, longest first. Generated from the parser's own lists: see\n\
         // tests/tests/grammar_words.rs.\n\n\
         #ifndef POUR_VOCABULARY_H_\n#define POUR_VOCABULARY_H_\n\n#include <stddef.h>\n",
    );
    for (name, words) in words() {
        let name = c_name(&name);
        out.push_str(&format!("\nstatic const char *const {name}[] = {{\n"));
        for word in quoted(&words) {
            out.push_str(&format!("    {word},\n"));
        }
        out.push_str("    NULL,\n};\n");
    }
    out.push_str("\n#endif\n");
    out
}

/// `counted unit` as `COUNTED_UNITS`.
fn c_name(name: &str) -> String {
    let plural = match name {
        "quality" => "qualities".to_owned(),
        "before a role" => "before roles".to_owned(),
        "behind a verb" => "behind verbs".to_owned(),
        name => format!("{name}s"),
    };
    plural.to_uppercase().replace(' ', "_")
}

fn quoted(words: &[String]) -> Vec<String> {
    words.iter().map(|word| format!("\"{word}\"")).collect()
}

#[test]
fn the_words_of_the_tree_sitter_grammar_are_the_parsers() {
    is_current("grammar/tree-sitter/vocabulary.json", &json());
    is_current("grammar/tree-sitter/src/vocabulary.h", &header());
}
