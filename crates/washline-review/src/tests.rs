//! The comparison as a whole, over texts.

use std::sync::Arc;

use washline_book::{Figure, Settings, Workspace};

use crate::{Move, Review, Room, State, Turn, compare, turns};

/// Two states of one file compared.
fn review(before: &str, after: &str) -> Review {
    let file = |text: &str| vec![(Arc::from("a.pour"), Arc::from(text))];
    let old = Workspace::new(file(before), Settings::default());
    let new = old.revised(file(after), Settings::default());
    let names = ["a.pour".to_owned()];
    let findings = [washline_rules::check(&old), washline_rules::check(&new)];
    let [found_before, found_after] = &findings;
    let room = |workspace, findings| Room {
        workspace,
        names: &names,
        asked: &[true],
        findings,
        standards: &[],
    };
    let before = State { rooms: vec![room(&old, found_before)] };
    let after = State { rooms: vec![room(&new, found_after)] };
    compare(&before, &after)
}

fn moved(review: &Review, figure: Figure) -> Move {
    let mut moves = review.changes.iter().flat_map(|change| &change.moves);
    moves.find(|one| one.figure == figure).cloned().expect("the figure moved")
}

fn half(interval: washline_measure::Interval) -> f64 {
    (interval.high - interval.low) / 2.0
}

const NEAT: &str = "drink: A\n  family: neat\n  serve: neat\n  50 ml gin\n";

/// Two pours that have nothing in common are as far apart as both of their hands.
#[test]
fn what_differs_counts_in_full() {
    let review = review(NEAT, &NEAT.replace("50 ml", "60 ml"));
    let volume = moved(&review, Figure::Final);
    let (before, after) = (volume.before.unwrap(), volume.after.unwrap());
    let expected = half(before).hypot(half(after));
    let doubt = volume.doubt.unwrap();
    // The gin's own strength is common, and has next to nothing to do with its volume.
    assert!((doubt - expected).abs() < 1e-3 * expected, "{doubt} {expected}");
    assert!(!volume.within);
}

/// A line that stayed is poured by the same hand on both sides.
#[test]
fn what_is_common_cancels() {
    let alone = moved(&review(NEAT, &NEAT.replace("50 ml", "60 ml")), Figure::Final);
    let with = |gin: &str| format!("{}  100 ml dry vermouth\n", NEAT.replace("50 ml", gin));
    let both = moved(&review(&with("50 ml"), &with("60 ml")), Figure::Final);
    let (one, other) = (alone.doubt.unwrap(), both.doubt.unwrap());
    assert!((one - other).abs() < 0.02 * one, "{one} {other}");
    assert!(half(both.after.unwrap()) > 1.5 * half(alone.after.unwrap()));
}

const SOUR: &str = "drink: A\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  20 ml sugar syrup, 1:1\n\n  - shake with ice for 12 s, double strain\n";

/// Nobody knows the acid of a lemon well, and it is the same lemon.
#[test]
fn the_same_lemon_is_on_both_sides() {
    let ratio = moved(&review(SOUR, &SOUR.replace("20 ml sugar", "15 ml sugar")), Figure::Ratio);
    assert!(ratio.doubt.unwrap() < half(ratio.after.unwrap()) / 2.0, "{ratio:?}");
    assert!(!ratio.within);
}

#[test]
fn both_ways_know_it_equally_well() {
    let other = SOUR.replace("20 ml sugar", "15 ml sugar");
    for figure in [Figure::Abv, Figure::Sugar, Figure::Acid, Figure::Final] {
        let (there, back) =
            (moved(&review(SOUR, &other), figure), moved(&review(&other, SOUR), figure));
        let (one, two) = (there.doubt.unwrap(), back.doubt.unwrap());
        assert!((one - two).abs() < 1e-9 + 1e-6 * one, "{figure:?}: {one} {two}");
    }
}

/// Another way of mixing is known no better for having been the same glass.
#[test]
fn another_technique_has_its_own_doubt() {
    let stirred =
        SOUR.replace("shake with ice for 12 s, double strain", "stir with ice for 30 s, strain");
    let water = moved(&review(SOUR, &stirred), Figure::Dilution);
    let expected = half(water.before.unwrap()).hypot(half(water.after.unwrap()));
    assert!(water.doubt.unwrap() > 0.9 * expected, "{water:?}");
}

#[test]
fn a_slip_of_the_hand_is_no_change() {
    let review = review(SOUR, &SOUR.replace("60 ml gin", "60.5 ml gin"));
    assert_eq!(turns(&review.changes[0].moves), []);
    assert!(review.changes[0].moves.iter().all(|one| one.within));
}

const DEEP: &str = "prep: Base Syrup\n  200 g sugar\n  100 g water\n  - stir until even\n\nprep: Mint Syrup\n  300 g Base Syrup\n  20 g mint\n  - infuse, strain\n\nprep: Garden Mix\n  200 g Mint Syrup\n  100 g water\n  - stir until even\n\ndrink: A\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  25 ml Garden Mix\n\n  - shake with ice for 12 s, double strain\n";

#[test]
fn a_change_is_followed_through_every_prep() {
    let review = review(DEEP, &DEEP.replacen("100 g water", "200 g water", 1));
    assert_eq!(review.changes.len(), 1);
    let names: Vec<&str> = review.carried.iter().map(|one| &*one.entry.name).collect();
    assert_eq!(names, ["Mint Syrup", "Garden Mix", "A"]);
    let drink = review.carried.last().unwrap();
    let through: Vec<&str> = drink.through.iter().map(|name| &**name).collect();
    assert_eq!(through, ["Garden Mix", "Mint Syrup", "Base Syrup"]);
    assert!(turns(&drink.moves).contains(&Turn::Tarter));
}

#[test]
fn findings_are_new_gone_and_still_there() {
    let before = "drink: A\n  60 ml gin\n  1 oz (20 ml) lime juice\n  - stir with ice for 20 s\n\ndrink: B\n  60 ml gin\n  1 oz (20 ml) lime juice\n  - stir with ice for 20 s\n";
    let after = before
        .replacen("1 oz (20 ml)", "1 oz (30 ml)", 1)
        .replace("drink: B\n  60 ml", "drink: B\n  2 oz (30 ml)");
    let review = review(before, &after);
    let of = |list: &[crate::Told]| -> Vec<String> {
        let disagree = list.iter().filter(|told| told.rule == "measures-disagree");
        disagree.map(|told| told.entry.as_ref().unwrap().name.to_string()).collect()
    };
    assert_eq!(of(&review.findings.new), ["B"]);
    assert_eq!(of(&review.findings.gone), ["A"]);
    assert_eq!(of(&review.findings.still), ["B"]);
}

#[test]
fn nothing_is_nothing() {
    let review = review(DEEP, DEEP);
    assert!(review.changes.is_empty() && review.carried.is_empty() && review.layout.is_empty());
    assert!(review.findings.new.is_empty() && review.findings.gone.is_empty());
}

#[test]
fn what_a_book_says_of_itself_is_told() {
    let before =
        "book: The Copper Heron\n  market: eu\n\nsection: Short\n\ndrink: A\n  50 ml gin\n";
    let after = before.replace("market: eu", "market:  uk").replace("Short", "Short and strong");
    let told: Vec<_> = review(before, &after)
        .standards
        .into_iter()
        .map(|change| (change.key, change.before.unwrap(), change.after.unwrap()))
        .collect();
    let change = |key: &str, a: &str, b: &str| (key.to_owned(), a.to_owned(), b.to_owned());
    assert_eq!(
        told,
        [change("book, market", "eu", "uk"), change("section", "Short", "Short and strong")]
    );
}
