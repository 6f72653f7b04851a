//! A review for tools, for a pull request and as a page.

use std::fmt::Write;

use serde_json::Value;

use crate::repository::Repository;

fn book(many: usize) -> String {
    let mut text =
        String::from("prep: Syrup\n  200 g sugar\n  100 g water\n  - stir until even\n\n");
    for n in 0..many {
        write!(
            text,
            "drink: Lantern {n}\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  20 ml Syrup\n\n  - shake with ice for 12 s, double strain\n\n"
        )
        .unwrap();
    }
    text
}

/// A prep that changed, so many drinks that it changes, and every second one touched too.
fn changed(many: usize) -> Repository {
    let repository = Repository::of(&[("a.pour", &book(many))]);
    let mut text = book(many).replace("100 g water", "200 g water");
    for n in (0..many).step_by(2) {
        text = text.replace(
            &format!("Lantern {n}\n  family: sour\n  60 ml"),
            &format!("Lantern {n}\n  family: sour\n  45 ml"),
        );
    }
    repository.write("a.pour", &text);
    repository
}

#[test]
fn json_has_every_key_always() {
    let repository = changed(4);
    let parse = |arguments: &[&str]| -> Value {
        serde_json::from_str(&repository.review(arguments).out).unwrap()
    };
    let full = parse(&["HEAD", "--output", "json"]);
    let keys =
        |value: &Value| -> Vec<String> { value.as_object().unwrap().keys().cloned().collect() };
    assert_eq!(
        keys(&full),
        [
            "format",
            "base",
            "head",
            "entries",
            "changes",
            "carried",
            "layout",
            "line_ends",
            "standards",
            "conflicts",
            "findings",
        ]
    );
    assert_eq!(full["entries"], 5);
    assert_eq!(full["changes"].as_array().unwrap().len(), 3);
    assert_eq!(full["carried"].as_array().unwrap().len(), 2);
    let carried = &full["carried"][0];
    assert_eq!(carried["because"][0]["entry"], "Syrup");
    assert_eq!(carried["turns"][0], "tarter");
    let ratio = &carried["figures"]["sugar_acid_ratio"];
    assert!(ratio["after"]["value"].as_f64().unwrap() < ratio["before"]["value"].as_f64().unwrap());
    // The lemons are the same on both sides: their doubt cancels in the difference.
    let width =
        |side: &str| ratio[side]["high"].as_f64().unwrap() - ratio[side]["low"].as_f64().unwrap();
    assert!(ratio["doubt"].as_f64().unwrap() < width("after") / 4.0, "{ratio}");
    assert_eq!(ratio["within"], false);
    repository.commit("second");
    let empty = parse(&["HEAD", "--output", "json"]);
    assert_eq!(keys(&empty), keys(&full));
    assert_eq!(empty["changes"], Value::Array(Vec::new()));
}

#[test]
fn several_outputs_from_one_run() {
    let repository = changed(2);
    let came = repository.review(&[
        "HEAD",
        "--output",
        "text",
        "--output",
        "json=r.json",
        "--output",
        "html=r.html",
    ]);
    came.says(&["2 entries changed"]);
    let read = |name: &str| std::fs::read_to_string(repository.top().join(name)).unwrap();
    assert!(read("r.json").starts_with("{\"format\":1"));
    assert!(read("r.html").starts_with("<!DOCTYPE html>"));
    let came = repository.review(&["HEAD", "--output", "text", "--output", "json"]);
    came.fails(&["only one --output can go to standard output"]);
}

#[test]
fn a_comment_is_short_first_and_folds_the_rest() {
    let came = changed(4).review(&["HEAD", "--output", "markdown"]);
    came.says(&[
        "**HEAD to the working tree: 3 entries changed, 2 more not touched and no longer the same**",
        "### Not touched, and no longer the same",
        "- **Syrup**: 2 drinks turn tarter",
        "<details> <summary>What was changed: 3 entries</summary>",
        "| sugar to acid |",
    ]);
    let open = came.out.matches("<details>").count();
    assert_eq!(open, came.out.matches("</details>").count());
}

