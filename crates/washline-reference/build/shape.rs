//! The data files as they are written.

use std::fmt;

use serde::Deserialize;
use serde::de::{Error, SeqAccess, Visitor};

/// `[value, low, high, "source"]`.
pub struct Value {
    pub value: f64,
    pub low: f64,
    pub high: f64,
    pub source: String,
}

impl<'de> Deserialize<'de> for Value {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Four;
        impl<'de> Visitor<'de> for Four {
            type Value = Value;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("[value, low, high, \"source\"]")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Value, A::Error> {
                let mut number = || {
                    seq.next_element::<f64>()?.ok_or_else(|| {
                        A::Error::custom("a value is [value, low, high, \"source\"]")
                    })
                };
                let (value, low, high) = (number()?, number()?, number()?);
                let source = seq
                    .next_element()?
                    .ok_or_else(|| A::Error::custom("a value without a source"))?;
                if seq.next_element::<toml::Value>()?.is_some() {
                    return Err(A::Error::custom("something follows the source of a value"));
                }
                Ok(Value { value, low, high, source })
            }
        }
        from.deserialize_seq(Four)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Source {
    pub id: String,
    pub text: String,
    pub basis: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Carries {
    pub is: String,
    #[serde(default)]
    pub detail: String,
    #[serde(default)]
    pub exempt: Vec<String>,
    pub certain: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Size {
    pub of: String,
    pub ml: Option<Value>,
    pub g: Option<Value>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Keeps {
    pub hours: Value,
    pub chilled: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Minimum {
    pub market: String,
    pub abv: Option<f64>,
    pub sugar_g_per_l: Option<f64>,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Restriction {
    pub market: String,
    pub forbidden: bool,
    pub says: String,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Ingredient {
    pub name: String,
    pub sort: String,
    pub liquid: bool,
    #[serde(default)]
    pub also: Vec<String>,
    pub abv: Option<Value>,
    pub sugar: Option<Value>,
    pub acid: Option<Value>,
    pub fat: Option<Value>,
    pub protein: Option<Value>,
    pub salt: Option<Value>,
    pub solids: Option<Value>,
    pub water: Option<Value>,
    pub density: Option<Value>,
    pub ph: Option<Value>,
    pub sulphites: Option<Value>,
    pub quinine: Option<Value>,
    pub caffeine: Option<Value>,
    pub carbon_dioxide: Option<Value>,
    pub holds: Option<Value>,
    pub juice: Option<Value>,
    #[serde(default)]
    pub juice_of: String,
    #[serde(default)]
    pub allergens: Vec<Carries>,
    #[serde(default)]
    pub vouches: bool,
    #[serde(default)]
    pub sizes: Vec<Size>,
    pub keeps: Option<Keeps>,
    #[serde(default)]
    pub traits: Vec<String>,
    #[serde(default)]
    pub cautions: Vec<String>,
    #[serde(default)]
    pub botanical: String,
    #[serde(default)]
    pub minima: Vec<Minimum>,
    #[serde(default)]
    pub restrictions: Vec<Restriction>,
    pub dose: Option<Value>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Glass {
    pub name: String,
    #[serde(default)]
    pub also: Vec<String>,
    pub brim: Value,
    pub wash_line: Value,
    pub stemmed: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Ice {
    pub name: String,
    #[serde(default)]
    pub also: Vec<String>,
    pub piece_ml: Option<Value>,
    pub across_cm: Option<Value>,
    pub leaves: Option<Value>,
    pub clinging: Option<Value>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Technique {
    pub name: String,
    #[serde(default)]
    pub also: Vec<String>,
    pub dilution: String,
    pub share: Option<Value>,
    pub residual: Option<Value>,
    pub unmelted: Option<Value>,
    pub ice_g: Option<Value>,
    pub needs_ice: bool,
    pub chills: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Band {
    pub low: Option<f64>,
    pub high: Option<f64>,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Family {
    pub name: String,
    pub doc: String,
    pub always_diluted: bool,
    pub needs_sugar_and_acid: bool,
    pub strength: Option<Band>,
    pub sugar: Option<Band>,
    pub acid: Option<Band>,
    pub ratio: Option<Band>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Measure {
    pub unit: String,
    pub ml: Value,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Word {
    pub word: String,
    pub ml: Value,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Constant {
    pub name: String,
    pub doc: String,
    pub value: Value,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Energy {
    pub of: String,
    pub kcal: f64,
    pub kj: f64,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Declares {
    pub is: String,
    pub term: String,
    #[serde(default)]
    pub kinds: Vec<String>,
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Market {
    pub id: String,
    pub sulphite_mg_per_l: f64,
    pub sulphite_at_limit: bool,
    pub sulphite_source: String,
    pub standard_drink_g: Value,
    pub alcohol_free_abv: f64,
    pub alcohol_free_term: String,
    pub alcohol_free_source: String,
    pub declares: Vec<Declares>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct AllergenWord {
    pub words: Vec<String>,
    pub is: String,
    #[serde(default)]
    pub detail: String,
}
