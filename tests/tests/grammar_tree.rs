//! The tree-sitter grammar says of every line what the parser says of it.

use std::fs;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use tree_sitter::{InputEdit, Node, Parser, Point, Tree};
use washline_tests::{line_kinds, root, specs};

fn parser() -> Parser {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_pour::LANGUAGE.into()).expect("the versions fit");
    parser
}

fn parse(text: &str) -> Tree {
    parser().parse(text, None).unwrap()
}

/// Where each line starts.
fn starts(text: &str) -> Vec<usize> {
    let bytes = text.as_bytes();
    let ends = |at: &usize| match bytes[*at] {
        b'\n' => true,
        b'\r' => bytes.get(at + 1) != Some(&b'\n'),
        _ => false,
    };
    let mut starts: Vec<usize> = vec![0];
    starts.extend((0..bytes.len()).filter(ends).map(|at| at + 1));
    starts.retain(|start| *start < bytes.len());
    starts
}

/// One word for each line of `text`, by its tree.
fn tree_kinds(text: &str, tree: &Tree) -> Vec<&'static str> {
    let starts = starts(text);
    let mut kinds = vec!["blank"; starts.len()];
    let mut note = |node: Node<'_>| {
        let line = starts.partition_point(|start| *start <= node.start_byte()) - 1;
        if kinds[line] == "blank" {
            kinds[line] = node.kind();
        }
    };
    let mut cursor = tree.walk();
    for node in tree.root_node().children(&mut cursor) {
        if node.kind() == "entry" {
            let mut inner = node.walk();
            node.children(&mut inner).for_each(&mut note);
        } else {
            note(node);
        }
    }
    kinds
}

/// A refused amount makes its line unreadable here as there.
fn wanted(text: &str) -> Vec<&'static str> {
    let plain = |kind| if kind == "refused" { "unreadable" } else { kind };
    line_kinds(text).into_iter().map(plain).collect()
}

#[test]
fn every_line_of_the_corpus_is_what_the_parser_says() {
    let files = specs(&root().join("corpus"));
    assert!(files.len() > 100, "the corpus has files");
    let mut differ = Vec::new();
    for (path, text) in files {
        let tree = parse(&text);
        let found = tree_kinds(&text, &tree);
        let wanted = wanted(&text);
        if tree.root_node().has_error() {
            differ.push(format!("{}: an error node", path.display()));
        }
        assert_eq!(found.len(), wanted.len(), "{}", path.display());
        for (line, (found, wanted)) in found.iter().zip(&wanted).enumerate() {
            if found != wanted {
                differ.push(format!("{}:{}: {found}, not {wanted}", path.display(), line + 1));
            }
        }
    }
    assert!(differ.is_empty(), "{}", differ.join("\n"));
}

/// The examples of the written grammar, of whatever kind: lines that the parser's own tests turn on.
#[test]
fn every_line_of_the_written_grammar_is_what_the_parser_says() {
    let mut differ = Vec::new();
    for page in fs::read_dir(root().join("grammar")).unwrap().map(Result::unwrap) {
        if page.path().extension().is_none_or(|ending| ending != "md") {
            continue;
        }
        for line in fs::read_to_string(page.path()).unwrap().lines() {
            let text = format!("drink: A\n{}\n", line.split("  =>").next().unwrap_or(line));
            let tree = parse(&text);
            if tree_kinds(&text, &tree) != wanted(&text) || tree.root_node().has_error() {
                differ.push(format!(
                    "{line}: {:?}, not {:?}",
                    tree_kinds(&text, &tree),
                    wanted(&text)
                ));
            }
        }
    }
    assert!(differ.is_empty(), "{}", differ.join("\n"));
}

/// Where `byte` stands.
fn point(text: &str, byte: usize) -> Point {
    let row = text[..byte].matches('\n').count();
    let column = byte - text[..byte].rfind('\n').map_or(0, |at| at + 1);
    Point { row, column }
}

/// The tree of `new` as made of that of `old`, whose `gone` became `put`.
fn reparsed(old: &str, at: usize, gone: usize, put: &str) -> (String, Tree) {
    let new = format!("{}{put}{}", &old[..at], &old[at + gone..]);
    let mut parser = parser();
    let mut tree = parser.parse(old, None).unwrap();
    tree.edit(&InputEdit {
        start_byte: at,
        old_end_byte: at + gone,
        new_end_byte: at + put.len(),
        start_position: point(old, at),
        old_end_position: point(old, at + gone),
        new_end_position: point(&new, at + put.len()),
    });
    let tree = parser.parse(&new, Some(&tree)).unwrap();
    (new, tree)
}

#[test]
fn an_edit_gives_the_tree_of_the_new_text() {
    let text = fs::read_to_string(root().join("corpus/house/shaken.pour")).unwrap();
    let places = text.char_indices().map(|(at, _)| at).filter(|at| at % 97 == 0);
    for at in places {
        let one = text[at..].chars().next().map_or(0, char::len_utf8);
        for (gone, put) in [(0, "#"), (one, ""), (0, "\n"), (0, " 30 ml"), (one, ":"), (0, "(")] {
            let (new, tree) = reparsed(&text, at, gone, put);
            assert_eq!(
                tree.root_node().to_sexp(),
                parse(&new).root_node().to_sexp(),
                "at {at}, {gone} gone, {put:?} put"
            );
        }
    }
}

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 512,
        rng_seed: RngSeed::Fixed(20),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn any_text_is_a_tree_without_an_error(text in any::<String>()) {
        prop_assert!(!parse(&text).root_node().has_error(), "{}", parse(&text).root_node().to_sexp());
    }

    #[test]
    fn any_line_of_the_notations_own_pieces_is_a_tree_without_an_error(
        pieces in prop::collection::vec(
            prop::sample::select(vec![
                "60", " ", "ml", "oz", "(", ")", ",", "1/2", "-", "+", "to", "top", "rinse", "#", ":",
                "glass", "drink", "shake", "strain", "and", "of", "each", "a", "half", ".", ";", "\n",
                "\r", "\t", "%", "2:1", "hot", "juice", "lime", "~", "C", "s", "\u{200b}", "½",
            ]),
            0..24,
        ),
    ) {
        let text = pieces.concat();
        let tree = parse(&text);
        prop_assert!(!tree.root_node().has_error(), "{text:?} {}", tree.root_node().to_sexp());
    }
}

/// `regenerate` writes down what the parser was made of, and what came out.
#[test]
fn the_generated_parser_is_current() {
    let folder = root().join("grammar/tree-sitter");
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let source = read("grammar.js") + &read("vocabulary.json");
    let wanted = format!("{:016x}\n{:016x}\n", fnv(&source), fnv(&read("src/parser.c")));
    if std::env::var_os("PARSER_REGENERATED").is_some() {
        fs::write(folder.join("src/made-of"), &wanted).unwrap();
    }
    assert_eq!(read("src/made-of"), wanted, "run grammar/tree-sitter/regenerate");
}

/// The 64-bit FNV-1a hash, whatever the line ends.
fn fnv(text: &str) -> u64 {
    let bytes = text.bytes().filter(|byte| *byte != b'\r');
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}
