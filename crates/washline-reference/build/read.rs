//! From the text of the data files to their entries, each with the place it was read at.

use serde::de::DeserializeOwned;
use toml::{Table, Value};

use super::shape;

/// An entry, with its file and name for messages.
pub struct Placed<T> {
    pub at: String,
    pub entry: T,
}

/// Every entry of every data file.
#[derive(Default)]
pub struct Data {
    pub sources: Vec<Placed<shape::Source>>,
    pub ingredients: Vec<Placed<shape::Ingredient>>,
    pub glasses: Vec<Placed<shape::Glass>>,
    pub ices: Vec<Placed<shape::Ice>>,
    pub techniques: Vec<Placed<shape::Technique>>,
    pub families: Vec<Placed<shape::Family>>,
    pub measures: Vec<Placed<shape::Measure>>,
    pub words: Vec<Placed<shape::Word>>,
    pub constants: Vec<Placed<shape::Constant>>,
    pub energies: Vec<Placed<shape::Energy>>,
    pub markets: Vec<Placed<shape::Market>>,
    pub allergen_words: Vec<Placed<shape::AllergenWord>>,
}

impl Data {
    /// Adds the entries of one file; what cannot be read is added to `faults`.
    pub fn read(&mut self, file: &str, text: &str, faults: &mut Vec<String>) {
        let table: Table = match text.parse() {
            Ok(table) => table,
            Err(error) => return faults.push(format!("{file}: {error}")),
        };
        for (kind, value) in table {
            let Value::Array(entries) = value else {
                faults.push(format!("{file}: `{kind}` is no list of entries"));
                continue;
            };
            for (n, entry) in entries.into_iter().enumerate() {
                let at = format!("{file}: {}", label(&kind, n, &entry));
                match kind.as_str() {
                    "source" => push(&mut self.sources, at, entry, faults),
                    "ingredient" => push(&mut self.ingredients, at, entry, faults),
                    "glass" => push(&mut self.glasses, at, entry, faults),
                    "ice" => push(&mut self.ices, at, entry, faults),
                    "technique" => push(&mut self.techniques, at, entry, faults),
                    "family" => push(&mut self.families, at, entry, faults),
                    "measure" => push(&mut self.measures, at, entry, faults),
                    "word" => push(&mut self.words, at, entry, faults),
                    "constant" => push(&mut self.constants, at, entry, faults),
                    "energy" => push(&mut self.energies, at, entry, faults),
                    "market" => push(&mut self.markets, at, entry, faults),
                    "allergen" => push(&mut self.allergen_words, at, entry, faults),
                    _ => faults.push(format!("{at}: unknown kind of entry")),
                }
            }
        }
    }
}

/// What an entry is called in messages: its name, else its place in its list.
fn label(kind: &str, n: usize, entry: &Value) -> String {
    ["name", "id", "unit", "word", "of"]
        .iter()
        .find_map(|key| entry.get(key)?.as_str())
        .map_or_else(|| format!("{kind} number {}", n + 1), |name| format!("{kind} `{name}`"))
}

fn push<T: DeserializeOwned>(
    into: &mut Vec<Placed<T>>,
    at: String,
    entry: Value,
    faults: &mut Vec<String>,
) {
    match entry.try_into() {
        Ok(entry) => into.push(Placed { at, entry }),
        Err(error) => faults.push(format!("{at}: {}", error.to_string().trim_end())),
    }
}
