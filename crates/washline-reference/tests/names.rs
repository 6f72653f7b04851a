//! Names as real specs write them find the entry that they mean.

use washline_reference::{ingredients, lookup, names, nearest, plural};
use washline_text::fold;

/// The lines of `names.txt`: what is written, and the entry that it must find.
fn written() -> impl Iterator<Item = (&'static str, &'static str)> {
    let lines = include_str!("names.txt").lines();
    lines.filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once(" = "))
}

#[test]
fn every_written_name_finds_its_entry() {
    let mut wrong = Vec::new();
    for (name, expected) in written() {
        let found = lookup(&fold(name)).map(|ingredient| ingredient.name);
        if found != Some(expected) {
            wrong.push(format!("{name}: {found:?}, not {expected}"));
        }
    }
    assert!(written().count() > 300);
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_bar_is_stocked() {
    assert!(ingredients().len() >= 260, "{} entries", ingredients().len());
}

#[test]
fn names_are_sorted_folded_and_given_once() {
    let all: Vec<_> = names().collect();
    assert!(all.is_sorted_by(|a, b| a.0 < b.0));
    for (name, id) in all {
        assert_eq!(fold(name), name);
        assert_eq!(lookup(name).map(|ingredient| ingredient.id), Some(id), "{name}");
    }
}

#[test]
fn plurals_and_singulars_find_the_same() {
    for (many, one) in [
        ("lemons", "lemon"),
        ("strawberries", "strawberry"),
        ("mint leaves", "mint leaf"),
        ("tonka beans", "tonka bean"),
        ("coffee bean", "coffee beans"),
        ("egg whites", "egg white"),
    ] {
        let found = |name: &str| lookup(name).map(|ingredient| ingredient.name);
        assert!(found(one).is_some(), "no {one}");
        assert_eq!(found(many), found(one), "{many}");
    }
}

/// A plural turned never lands on another thing: bitter ale is no bitters.
#[test]
fn turning_never_changes_the_thing() {
    for (name, id) in names() {
        for other in plural::turned(name) {
            let Some(found) = lookup(&other) else { continue };
            let words = [name, found.name, &other].join(" / ");
            let kin =
                found.id == id || name.contains(&fold(found.name)) || related(name, found.name);
            assert!(kin, "{words}");
        }
    }
}

/// Whether two names share a word's first four letters.
fn related(one: &str, other: &str) -> bool {
    let other = fold(other);
    let stem = |word: &str| word.chars().take(4).collect::<String>();
    one.split(' ').any(|word| other.split(' ').any(|w| stem(w) == stem(word)))
}

#[test]
fn a_misspelt_name_is_offered_its_neighbours() {
    let first = |word: &str| nearest(word, 3).first().map(|ingredient| ingredient.name);
    assert_eq!(first("lemmon juice"), Some("lemon juice"));
    assert_eq!(first("sweet vermuth"), Some("sweet vermouth"));
    assert_eq!(first("maraschno"), Some("maraschino liqueur"));
    assert!(nearest("gin", 5).len() <= 5);
    assert!(nearest("zzzzzzzz", 5).is_empty());
}

#[test]
fn what_nothing_knows_is_not_found() {
    for name in ["", " ", "no such thing", "bitter", "1", "é"] {
        assert!(lookup(name).is_none(), "{name:?}");
    }
}
