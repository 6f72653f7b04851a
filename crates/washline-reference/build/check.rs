//! What the data files must keep to.

use std::collections::HashMap;

use washline_measure::Unit;
use washline_text::fold;

use super::read::{Data, Placed};
use super::shape::{Band, Ingredient, Size, Value};
use crate::allergen::{Allergen, Market};
use crate::dilution::Dilution;
use crate::property::Trait;
use crate::sort::Sort;

/// The words that a source's `basis` may be.
pub const BASES: [&str; 3] = ["published", "practice", "memory"];

/// Every fault of `data`, each with the file and the entry it stands in.
pub fn faults(data: &Data) -> Vec<String> {
    let mut check = Check { sources: sources(data), faults: Vec::new() };
    check.sources(data);
    for Placed { at, entry } in &data.ingredients {
        check.ingredient(at, entry);
    }
    check.names(data.ingredients.iter().map(|p| (&p.at, &p.entry.name, &p.entry.also)));
    check.names(data.glasses.iter().map(|p| (&p.at, &p.entry.name, &p.entry.also)));
    check.names(data.ices.iter().map(|p| (&p.at, &p.entry.name, &p.entry.also)));
    check.names(data.techniques.iter().map(|p| (&p.at, &p.entry.name, &p.entry.also)));
    let none = Vec::new();
    check.names(data.families.iter().map(|p| (&p.at, &p.entry.name, &none)));
    check.names(data.constants.iter().map(|p| (&p.at, &p.entry.name, &none)));
    check.juices(data);
    check.bar(data);
    check.methods(data);
    check.law(data);
    check.faults
}

fn sources(data: &Data) -> Vec<String> {
    data.sources.iter().map(|placed| placed.entry.id.clone()).collect()
}

/// Every value that an ingredient states, with its key and the most it can be.
pub fn values(i: &Ingredient) -> impl Iterator<Item = (&'static str, &Value, f64)> {
    [
        ("abv", &i.abv, 100.0),
        ("sugar", &i.sugar, 150.0),
        ("acid", &i.acid, 150.0),
        ("fat", &i.fat, 100.0),
        ("protein", &i.protein, 100.0),
        ("salt", &i.salt, 100.0),
        ("solids", &i.solids, 100.0),
        ("water", &i.water, 100.0),
        ("density", &i.density, 3.0),
        ("ph", &i.ph, 14.0),
        ("sulphites", &i.sulphites, 10_000.0),
        ("quinine", &i.quinine, 10_000.0),
        ("caffeine", &i.caffeine, 20_000.0),
        ("carbon-dioxide", &i.carbon_dioxide, 20.0),
        ("holds", &i.holds, 10.0),
        ("juice", &i.juice, 5_000.0),
    ]
    .into_iter()
    .filter_map(|(key, value, most)| Some((key, value.as_ref()?, most)))
}

struct Check {
    sources: Vec<String>,
    faults: Vec<String>,
}

impl Check {
    fn fault(&mut self, at: &str, what: impl AsRef<str>) {
        self.faults.push(format!("{at}: {}", what.as_ref()));
    }

    fn source(&mut self, at: &str, id: &str) {
        if id.is_empty() {
            self.fault(at, "a value without a source");
        } else if !self.sources.iter().any(|known| known == id) {
            self.fault(at, format!("unknown source `{id}`"));
        }
    }

    fn value(&mut self, at: &str, key: &str, value: &Value, least: f64, most: f64) {
        let Value { value: v, low, high, source } = value;
        if !(low <= v && v <= high) {
            self.fault(at, format!("`{key}`: {v} is not within {low}..{high}"));
        }
        if !(least <= *low && *high <= most) {
            self.fault(at, format!("`{key}`: {low}..{high} is not within {least}..{most}"));
        }
        self.source(&format!("{at}: `{key}`"), source);
    }

    fn optional(&mut self, at: &str, key: &str, value: Option<&Value>, most: f64) {
        if let Some(value) = value {
            self.value(at, key, value, 0.0, most);
        }
    }

    fn word<T>(&mut self, at: &str, what: &str, word: &str, from_id: impl Fn(&str) -> Option<T>) {
        if from_id(word).is_none() {
            self.fault(at, format!("unknown {what} `{word}`"));
        }
    }

    fn unit(&mut self, at: &str, word: &str) {
        self.word(at, "unit", word, |word| Unit::from_words(&fold(word)));
    }

    fn sources(&mut self, data: &Data) {
        let mut seen = HashMap::new();
        for Placed { at, entry } in &data.sources {
            self.word(at, "basis", &entry.basis, |basis| BASES.contains(&basis).then_some(()));
            if entry.text.trim().is_empty() {
                self.fault(at, "a source without its text");
            }
            if let Some(other) = seen.insert(&entry.id, at) {
                self.fault(at, format!("the same source as {other}"));
            }
        }
    }

    fn names<'a>(
        &mut self,
        entries: impl Iterator<Item = (&'a String, &'a String, &'a Vec<String>)>,
    ) {
        let mut seen: HashMap<String, &str> = HashMap::new();
        for (at, name, also) in entries {
            for spelling in std::iter::once(name).chain(also) {
                let folded = fold(spelling);
                if folded.is_empty() {
                    self.fault(at, format!("`{spelling}` folds to nothing"));
                } else if let Some(other) = seen.insert(folded, at).filter(|other| other != at) {
                    self.fault(at, format!("`{spelling}` already names {other}"));
                }
            }
        }
    }

