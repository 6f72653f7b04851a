//! What the data says, held against law, handbook values and common sense.

use washline_measure::Unit;
use washline_reference::{
    Allergen, Ingredient, Market, Sort, Trait, Trust, allergen_from_word, amount_word, bar_measure,
    constants, energy, families, family, glass, glasses, ice, ingredients, lookup, sources,
    technique, trust_shares,
};
use washline_text::fold;

fn known(name: &str) -> &'static Ingredient {
    lookup(&fold(name)).unwrap_or_else(|| panic!("no {name}"))
}

fn carries(name: &str, allergen: Allergen) -> bool {
    known(name).carries.iter().any(|carried| carried.allergen == allergen && carried.certain)
}

#[test]
fn ids_are_places() {
    for (place, ingredient) in ingredients().iter().enumerate() {
        assert_eq!(usize::from(ingredient.id), place);
    }
}

#[test]
fn every_spelling_is_found() {
    for ingredient in ingredients() {
        for spelling in std::iter::once(&ingredient.name).chain(ingredient.aliases) {
            assert_eq!(
                lookup(&fold(spelling)).map(|i| i.name),
                Some(ingredient.name),
                "{spelling}"
            );
        }
    }
}

/// A litre holds a litre: ethanol, sugar, acid, fat, protein, salt and solids of
/// 100 ml take less than 100 ml. Apparent volumes: ethanol 1 ml/ml, sugar 0.62 ml/g
/// (sucrose, ICUMSA SPS-4), fat 1.1, the rest 0.7 ml/g or less (common practice, no source).
#[test]
fn liquids_fit_their_volume() {
    let value = |datum: Option<washline_reference::Datum>| datum.map_or(0.0, |datum| datum.value);
    for i in ingredients().iter().filter(|i| i.liquid && i.density.is_none()) {
        let others = value(i.acid) + value(i.protein) + value(i.salt) + value(i.solids);
        let taken = value(i.abv) + 0.62 * value(i.sugar) + 1.1 * value(i.fat) + 0.7 * others;
        assert!(taken <= 101.0, "{} takes {taken} ml of 100", i.name);
    }
}

/// Solids of 100 g weigh 100 g at most.
#[test]
fn solids_fit_their_mass() {
    let value = |datum: Option<washline_reference::Datum>| datum.map_or(0.0, |datum| datum.value);
    for i in ingredients().iter().filter(|i| !i.liquid) {
        let parts = [i.sugar, i.acid, i.fat, i.protein, i.salt, i.solids, i.water];
        let all: f64 = parts.into_iter().map(value).sum();
        assert!(all <= 101.0, "{} weighs {all} of 100", i.name);
    }
}

/// A category's typical bottle meets the category's own minimum.
#[test]
fn legal_minima_are_met() {
    for i in ingredients() {
        for minimum in i.minima {
            if let (Some(least), Some(abv)) = (minimum.abv, i.abv) {
                assert!(abv.value >= least, "{}: {} under {least}", i.name, abv.value);
            }
        }
    }
}

/// Regulation (EU) 1169/2011, Annex II: cereals and nuts that alcohol is distilled
/// from are exempt.
#[test]
fn a_distillate_carries_no_gluten_and_no_nuts_in_the_eu() {
    for i in ingredients().iter().filter(|i| i.is(Trait::Distillate)) {
        for carried in i.carries {
            let source = matches!(carried.allergen, Allergen::Gluten | Allergen::Nuts);
            assert!(!source || carried.exempt.contains(&Market::Eu), "{}", i.name);
        }
    }
}

/// Regulation (EU) 1169/2011, Annex II, points 1 to 14.
#[test]
fn the_eu_asks_for_all_fourteen() {
    assert_eq!(Allergen::ALL.len(), 14);
    for allergen in Allergen::ALL {
        assert!(Market::Eu.declares(allergen), "{allergen}");
        assert!(Market::Uk.declares(allergen), "{allergen}");
        assert_eq!(allergen_from_word(allergen.id()), Some((allergen, "")));
    }
}

/// FD&C Act, section 201(qq): nine major allergens, no molluscs, wheat for cereals.
#[test]
fn the_united_states_ask_for_nine_and_sulfites() {
    let declared = Market::Us.declared().len();
    assert_eq!(declared, 10);
    assert!(!Market::Us.declares(Allergen::Mollusc));
    assert!(!Market::Us.declares(Allergen::Celery));
    assert!(Market::Us.declares_kind(Allergen::Gluten, "wheat"));
    assert!(!Market::Us.declares_kind(Allergen::Gluten, "barley"));
    assert!(!Market::Us.declares_kind(Allergen::Nuts, "coconut"));
    assert_eq!(Market::Us.term(Allergen::Nuts), "tree nuts");
    assert_eq!(Market::Us.term(Allergen::Crustacean), "Crustacean shellfish");
}

