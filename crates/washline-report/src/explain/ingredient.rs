//! An ingredient for people: every value with its range, source and trust.

use std::fmt::Write;

use washline_reference::{Carries, Datum, Ingredient, Market, Source, Trust};

use crate::grid::Grid;
use crate::number::{number, spread};

const DECIDE: &str = "Local codes and licensed practice decide.";

/// All that the reference knows of `ingredient`.
pub(super) fn write(ingredient: &Ingredient, out: &mut String) {
    heading(ingredient, out);
    values(ingredient, out);
    sizes(ingredient, out);
    keeping(ingredient, out);
    minima(ingredient, out);
    restrictions(ingredient, out);
    allergens(ingredient, out);
    cautions(ingredient, out);
}

fn heading(known: &Ingredient, out: &mut String) {
    let state = if known.liquid { "poured" } else { "weighed or counted" };
    let sort = known.sort.id().replace('-', " ");
    let _ = writeln!(out, "{}: {sort}, {state}", known.name);
    let mut grid = Grid::default();
    if !known.aliases.is_empty() {
        grid.row().left("also").left(&known.aliases.join(", "));
    }
    if !known.botanical.is_empty() {
        grid.row().left("botanical").left(known.botanical);
    }
    if !known.traits.is_empty() {
        let traits: Vec<String> = known.traits.iter().map(|t| t.id().replace('-', " ")).collect();
        grid.row().left("is").left(&traits.join(", "));
    }
    grid.write(out);
}

fn values(known: &Ingredient, out: &mut String) {
    let per = if known.liquid { "g/100 ml" } else { "g/100 g" };
    let caffeine = if known.liquid { "mg/100 ml" } else { "mg/100 g" };
    let (litre, kilo) = ("mg/l", "mg/kg");
    let sulphites = if known.liquid { litre } else { kilo };
    let quinine = if known.liquid { litre } else { "mg/g" };
    let all = [
        ("strength", known.abv, "% vol"),
        ("sugar, as sucrose", known.sugar, per),
        ("acid, as citric", known.acid, per),
        ("fat", known.fat, per),
        ("protein", known.protein, per),
        ("salt", known.salt, per),
        ("other solids", known.solids, per),
        ("water", known.water, per),
        ("density at 20 °C", known.density, "g/ml"),
        ("pH", known.ph, ""),
        ("sulphur dioxide", known.sulphites, sulphites),
        ("quinine", known.quinine, quinine),
        ("caffeine", known.caffeine, caffeine),
        ("carbon dioxide", known.carbon_dioxide, "g/l"),
        ("liquor held when strained", known.holds, "g/g"),
        ("juice of one", known.juice, "ml"),
    ];
    let mut grid = Grid::default();
    for (label, datum, unit) in all {
        if let Some(datum) = datum {
            value(&mut grid, label, &datum, unit);
        }
    }
    section("Values, with the range that 19 of 20 lie in", &grid, out);
}

fn value(grid: &mut Grid, label: &str, datum: &Datum, unit: &str) {
    let grid = grid.row().left(label).right(&number(datum.value)).left(unit);
    grid.left(&spread(datum.low, datum.high)).left(&source(datum.source));
}

/// How well it is known, and who says so.
fn source(source: &Source) -> String {
    match source.trust {
        Trust::Published => format!("published: {}", source.text),
        Trust::CommonPractice => "common practice, no source".to_owned(),
        Trust::Memory => "from memory, unchecked".to_owned(),
    }
}

fn sizes(known: &Ingredient, out: &mut String) {
    let mut grid = Grid::default();
    for size in known.sizes {
        let label = size.unit.map_or("one", washline_measure::Unit::name);
        value(&mut grid, label, &size.amount, if size.grams { "g" } else { "ml" });
    }
    section("Sizes", &grid, out);
}

fn keeping(known: &Ingredient, out: &mut String) {
    let Some(keeps) = known.keeps else { return };
    let place = if keeps.chilled { "chilled" } else { "at room temperature" };
    let mut grid = Grid::default();
    value(&mut grid, &format!("opened or made, {place}"), &keeps.hours, "h");
    section("Keeping", &grid, out);
}

fn minima(known: &Ingredient, out: &mut String) {
    let mut grid = Grid::default();
    for least in known.minima {
        let all = [
            ("strength", least.abv, "% vol"),
            ("sugar", least.sugar_g_per_l, "g/l as invert sugar"),
        ];
        for (label, value, unit) in all {
            let Some(value) = value else { continue };
            let label = format!("{}, {label}", least.market.id());
            grid.row().left(&label).right(&number(value)).left(unit).left(&source(least.source));
        }
    }
    section("Legal minima of its name", &grid, out);
}

/// What each market's law says of the plant, and how much of it is usual at the most.
fn restrictions(known: &Ingredient, out: &mut String) {
    let mut grid = Grid::default();
    for law in known.restrictions {
        let how = if law.forbidden { "forbidden" } else { "restricted" };
        grid.row().left(law.market.id()).left(how).left(law.says).left(&source(law.source));
    }
    section("Law, market by market; one that is not listed is unknown, not free", &grid, out);
    let mut grid = Grid::default();
    if let Some(dose) = &known.dose {
        value(&mut grid, "the most that is usual in one serve", dose, "g");
    }
    section("Dose", &grid, out);
    if known.cautions.is_empty() && (!known.restrictions.is_empty() || known.dose.is_some()) {
        let _ = writeln!(out, "  {DECIDE}");
    }
}

fn allergens(known: &Ingredient, out: &mut String) {
    let mut grid = Grid::default();
    for carries in known.carries {
        let detail = if carries.detail.is_empty() {
            String::new()
        } else {
            format!(" ({})", carries.detail)
        };
        let certain = if carries.certain { "always" } else { "in some makers' bottles" };
        grid.row().left(&format!("{}{detail}", carries.allergen)).left(certain);
        grid.left(&markets(carries));
    }
    let vouched = if known.vouches {
        "what is not listed is absent: it is a plain thing"
    } else {
        "what is not listed is unknown, not absent: read the label"
    };
    if known.carries.is_empty() {
        grid.row().left("none listed");
    }
    section("Allergens", &grid, out);
    let _ = writeln!(out, "  {vouched}");
}

/// Which markets ask for it, and which exempt it here.
fn markets(carries: &Carries) -> String {
    let names = |markets: &[Market]| markets.iter().map(|m| m.id()).collect::<Vec<_>>().join(", ");
    let asked: Vec<Market> = Market::ALL
        .into_iter()
        .filter(|market| !carries.exempt.contains(market))
        .filter(|market| market.declares_kind(carries.allergen, carries.detail))
        .collect();
    let asked = match asked.as_slice() {
        [] => "declared nowhere".to_owned(),
        markets if markets.len() == Market::ALL.len() => "declared in all markets".to_owned(),
        markets => format!("declared in {}", names(markets)),
    };
    match carries.exempt {
        [] => asked,
        exempt => format!("{asked}; exempt in {}", names(exempt)),
    }
}

fn cautions(known: &Ingredient, out: &mut String) {
    if known.cautions.is_empty() {
        return;
    }
    out.push_str("\nCautions\n");
    for caution in known.cautions {
        let _ = writeln!(out, "  {caution}");
    }
    if !known.cautions.contains(&DECIDE) {
        let _ = writeln!(out, "  {DECIDE}");
    }
}

fn section(heading: &str, grid: &Grid, out: &mut String) {
    let mut body = String::new();
    grid.write(&mut body);
    if !body.is_empty() {
        let _ = write!(out, "\n{heading}\n{body}");
    }
}
