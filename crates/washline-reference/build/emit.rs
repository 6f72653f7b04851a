//! The checked data as Rust: nothing is read or parsed when the program runs.

use std::fmt::Write as _;

use washline_measure::Unit;
use washline_text::fold;

use super::check::values;
use super::read::{Data, Placed};
use super::shape::{self, Value};
use crate::allergen::{Allergen, Market};
use crate::dilution::Dilution;
use crate::property::Trait;
use crate::sort::Sort;

/// Every table but the constants.
pub fn tables(data: &mut Data) -> String {
    data.ingredients.sort_by_key(|placed| fold(&placed.entry.name));
    let emit = Emit { sources: &data.sources };
    let mut out = String::new();
    table(&mut out, "SOURCES", "Source", data.sources.iter().map(|p| emit.source(&p.entry)));
    let ingredients = data.ingredients.iter().enumerate();
    table(
        &mut out,
        "INGREDIENTS",
        "Ingredient",
        ingredients.map(|(id, p)| emit.ingredient(id, &p.entry)),
    );
    names(&mut out, "INGREDIENT", data.ingredients.iter().map(|p| (&p.entry.name, &p.entry.also)));
    table(&mut out, "GLASSES", "Glass", data.glasses.iter().map(|p| emit.glass(&p.entry)));
    names(&mut out, "GLASS", data.glasses.iter().map(|p| (&p.entry.name, &p.entry.also)));
    table(&mut out, "ICES", "Ice", data.ices.iter().map(|p| emit.ice(&p.entry)));
    names(&mut out, "ICE", data.ices.iter().map(|p| (&p.entry.name, &p.entry.also)));
    let techniques = data.techniques.iter();
    table(&mut out, "TECHNIQUES", "Technique", techniques.map(|p| emit.technique(&p.entry)));
    names(&mut out, "TECHNIQUE", data.techniques.iter().map(|p| (&p.entry.name, &p.entry.also)));
    table(&mut out, "FAMILIES", "Family", data.families.iter().map(|p| emit.family(&p.entry)));
    let measures = data.measures.iter();
    table(&mut out, "MEASURES", "(Unit, Datum)", measures.map(|p| emit.measure(&p.entry)));
    let words = data.words.iter();
    table(
        &mut out,
        "WORDS",
        "(&str, Datum)",
        words.map(|p| format!("({:?}, {})", fold(&p.entry.word), emit.datum(&p.entry.ml))),
    );
    table(&mut out, "ENERGIES", "Energy", data.energies.iter().map(|p| emit.energy(&p.entry)));
    table(&mut out, "LAWS", "Law", laws(data).map(|law| emit.law(law)));
    table(&mut out, "ALLERGEN_WORDS", "(&str, Allergen, &str)", allergen_words(data).into_iter());
    let [published, practice, memory] = emit.trusts(data);
    let _ = writeln!(
        out,
        "pub(crate) static TRUSTED: [usize; 3] = [{published}, {practice}, {memory}];"
    );
    out
}

/// The constants, each a public static.
pub fn constants(data: &Data) -> String {
    let emit = Emit { sources: &data.sources };
    let mut out = String::new();
    for Placed { entry, .. } in &data.constants {
        let value = emit.datum(&entry.value);
        let _ =
            writeln!(out, "#[doc = {:?}]\npub static {}: Datum = {value};", entry.doc, entry.name);
    }
    out
}

fn table(out: &mut String, name: &str, of: &str, rows: impl Iterator<Item = String>) {
    let rows: Vec<String> = rows.collect();
    let _ = writeln!(out, "pub(crate) static {name}: [{of}; {}] = [", rows.len());
    for row in rows {
        let _ = writeln!(out, "    {row},");
    }
    out.push_str("];\n");
}

/// Every folded spelling with its entry's place, in the order of the spellings.
fn names<'a>(
    out: &mut String,
    of: &str,
    entries: impl Iterator<Item = (&'a String, &'a Vec<String>)>,
) {
    let mut rows = Vec::new();
    for (id, (name, also)) in entries.enumerate() {
        rows.extend(std::iter::once(name).chain(also).map(|spelling| (fold(spelling), id)));
    }
    rows.sort();
    rows.dedup();
    let rows = rows.iter().map(|(folded, id)| format!("({folded:?}, {id})"));
    table(out, &format!("{of}_NAMES"), "(&str, u16)", rows);
}

fn laws(data: &Data) -> impl Iterator<Item = &shape::Market> {
    Market::ALL.into_iter().filter_map(|market| {
        let mut markets = data.markets.iter().map(|placed| &placed.entry);
        markets.find(|entry| entry.id == market.id())
    })
}

fn allergen_words(data: &Data) -> Vec<String> {
    let mut rows = Vec::new();
    for Placed { entry, .. } in &data.allergen_words {
        for word in &entry.words {
            rows.push((fold(word), of(Allergen::from_id(&entry.is)), &entry.detail));
        }
    }
    rows.sort();
    rows.iter()
        .map(|(word, is, detail)| format!("({word:?}, Allergen::{is}, {detail:?})"))
        .collect()
}

