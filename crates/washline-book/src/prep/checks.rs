//! Preps against handbook values and what the trade knows of what leaves.

use std::sync::Arc;

use crate::{Figure, Settings, Workspace};

fn prep(text: &str) -> Workspace {
    Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default())
}

fn figure(text: &str, figure: Figure) -> washline_measure::Interval {
    prep(text).records()[0].figures.get(figure).unwrap()
}

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} is not {want} ± {tolerance}");
}

/// ICUMSA SPS-4: 1229.65 kg/m3 at 50 Brix, so a kilogram of each makes 1626.5 ml.
#[test]
fn a_syrup_makes_what_its_density_says() {
    let text = "prep: A\n  1000 g sugar\n  1000 g water\n  - stir until clear\n";
    let volume = figure(text, Figure::Final);
    near(volume.value, 1626.5, 1.0);
    near(figure(text, Figure::Brix).value, 50.0, 0.15);
    assert!(volume.high > volume.value && volume.low < volume.value, "{volume:?}");
}

/// Two lines weighed to 1 % each: the mass to 0.7 %.
#[test]
fn a_yield_carries_the_doubt_of_its_lines() {
    let scale = figure("prep: A\n  1000 g sugar\n  1000 g water\n", Figure::Final);
    let cups = figure("prep: A\n  5 cups sugar\n  4 cups water\n", Figure::Final);
    let share = |i: washline_measure::Interval| (i.high - i.low) / 2.0 / i.value;
    near(share(scale), 0.007, 0.001);
    assert!(share(cups) > 2.0 * share(scale));
}

/// An open boil loses 5 to 15 % of its water in ten minutes: common practice, no source.
#[test]
fn an_open_boil_loses_water() {
    let ten = "prep: A\n  500 g sugar\n  500 g water\n  - simmer for 10 min\n";
    near(figure(ten, Figure::Brix).value, 100.0 * 500.0 / 950.0, 0.15);
    let volume = figure(ten, Figure::Final);
    near(volume.high - volume.low, 50.0, 10.0);
    let half = "prep: A\n  1000 g water\n  - reduce by half\n";
    near(figure(half, Figure::Final).value, 500.9, 1.0);
}

/// Coffee grounds hold 2 to 2.5 g of liquor a gram: common practice, no source.
#[test]
fn grounds_hold_their_liquor() {
    let text = "prep: A\n  100 g ground coffee\n  1000 g vodka\n  - steep 12 h, strain\n";
    let plain = figure("prep: A\n  1000 g vodka\n", Figure::Final);
    let volume = figure(text, Figure::Final);
    let kept = volume.value / plain.value;
    assert!((0.74..=0.82).contains(&kept), "{kept}");
    let paper = text.replace("strain", "filter through paper");
    near(figure(&paper, Figure::Final).value, volume.value - 15.8, 2.0);
}

/// What is added when the strain is over loses nothing to it.
#[test]
fn sugar_added_after_the_strain_is_all_there() {
    let text = "prep: A\n  20 g black tea leaves\n  400 g water\n  300 g sugar\n  - steep tea in water, strain\n  - add sugar\n";
    let brix = figure(text, Figure::Brix);
    near(brix.value, 100.0 * 300.0 / (300.0 + 400.0 - 70.0), 1.5);
}

/// A lemon of 84 g gives 40 ml of juice: USDA SR26 09150, and common practice.
#[test]
fn a_juiced_fruit_gives_its_juice() {
    let text = "prep: A\n  10 lemons\n  - juice the lemons, fine strain\n";
    let volume = figure(text, Figure::Final);
    assert!(volume.low < 400.0 && 400.0 < volume.high, "{volume:?}");
    let peeled =
        "prep: A\n  10 lemons\n  700 ml vodka\n  - peel the lemons\n  - steep 3 days, strain\n";
    let vodka = figure(peeled, Figure::Final);
    assert!(vodka.low < 700.0 && vodka.value > 600.0, "{vodka:?}");
}

/// Fat-washing takes 2 to 4 % of the spirit, and butter leaves its water: common practice, no source.
#[test]
fn a_fat_wash_takes_a_little() {
    let text = "prep: A\n  700 ml bourbon\n  100 g butter\n  - fat-wash 12 h, freeze, strain\n";
    let volume = figure(text, Figure::Final).value;
    assert!((680.0..=705.0).contains(&volume), "{volume}");
}

/// A measured yield below the computed: water where it boiled, liquor where it was strained.
#[test]
fn a_measured_yield_says_what_was_lost() {
    let boiled =
        "prep: A\n  yields: 1500 ml\n  1000 g sugar\n  1000 g water\n  - simmer for 10 min\n";
    assert!(figure(boiled, Figure::Brix).value > 53.0);
    near(figure(boiled, Figure::Final).value, 1500.0, 0.5);
    let strained = "prep: A\n  yields: 1500 ml\n  1000 g sugar\n  1000 g water\n  20 g mint leaves\n  - strain\n";
    near(figure(strained, Figure::Brix).value, 49.5, 0.5);
}

/// What was measured has its own doubt, the rest keeps the lines'.
#[test]
fn a_measured_brix_leaves_the_acid_its_doubt() {
    let text = "prep: A\n  brix: 50\n  500 ml lime juice\n  500 g sugar\n";
    let acid = figure(text, Figure::Acid);
    assert!(acid.high - acid.low > 0.1 * acid.value, "{acid:?}");
    let brix = figure(text, Figure::Brix);
    near(brix.value, 50.0, 0.01);
    near(brix.high - brix.low, 1.0, 0.2);
}

/// What is weighed and not poured is known by the gram, doubts and all.
#[test]
fn a_solid_prep_is_known_by_the_gram() {
    let records = prep("prep: A\n  100 g sugar\n  5 g salt\n").records().to_vec();
    let makeup = records[0].makeup.clone().unwrap();
    assert!(!makeup.liquid);
    near(makeup.one.mass(), 1.0, 1e-9);
    for (_, shift) in &makeup.shifts {
        near(shift.mass(), 0.0, 1e-9);
    }
}

/// A name may state how sweet a syrup is.
#[test]
fn a_name_may_state_its_ratio() {
    let said =
        |name: &str| prep(&format!("prep: {name}\n  1 g sugar\n")).records()[0].ratio_in_name();
    assert_eq!(said("Sugar Syrup 2:1"), Some((2.0, false)));
    assert_eq!(said("Honey Syrup 3:1 by volume"), Some((3.0, true)));
    assert_eq!(said("Rich Demerara Syrup"), Some((2.0, false)));
    assert_eq!(said("Ginger Syrup"), None);
}

/// A bottle of ten portions pours ten serves.
#[test]
fn a_portion_says_how_many_serve() {
    let text = "drink: A\n  serve: bottled\n  portion: 100 ml\n  500 ml gin\n  500 ml water\n";
    let drink = prep(text);
    let serves = drink.records()[0].serves;
    assert!((9.5..=10.0).contains(&serves), "{serves}");
    near(
        drink.records()[0].figures.value(Figure::Ethanol).unwrap(),
        500.0 * 0.4 * 0.789 / serves,
        0.5,
    );
}

/// Garlic strained out of oil leaves the oil.
#[test]
fn an_infused_oil_keeps_its_oil() {
    let oil = "prep: A\n  500 ml olive oil\n  40 g garlic\n  - rest for 2 hours, fine strain\n";
    let workspace = prep(oil);
    let makes = workspace.records()[0].makes.unwrap();
    assert!(makes.ml.value > 450.0, "{makes:?}");
}