/// A forge takes 65,536 characters of a comment.
#[test]
fn a_change_of_hundreds_still_fits() {
    for many in [60, 500, 3000] {
        let out = changed(many).review(&["HEAD", "--output", "markdown"]).out;
        assert!(out.chars().count() <= 65_536, "{many}: {}", out.chars().count());
        if many >= 500 {
            assert!(out.contains("Too much for a comment"), "{}", &out[..400]);
        }
        assert!(out.contains(&format!("{} entries changed", many / 2 + 1)), "{}", &out[..200]);
        assert_eq!(out.matches("<details>").count(), out.matches("</details>").count(), "{many}");
    }
}

#[test]
fn names_are_words_and_never_markup() {
    let name = "<b>@all</b> [x](http://y) `|` *z* \u{1b}[31m";
    let text = book(1).replace("Lantern 0", name);
    let repository = Repository::of(&[("a.pour", &text)]);
    repository.write("a.pour", &text.replace("60 ml", "45 ml"));
    let comment = repository.review(&["HEAD", "--output", "markdown"]).out;
    for raw in ["<b>", "@all", "[x](", "`|`", "*z*", "\u{1b}"] {
        assert!(!comment.contains(raw), "{raw} in {comment}");
    }
    let page = repository.review(&["HEAD", "--output", "html"]).out;
    assert!(page.contains("&lt;b&gt;@all"), "{page}");
    assert!(!page.contains("<b>") && !page.contains('\u{1b}'), "{page}");
    let text = repository.review(&["HEAD", "--color", "always"]).out;
    assert!(text.contains("\\u{1b}[31m"), "{text}");
}

#[test]
fn a_page_stands_by_itself() {
    let page = changed(4).review(&["HEAD", "--output", "html"]).out;
    for absent in ["<script", "http:", "https:", "src=", "@import", "url("] {
        assert!(!page.contains(absent), "{absent}");
    }
    for present in
        ["<html lang=\"en\">", "<title>HEAD to the working tree</title>", "<h1>", "scope=\"col\""]
    {
        assert!(page.contains(present), "{present}");
    }
    for tag in ["section", "article", "details", "table", "ul", "dl", "div"] {
        let open =
            page.matches(&format!("<{tag}>")).count() + page.matches(&format!("<{tag} ")).count();
        assert_eq!(open, page.matches(&format!("</{tag}>")).count(), "{tag}");
    }
}

#[test]
fn check_tells_what_touches_a_change_and_what_it_carries_into() {
    let far = "drink: Far\n  family: sour\n  60 ml gin\n  1 oz (20 ml) lemon juice\n  - shake with ice, strain\n";
    let near = "\ndrink: Near\n  family: sour\n  60 ml gin\n  1 oz (20 ml) lemon juice\n  20 ml Syrup\n  - shake with ice, strain\n";
    let syrup = "prep: Syrup\n  200 g sugar\n  100 g water\n  - stir until even\n";
    let repository = Repository::of(&[("a.pour", &format!("{far}{near}")), ("b.pour", syrup)]);
    let all = repository.run_in("", &["check", "--output", "short"]).out;
    assert_eq!(all.matches("measures-disagree").count(), 2, "{all}");
    repository.replace("b.pour", "100 g water", "200 g water");
    let came = repository.run_in("", &["check", "--output", "short", "--changed-since", "HEAD"]);
    assert_eq!(came.out.matches("measures-disagree").count(), 1, "{}", came.out);
    came.says(&["a.pour:10"]);
    repository.commit("thinner");
    let came = repository.run_in("", &["check", "--output", "short", "--changed-since", "HEAD"]);
    assert_eq!(
        (came.out.matches("measures-disagree").count(), came.status),
        (0, 0),
        "{}",
        came.out
    );
}
