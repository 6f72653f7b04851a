//! Walks the examples of the written grammar, and sees that each production has one.

use std::fs;
use std::path::Path;

use washline_syntax::{Document, LineKind};

use crate::read::{entry, line_of};

/// An example block: where it stands, what it promises, and its lines.
struct Block {
    place: String,
    promise: String,
    lines: Vec<String>,
}

#[test]
fn every_example_is_read_as_the_grammar_says() {
    let blocks = blocks();
    assert!(blocks.len() > 60, "{} blocks", blocks.len());
    let wrong: Vec<String> = blocks.iter().flat_map(check).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_section_with_productions_has_examples() {
    for (name, text) in pages() {
        for section in text.split("\n## ").skip(1) {
            let title = section.lines().next().unwrap_or_default();
            let fences: Vec<&str> =
                section.lines().filter_map(|line| line.strip_prefix("```")).collect();
            let written = fences.contains(&"ebnf");
            let shown = fences.iter().any(|fence| !fence.is_empty() && *fence != "ebnf");
            assert!(written || name == "README.md", "{name}, {title}: no production");
            assert!(shown || name == "README.md", "{name}, {title}: no example");
        }
    }
}

#[expect(clippy::disallowed_methods, reason = "the pages are the test's own input")]
fn pages() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../grammar");
    let files = fs::read_dir(folder).expect("the folder of the grammar");
    let mut pages: Vec<(String, String)> = files
        .map(|file| file.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "md"))
        .map(|path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            (name, fs::read_to_string(&path).expect("a page"))
        })
        .collect();
    pages.sort();
    pages
}

fn blocks() -> Vec<Block> {
    let mut blocks = Vec::new();
    for (name, text) in pages() {
        let mut open: Option<Block> = None;
        for (at, line) in text.lines().enumerate() {
            match (line.strip_prefix("```"), open.as_mut()) {
                (Some(_), Some(_)) => blocks.extend(open.take()),
                (Some(promise), None) => {
                    let place = format!("{name}:{}", at + 1);
                    open = Some(Block { place, promise: promise.to_owned(), lines: Vec::new() });
                }
                (None, Some(block)) => block.lines.push(characters(line)),
                (None, None) => {}
            }
        }
    }
    blocks.retain(|block| block.promise != "ebnf");
    blocks
}

/// `\u{200b}` as the character it names.
fn characters(line: &str) -> String {
    let mut out = String::new();
    let mut rest = line;
    while let Some((before, code)) = rest.split_once("\\u{") {
        let (code, after) = code.split_once('}').expect("a code that ends");
        let code = u32::from_str_radix(code, 16).expect("a code in hexadecimal");
        out.push_str(before);
        out.push(char::from_u32(code).expect("a character"));
        rest = after;
    }
    out + rest
}

/// What is wrong with a block.
fn check(block: &Block) -> Vec<String> {
    let Block { place, promise, lines } = block;
    let (promise, heading) = promise.split_once(" of ").unwrap_or((promise, "drink"));
    if let Some(rule) = promise.strip_prefix("file") {
        let found = rules(&lines.join("\n"));
        let expected: Vec<&str> = rule.strip_prefix(" finds ").into_iter().collect();
        return told(place, "the file", &found, &expected).into_iter().collect();
    }
    let check = |line: &String| match promise.split_once(' ').unwrap_or((promise, "")) {
        ("accepts", kind) => accepts(place, heading, line, kind),
        ("reads", _) => reads(place, heading, line),
        ("finds", rule) => told(place, line, &rules(&in_entry(heading, line)), &[rule]),
        ("refuses", rule) => refuses(place, heading, line, rule),
        _ => Some(format!("{place}: no such block: {promise}")),
    };
    lines.iter().filter_map(check).collect()
}

fn in_entry(heading: &str, line: &str) -> String {
    match line.trim_start().starts_with(['d', 's']) && line.contains(':') && is_heading(line) {
        true => line.to_owned(),
        false => format!("{heading}: X\n  {line}\n"),
    }
}

fn is_heading(line: &str) -> bool {
    let first = entry(line);
    matches!(first.lines.first().map(|line| &line.what), Some(LineKind::Heading(_)))
}

fn rules(text: &str) -> Vec<String> {
    let document = Document::parse(text);
    let problems = document.entries().iter().flat_map(|located| located.entry.problems.clone());
    problems.map(|problem| problem.rule.to_owned()).collect()
}

fn told(place: &str, line: &str, found: &[String], expected: &[&str]) -> Option<String> {
    (found != expected).then(|| format!("{place}: {line}: found {found:?}, not {expected:?}"))
}

fn accepts(place: &str, heading: &str, line: &str, kind: &str) -> Option<String> {
    let text = if kind == "heading" { line.to_owned() } else { format!("{heading}: X\n{line}\n") };
    let read = entry(&text);
    let what = match read.lines.last().map(|line| &line.what) {
        Some(LineKind::Heading(_)) => "heading",
        Some(LineKind::Field(_)) => "field",
        Some(LineKind::Ingredient(_)) => "ingredient",
        Some(LineKind::Step(_)) => "step",
        Some(LineKind::Comment) => "comment",
        Some(LineKind::Blank) => "blank",
        Some(LineKind::Unread) | None => "unread",
    };
    if what != kind {
        return Some(format!("{place}: {line}: a {what}, no {kind}"));
    }
    told(place, line, &rules(&text), &[])
}

fn reads(place: &str, heading: &str, line: &str) -> Option<String> {
    let Some((line, expected)) = line.split_once("=>") else {
        return Some(format!("{place}: {line}: no `=>`"));
    };
    let read = line_of(heading, line.trim_end());
    (read != expected.trim()).then(|| format!("{place}: {line}: read as {read}"))
}

fn refuses(place: &str, heading: &str, line: &str, rule: &str) -> Option<String> {
    let read = line_of(heading, line);
    let expected = format!("unread ! {rule}");
    (read != expected).then(|| format!("{place}: {line}: read as {read}"))
}
