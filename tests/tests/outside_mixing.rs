//! What mixing does to volume and strength, from the notation down to the figures.

use washline_book::Figure;
use washline_tests::figure;

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
}

/// 50 ml of ethanol and 50 ml of water make 96.46 ml at 20 °C (from the densities of OIML R 22:1975).
#[test]
fn volumes_do_not_add() {
    let text = "prep: Half\n  50 ml grain alcohol, 100 % abv\n  50 ml water\n";
    close(figure(text, Figure::Final).value, 96.46, 0.02);
    close(figure(text, Figure::Abv).value, 100.0 * 50.0 / 96.46, 0.02);
}

/// Syrups of sugar and water by weight: 61.48, 77.20 and 88.45 g in 100 ml at 20 °C
/// (ICUMSA SPS-4, the density of sucrose solutions).
#[test]
fn syrups_by_weight() {
    for (sugar, water, grams, brix) in
        [(100, 100, 61.48, 50.0), (150, 100, 77.20, 60.0), (200, 100, 88.45, 66.667)]
    {
        let text = format!(
            "prep: Syrup\n  {sugar} g granulated sugar\n  {water} g water\n\n  - stir to dissolve\n"
        );
        close(figure(&text, Figure::Sugar).value, grams, 0.06);
        close(figure(&text, Figure::Brix).value, brix, 0.02);
    }
}

/// A ratio on the line is by weight unless it says by volume; by volume a US cup of granulated
/// sugar is 200 g (USDA SR28, NDB 19335), so 2:1 is 62.9 Brix and 81.97 g in 100 ml.
#[test]
fn ratios_on_a_line() {
    for (ratio, grams) in [("1:1", 61.48), ("2:1", 88.45), ("2:1 by volume", 81.97)] {
        let text = format!(
            "drink: Sweet\n  serve: bottled\n  100 ml sugar syrup, {ratio}\n\n  - bottle\n"
        );
        close(figure(&text, Figure::Sugar).value, grams, 0.3);
    }
}

/// Ethanol at 20 °C weighs 0.78924 g/ml (OIML R 22), so 100 ml at 40 % vol hold 31.57 g; a
/// United Kingdom unit is 8 g or 10 ml, a United States standard drink 14 g.
#[test]
fn standard_drinks() {
    let text = "drink: Neat\n  serve: neat\n  100 ml vodka, 40 % abv\n\n  - pour\n";
    close(figure(text, Figure::Ethanol).value, 31.57, 0.02);
    close(figure(text, Figure::Abv).value, 40.0, 0.01);
}

/// Energy by Regulation (EU) No 1169/2011, Annex XIV: 7 kcal and 29 kJ a gram of ethanol.
#[test]
fn energy_factors() {
    let text = "drink: Neat\n  serve: neat\n  100 ml vodka, 40 % abv\n\n  - pour\n";
    let ethanol = figure(text, Figure::Ethanol).value;
    close(figure(text, Figure::Kcal).value, 7.0 * ethanol, 0.5);
    close(figure(text, Figure::Kj).value, 29.0 * ethanol, 2.0);
}

/// D. Arnold, Liquid Intelligence (W. W. Norton, 2014), p. 123: a shake of 30 % vol gains
/// 58.457 %, a stir 40.990 % of what was poured, and end at 18.9326 and 21.2781 % vol where
/// volumes add; contraction moves that by a few hundredths.
#[test]
fn dilution_by_the_published_formulas() {
    let spirit = "100 ml vodka, 30 % abv";
    let shaken = format!("drink: S\n  {spirit}\n\n  - shake with ice for 12 s, strain\n");
    close(figure(&shaken, Figure::Dilution).value, 58.457, 0.01);
    close(figure(&shaken, Figure::Abv).value, 18.9326, 0.1);
    let stirred = format!("drink: S\n  {spirit}\n\n  - stir with ice for 20 s, strain\n");
    close(figure(&stirred, Figure::Dilution).value, 40.990, 0.01);
    close(figure(&stirred, Figure::Abv).value, 21.2781, 0.1);
}

/// Water and ethanol at −18 °C: clear from about 33.5 % vol, a tenth ice at 30, a third at 22
/// (from the freezing points of the CRC Handbook, 102nd ed.).
#[test]
fn the_freezer() {
    let at = |abv: u32| {
        let text =
            format!("drink: Batch\n  serve: bottled\n  100 ml vodka, {abv} % abv\n\n  - bottle\n");
        figure(&text, Figure::IceShare).value
    };
    assert!(at(35) < 1.0, "{}", at(35));
    close(at(30), 10.0, 3.0);
    close(at(22), 35.0, 4.0);
}
