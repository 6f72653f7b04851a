//! Sugar and acid of juices against food tables: each published value lies within what the
//! reference says, or as near as two tables lie to each other.

use washline_reference::{Datum, lookup};

/// Grams in 100 g as the table has them, the density to make them grams in 100 ml.
fn within(name: &str, of: &str, grams_per_100g: f64, density: f64) {
    let known = lookup(name).unwrap_or_else(|| panic!("{name} is not known"));
    let datum: Datum = match of {
        "sugar" => known.sugar.unwrap(),
        _ => known.acid.unwrap(),
    };
    let value = grams_per_100g * density;
    assert!(
        datum.low - 0.05 <= value && value <= datum.high + 0.05,
        "{name} {of}: {value:.2} is not in {}..{}",
        datum.low,
        datum.high
    );
}

/// USDA National Nutrient Database SR28 (2015/16): total sugars, g in 100 g; densities from
/// the household weights of SR26.
#[test]
fn sugars_of_usda_sr28() {
    for (name, ndb, sugar, density) in [
        ("lemon juice", 9152, 2.52, 1.031),
        ("lime juice", 9160, 1.69, 1.03),
        ("orange juice", 9206, 8.4, 1.048),
        ("pineapple juice", 9273, 9.98, 1.05),
    ] {
        assert!(ndb > 9000);
        within(name, "sugar", sugar, density);
    }
}

/// K. L. Penniston et al. 2008, Journal of Endourology 22(3), 567-570: citric acid, 48 g/l of
/// lemon juice, 45.9 of lime juice. Titration finds the other acids too.
#[test]
fn acids_of_a_published_assay() {
    within("lemon juice", "acid", 4.80, 1.0);
    within("lime juice", "acid", 4.59, 1.0);
}

/// Indian Food Composition Tables 2017 (National Institute of Nutrition, Hyderabad): free sugars
/// of I002 sugarcane juice and E033 lemon juice; citric and malic acid of E053 pineapple, the
/// malic as citric by equivalents.
#[test]
fn sugars_and_acids_of_ifct_2017() {
    within("sugar cane juice", "sugar", 12.85, 1.06);
    within("lemon juice", "sugar", 2.59, 1.03);
    within("pineapple juice", "acid", 0.605 + 0.092 * 64.04 / 67.05, 1.05);
}

/// Granulated sugar is all sucrose (USDA SR28, NDB 19335: carbohydrate 99.98, sugars 99.8 g in 100 g).
#[test]
fn sugar_is_sugar() {
    within("granulated sugar", "sugar", 99.8, 1.0);
}

/// An egg white is 33 g, a yolk 17 g, a whole egg 50 g (USDA SR26 weights, NDB 01124, 01125, 01123).
#[test]
fn eggs_weigh_what_the_table_says() {
    for (name, grams) in [("egg white", 33.0), ("egg yolk", 17.0), ("whole egg", 50.0)] {
        let size = lookup(name).and_then(|egg| egg.size(None)).unwrap();
        assert!(size.grams && (size.amount.value - grams).abs() < 0.1, "{name}");
    }
}
