//! Terms and shelves of preps.

use std::sync::Arc;

use crate::{Settings, Shelf, Workspace};

fn prep(text: &str) -> Workspace {
    Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default())
}

/// What a prep of those lines is given at the most in the fridge, days.
fn days(lines: &str) -> f64 {
    let workspace = prep(&format!("prep: A\n{lines}"));
    workspace.records()[0].life(Shelf::Fridge).unwrap().most / 24.0
}

#[test]
fn more_sugar_keeps_longer() {
    let thin = days("  100 g sugar\n  900 g water\n");
    let one_to_one = days("  500 g sugar\n  500 g water\n");
    let rich = days("  1000 g sugar\n  500 g water\n");
    assert!(thin < 15.0 && (40.0..44.0).contains(&one_to_one) && rich > 180.0);
}

#[test]
fn alcohol_and_sugar_add_up() {
    let sweet = days("  200 g sugar\n  800 g water\n");
    let both = days("  200 g sugar\n  600 g water\n  250 ml vodka\n");
    let strong = days("  700 ml vodka\n  100 g raspberries\n");
    assert!(sweet < both && both < strong, "{sweet} {both} {strong}");
}

#[test]
fn acid_keeps_what_sugar_alone_does_not() {
    let plain = days("  300 g sugar\n  700 g water\n");
    let sharp = days("  300 g sugar\n  700 g water\n  20 g citric acid\n");
    assert!(sharp > 1.5 * plain);
}

#[test]
fn milk_sets_its_own_term() {
    assert!(days("  300 g sugar\n  700 ml milk\n") <= 7.0);
    let workspace = prep("prep: A\n  100 g sugar\n  300 ml cream\n  100 ml water\n");
    let life = workspace.records()[0].life(Shelf::Fridge).unwrap();
    assert_eq!(life.weakest, Some(1));
}

#[test]
fn nobody_can_say() {
    for lines in [
        "  500 g sugar\n",
        "  500 ml olive oil\n",
        "  1 l water\n  100 g sugar\n  - ferment 3 days\n",
    ] {
        let workspace = prep(&format!("prep: A\n{lines}"));
        assert_eq!(workspace.records()[0].life(Shelf::Fridge), None, "{lines}");
    }
    let treated = "prep: A\n  note: pasteurised in the bottle\n  1 l apple juice\n";
    assert_eq!(prep(treated).records()[0].life(Shelf::Fridge), None);
}

#[test]
fn where_it_stands() {
    let shelf = |text: &str| prep(&format!("prep: A\n{text}  1 l water\n")).records()[0].shelf();
    assert_eq!(shelf("  keeps: 2 weeks chilled\n"), Some(Shelf::Fridge));
    assert_eq!(shelf("  keeps: 2 weeks dark\n"), Some(Shelf::Room));
    assert_eq!(shelf("  keeps: 2 weeks\n  store: in the freezer\n"), Some(Shelf::Freezer));
    assert_eq!(shelf("  keeps: 2 weeks\n"), None);
    assert_eq!(shelf("  - bottle, refrigerate\n"), Some(Shelf::Fridge));
}

/// Garlic holds back a pinch of acid, not three per cent of it.
#[test]
fn plants_hold_back_acid() {
    let ph = |acid: &str| {
        let lines = format!("  200 g garlic\n  800 g water\n  {acid} g citric acid\n");
        prep(&format!("prep: A\n{lines}")).records()[0].guard().unwrap().ph
    };
    assert!(ph("0.2") > 4.6 && ph("20") < 3.5, "{} {}", ph("0.2"), ph("20"));
}

/// Sugar that is added behind a soak is not in it.
#[test]
fn what_is_in_the_pot_by_then() {
    let text = "prep: A\n  200 g almonds\n  800 g water\n  600 g sugar\n  - soak the almonds in the water for 8 hours\n  - blend, strain, add the sugar\n";
    let workspace = prep(text);
    let record = &workspace.records()[0];
    assert!(record.guard_at(0).unwrap().brix < 5.0);
    assert!(record.guard_at(3).unwrap().brix > 30.0);
}
