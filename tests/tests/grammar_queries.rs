//! The grammar's own examples and its queries.
//!
//! `UPDATE_EXPECT=1` writes the trees of `test/corpus` anew, in the form that `tree-sitter test` reads.

use std::fmt::Write as _;
use std::fs;

use expect_test::expect;
use tree_sitter::{Language, Parser, Query, QueryCursor, StreamingIterator, Tree};
use washline_tests::root;

fn language() -> Language {
    tree_sitter_pour::LANGUAGE.into()
}

fn parse(text: &str) -> Tree {
    let mut parser = Parser::new();
    parser.set_language(&language()).unwrap();
    parser.parse(text, None).unwrap()
}

/// The tree as brackets, a node that holds others on lines of its own.
fn shown(text: &str) -> String {
    let mut out = String::new();
    let mut depth = 0;
    for piece in parse(text).root_node().to_sexp().split_inclusive(' ') {
        let piece = piece.trim_end();
        if piece.starts_with('(') && depth > 0 && !out.ends_with(": ") {
            let _ = write!(out, "\n{}", "  ".repeat(depth));
        }
        if piece.ends_with(':') {
            let _ = write!(out, "\n{}{piece} ", "  ".repeat(depth));
            continue;
        }
        out.push_str(piece);
        depth += piece.matches('(').count();
        depth -= piece.matches(')').count();
    }
    out
}

#[test]
fn the_grammars_own_examples_have_their_trees() {
    const RULE: &str = "==================\n";
    let file = root().join("grammar/tree-sitter/test/corpus/lines.txt");
    let found = fs::read_to_string(&file).unwrap();
    let mut parts = found.split(RULE).skip(1);
    let mut wanted = String::new();
    while let (Some(name), Some(body)) = (parts.next(), parts.next()) {
        let (text, _) = body.split_once("---\n").expect("a line parts text and tree");
        let tree = shown(text.trim_end_matches('\n'));
        let _ = write!(wanted, "{RULE}{name}{RULE}{text}---\n\n{tree}\n\n");
    }
    assert!(wanted.matches("(entry").count() >= 5, "the file has examples");
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::write(&file, &wanted).unwrap();
        return;
    }
    assert_eq!(found, wanted);
}

/// What `query` captures in `text`, a line each.
fn captures(query: &str, text: &str) -> String {
    let query = Query::new(&language(), query).expect("the query fits the grammar");
    let tree = parse(text);
    let mut cursor = QueryCursor::new();
    let mut found = cursor.captures(&query, tree.root_node(), text.as_bytes());
    let mut out = String::new();
    while let Some((found, at)) = found.next() {
        let capture = found.captures[*at];
        let words = &text[capture.node.byte_range()];
        let name = query.capture_names()[capture.index as usize];
        let _ = writeln!(out, "{name}: {}", words.escape_debug());
    }
    out
}

const SAMPLE: &str = "drink: Quarry Lane\n  glass: coupe, chilled # cold\n  52.5 ml (1 3/4 oz) pear \
                      brandy, 43 %\n  soda water, to top\n  - gently shake for 12 s, double strain\n  \
                      lime\n";

#[test]
fn highlights_name_what_a_reader_looks_for() {
    expect![[r#"
        keyword: drink
        punctuation.delimiter: :
        type: Quarry Lane
        property: glass
        punctuation.delimiter: :
        string.special: coupe, chilled
        constant: chilled
        comment: # cold
        number: 52.5
        type.builtin: ml
        punctuation.bracket: (
        number: 1 3/4
        type.builtin: oz
        punctuation.bracket: )
        variable: pear brandy
        punctuation.delimiter: ,
        attribute: 43 %
        constant: 43 %
        variable: soda water
        punctuation.delimiter: ,
        attribute: to top
        keyword.modifier: to top
        punctuation.special: -
        attribute: gently
        function: shake
        number: 12 s
        punctuation.delimiter: ,
        function: double strain
        error: lime
    "#]]
    .assert_eq(&captures(tree_sitter_pour::HIGHLIGHTS, SAMPLE));
}

#[test]
fn entries_fold_and_indent() {
    assert_eq!(captures(tree_sitter_pour::FOLDS, SAMPLE).lines().count(), 1);
    assert_eq!(captures(tree_sitter_pour::INDENTS, SAMPLE).lines().count(), 2);
}