/// The name of an enum's member; the check has seen that there is one.
fn of<T: std::fmt::Debug>(member: Option<T>) -> String {
    member.map(|member| format!("{member:?}")).unwrap_or_default()
}

fn unit(word: &str) -> String {
    of(Unit::from_words(&fold(word)))
}

fn list(items: impl Iterator<Item = String>) -> String {
    format!("&[{}]", items.collect::<Vec<_>>().join(", "))
}

fn texts(texts: &[String]) -> String {
    list(texts.iter().map(|text| format!("{text:?}")))
}

struct Emit<'a> {
    sources: &'a [Placed<shape::Source>],
}

impl Emit<'_> {
    fn source(&self, source: &shape::Source) -> String {
        let trust = match source.basis.as_str() {
            "published" => "Published",
            "practice" => "CommonPractice",
            _ => "Memory",
        };
        format!("Source {{ id: {:?}, text: {:?}, trust: Trust::{trust} }}", source.id, source.text)
    }

    fn cite(&self, id: &str) -> String {
        let place = self.sources.iter().position(|placed| placed.entry.id == id);
        format!("&SOURCES[{}]", place.unwrap_or_default())
    }

    fn datum(&self, Value { value, low, high, source }: &Value) -> String {
        let source = self.cite(source);
        format!("Datum {{ value: {value:?}, low: {low:?}, high: {high:?}, source: {source} }}")
    }

    fn optional(&self, value: Option<&Value>) -> String {
        value.map_or_else(|| "None".into(), |value| format!("Some({})", self.datum(value)))
    }

    fn ingredient(&self, id: usize, i: &shape::Ingredient) -> String {
        let mut out = format!(
            "Ingredient {{ id: {id}, name: {:?}, aliases: {}, sort: Sort::{}, liquid: {}",
            i.name,
            texts(&i.also),
            of(Sort::from_id(&i.sort)),
            i.liquid,
        );
        for (field, value) in [
            ("abv", &i.abv),
            ("sugar", &i.sugar),
            ("acid", &i.acid),
            ("fat", &i.fat),
            ("protein", &i.protein),
            ("salt", &i.salt),
            ("solids", &i.solids),
            ("water", &i.water),
            ("density", &i.density),
            ("ph", &i.ph),
            ("sulphites", &i.sulphites),
            ("quinine", &i.quinine),
            ("caffeine", &i.caffeine),
            ("carbon_dioxide", &i.carbon_dioxide),
            ("holds", &i.holds),
            ("juice", &i.juice),
        ] {
            let _ = write!(out, ", {field}: {}", self.optional(value.as_ref()));
        }
        let _ = write!(
            out,
            ", juice_of: {:?}, carries: {}, vouches: {}, sizes: {}, keeps: {}, traits: {}, \
             cautions: {}, botanical: {:?}, minima: {}, restrictions: {}, dose: {} }}",
            i.juice_of,
            list(i.allergens.iter().map(carries)),
            i.vouches,
            list(i.sizes.iter().map(|size| self.size(size))),
            self.keeps(i.keeps.as_ref()),
            list(i.traits.iter().map(|word| format!("Trait::{}", of(Trait::from_id(word))))),
            texts(&i.cautions),
            i.botanical,
            list(i.minima.iter().map(|minimum| self.minimum(minimum))),
            list(i.restrictions.iter().map(|restriction| self.restriction(restriction))),
            self.optional(i.dose.as_ref()),
        );
        out
    }

    fn size(&self, size: &shape::Size) -> String {
        let unit = match size.of.as_str() {
            "each" => "None".into(),
            word => format!("Some(Unit::{})", unit(word)),
        };
        let grams = size.g.is_some();
        let amount = size.g.as_ref().or(size.ml.as_ref());
        let amount = amount.map(|value| self.datum(value)).unwrap_or_default();
        format!("Size {{ unit: {unit}, amount: {amount}, grams: {grams} }}")
    }

    fn keeps(&self, keeps: Option<&shape::Keeps>) -> String {
        let Some(keeps) = keeps else { return "None".into() };
        let hours = self.datum(&keeps.hours);
        format!("Some(Keeping {{ hours: {hours}, chilled: {} }})", keeps.chilled)
    }

    fn minimum(&self, minimum: &shape::Minimum) -> String {
        format!(
            "Minimum {{ market: Market::{}, abv: {:?}, sugar_g_per_l: {:?}, source: {} }}",
            of(Market::from_id(&minimum.market)),
            minimum.abv,
            minimum.sugar_g_per_l,
            self.cite(&minimum.source)
        )
    }

    fn restriction(&self, restriction: &shape::Restriction) -> String {
        format!(
            "Restriction {{ market: Market::{}, forbidden: {}, says: {:?}, source: {} }}",
            of(Market::from_id(&restriction.market)),
            restriction.forbidden,
            restriction.says,
            self.cite(&restriction.source)
        )
    }

    fn glass(&self, glass: &shape::Glass) -> String {
        format!(
            "Glass {{ name: {:?}, aliases: {}, brim: {}, wash_line: {}, stemmed: {} }}",
            glass.name,
            texts(&glass.also),
            self.datum(&glass.brim),
            self.datum(&glass.wash_line),
            glass.stemmed
        )
    }

    fn ice(&self, ice: &shape::Ice) -> String {
        format!(
            "Ice {{ name: {:?}, aliases: {}, piece_ml: {}, across_cm: {}, leaves: {}, clinging: {} }}",
            ice.name,
            texts(&ice.also),
            self.optional(ice.piece_ml.as_ref()),
            self.optional(ice.across_cm.as_ref()),
            self.optional(ice.leaves.as_ref()),
            self.optional(ice.clinging.as_ref())
        )
    }

    fn technique(&self, t: &shape::Technique) -> String {
        format!(
            "Technique {{ name: {:?}, aliases: {}, dilution: Dilution::{}, share: {}, residual: {}, \
             unmelted: {}, ice_g: {}, needs_ice: {}, chills: {} }}",
            t.name,
            texts(&t.also),
            of(Dilution::from_id(&t.dilution)),
            self.optional(t.share.as_ref()),
            self.optional(t.residual.as_ref()),
            self.optional(t.unmelted.as_ref()),
            self.optional(t.ice_g.as_ref()),
            t.needs_ice,
            t.chills
        )
    }

    fn family(&self, f: &shape::Family) -> String {
        format!(
            "Family {{ name: {:?}, doc: {:?}, always_diluted: {}, needs_sugar_and_acid: {}, \
             strength: {}, sugar: {}, acid: {}, ratio: {} }}",
            f.name,
            f.doc,
            f.always_diluted,
            f.needs_sugar_and_acid,
            self.band(f.strength.as_ref()),
            self.band(f.sugar.as_ref()),
            self.band(f.acid.as_ref()),
            self.band(f.ratio.as_ref())
        )
    }

    fn band(&self, band: Option<&shape::Band>) -> String {
        let Some(band) = band else { return "None".into() };
        let source = self.cite(&band.source);
        format!("Some(Band {{ low: {:?}, high: {:?}, source: {source} }})", band.low, band.high)
    }

    fn measure(&self, measure: &shape::Measure) -> String {
        format!("(Unit::{}, {})", unit(&measure.unit), self.datum(&measure.ml))
    }

    fn energy(&self, energy: &shape::Energy) -> String {
        let source = self.cite(&energy.source);
        let shape::Energy { of, kcal, kj, .. } = energy;
        format!("Energy {{ of: {of:?}, kcal: {kcal:?}, kj: {kj:?}, source: {source} }}")
    }

    fn law(&self, law: &shape::Market) -> String {
        format!(
            "Law {{ declares: {}, sulphites: SulphiteThreshold {{ mg_per_l: {:?}, at_limit: {}, \
             source: {} }}, standard_drink_g: {}, alcohol_free: AlcoholFree {{ abv: {:?}, \
             term: {:?}, source: {} }} }}",
            list(law.declares.iter().map(|declared| self.declared(declared))),
            law.sulphite_mg_per_l,
            law.sulphite_at_limit,
            self.cite(&law.sulphite_source),
            self.datum(&law.standard_drink_g),
            law.alcohol_free_abv,
            law.alcohol_free_term,
            self.cite(&law.alcohol_free_source)
        )
    }

    fn declared(&self, declared: &shape::Declares) -> String {
        format!(
            "Declared {{ allergen: Allergen::{}, term: {:?}, kinds: {}, source: {} }}",
            of(Allergen::from_id(&declared.is)),
            declared.term,
            texts(&declared.kinds),
            self.cite(&declared.source)
        )
    }

    /// How many of the ingredients' values are published, common practice, memory.
    fn trusts(&self, data: &Data) -> [usize; 3] {
        let mut bases = data.ingredients.iter().flat_map(|placed| {
            let i = &placed.entry;
            let sizes = i.sizes.iter().filter_map(|size| size.g.as_ref().or(size.ml.as_ref()));
            let stated = values(i).map(|(_, value, _)| value).chain(sizes);
            stated.chain(i.keeps.as_ref().map(|keeps| &keeps.hours)).map(|value| &value.source)
        });
        let mut counts = [0; 3];
        bases.by_ref().for_each(|id| {
            let source = self.sources.iter().find(|placed| placed.entry.id == *id);
            match source.map(|placed| placed.entry.basis.as_str()) {
                Some("published") => counts[0] += 1,
                Some("practice") => counts[1] += 1,
                _ => counts[2] += 1,
            }
        });
        counts
    }
}

fn carries(carried: &shape::Carries) -> String {
    let exempt = carried.exempt.iter().map(|id| format!("Market::{}", of(Market::from_id(id))));
    format!(
        "Carries {{ allergen: Allergen::{}, detail: {:?}, exempt: {}, certain: {} }}",
        of(Allergen::from_id(&carried.is)),
        carried.detail,
        list(exempt),
        carried.certain
    )
}