    fn ingredient(&mut self, at: &str, i: &Ingredient) {
        self.word(at, "sort", &i.sort, Sort::from_id);
        for (key, value, most) in values(i) {
            self.value(at, key, value, 0.0, most);
        }
        for carried in &i.allergens {
            self.word(at, "allergen", &carried.is, Allergen::from_id);
            for market in &carried.exempt {
                self.word(at, "market", market, Market::from_id);
            }
        }
        for size in &i.sizes {
            self.size(at, size);
        }
        if let Some(keeps) = &i.keeps {
            self.value(at, "keeps", &keeps.hours, 0.0, 200_000.0);
        }
        for word in &i.traits {
            self.word(at, "trait", word, Trait::from_id);
        }
        for minimum in &i.minima {
            self.word(at, "market", &minimum.market, Market::from_id);
            self.source(at, &minimum.source);
            if minimum.abv.is_none() && minimum.sugar_g_per_l.is_none() {
                self.fault(at, "a minimum of nothing");
            }
        }
        for restriction in &i.restrictions {
            self.word(at, "market", &restriction.market, Market::from_id);
            self.source(at, &restriction.source);
            if restriction.says.is_empty() {
                self.fault(at, "a restriction that says nothing");
            }
        }
        if let Some(dose) = &i.dose {
            self.value(at, "dose", dose, 0.0, 100.0);
        }
        if i.liquid && i.water.is_some() {
            self.fault(at, "`water` is a solid's; a liquid's closes its volume");
        }
        if i.juice.is_some() == i.juice_of.is_empty() {
            self.fault(at, "`juice` and `juice-of` go together");
        }
    }

    fn size(&mut self, at: &str, size: &Size) {
        if size.of != "each" {
            self.unit(at, &size.of);
        }
        match (&size.ml, &size.g) {
            (Some(value), None) | (None, Some(value)) => {
                self.value(at, &size.of, value, 0.0, 20_000.0);
            }
            _ => self.fault(at, format!("the size of `{}` is either `ml` or `g`", size.of)),
        }
    }

    fn juices(&mut self, data: &Data) {
        for Placed { at, entry } in &data.ingredients {
            let known = || data.ingredients.iter().any(|other| other.entry.name == entry.juice_of);
            if !entry.juice_of.is_empty() && !known() {
                self.fault(at, format!("its juice `{}` is no entry", entry.juice_of));
            }
        }
    }

    fn bar(&mut self, data: &Data) {
        for Placed { at, entry } in &data.glasses {
            self.value(at, "brim", &entry.brim, 1.0, 20_000.0);
            self.value(at, "wash-line", &entry.wash_line, 0.0, 1.0);
        }
        for Placed { at, entry } in &data.ices {
            self.optional(at, "piece-ml", entry.piece_ml.as_ref(), 5_000.0);
            self.optional(at, "across-cm", entry.across_cm.as_ref(), 50.0);
            self.optional(at, "leaves", entry.leaves.as_ref(), 1.0);
            self.optional(at, "clinging", entry.clinging.as_ref(), 1.0);
        }
        for Placed { at, entry } in &data.measures {
            self.unit(at, &entry.unit);
            self.value(at, "ml", &entry.ml, 0.0, 500.0);
        }
        for Placed { at, entry } in &data.words {
            self.value(at, "ml", &entry.ml, 0.0, 500.0);
        }
        for Placed { at, entry } in &data.constants {
            self.value(at, "value", &entry.value, -1_000.0, 1_000.0);
        }
    }

    fn methods(&mut self, data: &Data) {
        for Placed { at, entry } in &data.techniques {
            self.word(at, "dilution", &entry.dilution, Dilution::from_id);
            self.optional(at, "share", entry.share.as_ref(), 2.0);
            self.optional(at, "unmelted", entry.unmelted.as_ref(), 1.0);
            self.optional(at, "ice-g", entry.ice_g.as_ref(), 1_000.0);
            if let Some(residual) = &entry.residual {
                self.value(at, "residual", residual, -1.0, 1.0);
            }
        }
        for Placed { at, entry } in &data.families {
            for (key, band) in [
                ("strength", &entry.strength),
                ("sugar", &entry.sugar),
                ("acid", &entry.acid),
                ("ratio", &entry.ratio),
            ] {
                if let Some(band) = band {
                    self.band(at, key, band);
                }
            }
        }
    }

    fn band(&mut self, at: &str, key: &str, band: &Band) {
        self.source(&format!("{at}: `{key}`"), &band.source);
        if band.low.is_none() && band.high.is_none() {
            self.fault(at, format!("`{key}`: a band with no end"));
        }
        if band.low.zip(band.high).is_some_and(|(low, high)| low >= high) {
            self.fault(at, format!("`{key}`: the low end is not below the high end"));
        }
    }

    fn law(&mut self, data: &Data) {
        for Placed { at, entry } in &data.energies {
            self.source(at, &entry.source);
        }
        for Placed { at, entry } in &data.markets {
            self.word(at, "market", &entry.id, Market::from_id);
            self.source(at, &entry.sulphite_source);
            self.source(at, &entry.alcohol_free_source);
            self.value(at, "standard-drink-g", &entry.standard_drink_g, 1.0, 30.0);
            for declared in &entry.declares {
                self.word(at, "allergen", &declared.is, Allergen::from_id);
                self.source(at, &declared.source);
            }
        }
        for market in Market::ALL {
            if data.markets.iter().filter(|placed| placed.entry.id == market.id()).count() != 1 {
                self.fault("markets", format!("`{}` must stand once", market.id()));
            }
        }
        for Placed { at, entry } in &data.allergen_words {
            self.word(at, "allergen", &entry.is, Allergen::from_id);
        }
    }
}