/// Every market's own word for an allergen is read back as that allergen.
#[test]
fn market_terms_are_read_back() {
    for market in Market::ALL {
        for declared in market.declared() {
            let read = allergen_from_word(&fold(declared.term));
            assert_eq!(
                read.map(|(allergen, _)| allergen),
                Some(declared.allergen),
                "{}",
                declared.term
            );
            for kind in declared.kinds {
                let read = allergen_from_word(&fold(kind));
                assert_eq!(read, Some((declared.allergen, *kind)), "{kind}");
            }
        }
    }
}

/// Annex II, point 12: more than 10 mg/l. Standard 1.2.3: 10 mg/kg or more.
#[test]
fn sulphites_count_above_ten_or_from_ten() {
    assert!(!Market::Eu.sulphite_threshold().is_reached(10.0));
    assert!(Market::Eu.sulphite_threshold().is_reached(10.01));
    assert!(Market::AuNz.sulphite_threshold().is_reached(10.0));
    assert!(!Market::AuNz.sulphite_threshold().is_reached(9.99));
}

#[test]
fn standard_drinks_and_alcohol_free_are_the_markets_own() {
    let grams = Market::ALL.map(|market| market.standard_drink_g().value);
    assert_eq!(grams, [10.0, 7.8924, 14.0, 13.45, 10.0]);
    assert_eq!(Market::Uk.alcohol_free_limit().abv, 0.05);
    assert_eq!(Market::Eu.alcohol_free_limit().abv, 0.5);
}

/// Regulation (EU) 1169/2011, Annex XIV; 100 ml of 40 % vol hold 31.57 g of ethanol
/// (OIML R 22: 0.78924 g/ml). USDA SR28, NDB 14037 (80 proof): 231 kcal/100 g at
/// 0.948 g/ml, 219 kcal/100 ml, by its own factor of 6.93 kcal/g.
#[test]
fn energy_factors_give_a_spirits_energy() {
    let ethanol = energy("ethanol").expect("a factor");
    let grams = 40.0 * 0.789_24;
    assert!((ethanol.kcal * grams - 221.0).abs() < 0.1);
    assert!((ethanol.kcal * grams - 219.0).abs() < 3.0);
    assert_eq!(ethanol.kj, 29.0);
    assert_eq!(energy("sugar").map(|e| (e.kcal, e.kj)), Some((4.0, 17.0)));
    assert_eq!(energy("fat").map(|e| (e.kcal, e.kj)), Some((9.0, 37.0)));
    assert_eq!(energy("acid").map(|e| (e.kcal, e.kj)), Some((3.0, 13.0)));
}

#[test]
fn wine_beer_and_cream_carry_what_they_carry() {
    assert!(carries("beer", Allergen::Gluten));
    assert!(carries("stout", Allergen::Gluten));
    assert!(carries("dry vermouth", Allergen::Sulphites));
    assert!(carries("sparkling wine", Allergen::Sulphites));
    assert!(carries("irish cream", Allergen::Milk));
    assert!(carries("advocaat", Allergen::Egg));
    assert!(carries("hazelnut liqueur", Allergen::Nuts));
    assert!(!known("amaretto").carries.is_empty());
    assert!(!known("amaretto").vouches);
    assert!(known("gin").vouches && known("gin").carries.is_empty());
}

/// Every liquid wine states its sulphites; nothing else that carries them for
/// certain goes without a number.
#[test]
fn certain_sulphites_have_a_number() {
    for i in ingredients() {
        let certain = i.carries.iter().any(|c| c.allergen == Allergen::Sulphites && c.certain);
        assert!(!certain || !i.liquid || i.sulphites.is_some(), "{}", i.name);
    }
}

#[test]
fn what_can_hurt_is_marked_and_says_why() {
    for (name, property) in [
        ("dry ice", Trait::Cryogen),
        ("liquid nitrogen", Trait::Cryogen),
        ("activated charcoal", Trait::Charcoal),
        ("tonka bean", Trait::Restricted),
        ("cinchona bark", Trait::Cinchona),
        ("foxglove", Trait::ToxicPlant),
        ("oleander", Trait::ToxicPlant),
    ] {
        assert!(known(name).is(property), "{name}");
        assert!(!known(name).cautions.is_empty(), "{name}");
    }
    for i in ingredients().iter().filter(|i| i.is(Trait::ToxicPlant) || i.is(Trait::Restricted)) {
        assert!(!i.cautions.is_empty(), "{}", i.name);
    }
}

#[test]
fn carbonated_things_say_how_much() {
    for i in ingredients().iter().filter(|i| i.is(Trait::Carbonated)) {
        assert!(i.carbon_dioxide.is_some(), "{}", i.name);
    }
}

#[test]
fn alcohol_stands_where_the_sort_promises_it() {
    for i in ingredients() {
        let strong = matches!(
            i.sort,
            Sort::Spirit
                | Sort::Liqueur
                | Sort::Bitters
                | Sort::FortifiedWine
                | Sort::Wine
                | Sort::Beer
        );
        assert!(!strong || i.abv.is_some(), "{} has no strength", i.name);
    }
}

#[test]
fn most_values_say_that_they_are_practice_and_the_shares_add_up() {
    let shares = trust_shares();
    assert!((shares.iter().map(|(_, share)| share).sum::<f64>() - 1.0).abs() < 1e-12);
    assert!(shares.iter().all(|(_, share)| *share > 0.0));
    let unsourced = |text: &str| text.contains("no source");
    for source in sources() {
        assert_eq!(unsourced(source.text), source.trust == Trust::CommonPractice, "{}", source.id);
        let memory = source.text.contains("from memory");
        assert!(!memory || source.trust == Trust::Memory, "{}", source.id);
    }
}

#[test]
fn bar_measures_are_the_houses_defaults() {
    let ml = |unit| bar_measure(unit).map(|datum| (datum.value, datum.low, datum.high));
    assert_eq!(ml(Unit::Dash), Some((0.8, 0.4, 1.1)));
    assert_eq!(ml(Unit::Bsp), Some((4.0, 2.5, 5.5)));
    assert_eq!(ml(Unit::Ml), None);
    assert_eq!(amount_word("rinse").map(|datum| datum.value), Some(1.0));
    assert_eq!(amount_word("top"), None);
    for unit in Unit::ALL.iter().filter(|unit| unit.kind() == washline_measure::UnitKind::Bar) {
        assert!(bar_measure(*unit).is_some(), "{unit:?}");
    }
    assert_eq!(constants::LEFT_IN_TIN_ML.value, 5.0);
}

#[test]
fn glasses_are_found_by_any_of_their_names() {
    assert!(glasses().len() >= 25);
    for one in glasses() {
        for spelling in std::iter::once(&one.name).chain(one.aliases) {
            assert_eq!(glass(&fold(spelling)).map(|g| g.name), Some(one.name), "{spelling}");
        }
        assert_eq!(one.wash_line.value, if one.stemmed { 0.85 } else { 0.9 }, "{}", one.name);
    }
    assert_eq!(glass("coupes").map(|g| g.name), Some("coupe"));
    assert_eq!(glass("bathtub"), None);
}

/// A 5 cm cube is 125 ml, a 6 cm sphere 113: what ice displaces afloat is 0.917 of
/// that (IAPWS-06: 916.7 kg/m3 at 0 °C).
#[test]
fn single_pieces_displace_their_mass_of_water() {
    let cube = ice("large cube").and_then(|i| i.piece_ml).expect("a size");
    assert!((cube.value - 125.0 * 0.9167).abs() < 1.0);
    let sphere = ice("spheres").and_then(|i| i.piece_ml).expect("a size");
    assert!((sphere.value - 36.0 * std::f64::consts::PI * 0.9167).abs() < 1.0);
}

#[test]
fn techniques_that_water_a_drink_say_by_how_much() {
    let share =
        |name: &str| technique(name).and_then(|t| t.share).map(|s| (s.value, s.low, s.high));
    assert_eq!(share("throw"), Some((0.3, 0.2, 0.4)));
    assert_eq!(share("roll"), Some((0.12, 0.08, 0.2)));
    assert_eq!(share("build"), Some((0.24, 0.15, 0.28)));
    assert_eq!(share("blend"), Some((1.0, 0.8, 1.2)));
    assert_eq!(share("dry shake"), None);
    assert!(technique("shake").is_some_and(|t| t.needs_ice && t.chills));
}

#[test]
fn families_are_those_of_the_notation() {
    assert_eq!(families().len(), 29);
    assert_eq!(family("old fashioned").map(|f| f.name), Some("old-fashioned"));
    assert!(family("sour").is_some_and(|f| f.needs_sugar_and_acid && f.always_diluted));
    assert!(family("neat").is_some_and(|f| !f.always_diluted));
    assert_eq!(family("none"), None);
}
