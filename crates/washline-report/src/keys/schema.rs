//! The JSON Schema (draft 7, which TOML editors read).

use serde_json::{Map, Value, json};
use washline_book::{Dimension, Held, Holds, SettingsKey, SettingsNames, settings_keys};
use washline_measure::Unit;
use washline_reference as reference;

/// The schema, with a line end.
#[must_use]
pub fn schema() -> String {
    let mut whole = json!({
        "$schema": "http://json-schema.org/draft-07/schema#",
        "$id": super::schema_url(),
        "title": "washline.toml",
        "description": "The standards of a house: what its books are checked and reckoned by.",
    });
    let keys: Vec<(String, &'static SettingsKey)> =
        settings_keys().map(|key| (key.name.to_owned(), key)).collect();
    join(&mut whole, table(&keys));
    join(&mut whole, json!({ "definitions": definitions() }));
    let mut out = serde_json::to_string_pretty(&whole).unwrap_or_default();
    out.push('\n');
    out
}

/// What each entry of a table of names holds, by the table's path: written once, however many
/// names there are.
fn definitions() -> Map<String, Value> {
    let mut out = Map::new();
    for top in settings_keys() {
        match &top.holds {
            Holds::Named(_, of) => drop(out.insert(top.name.to_owned(), value(top.name, of))),
            Holds::Tables(keys) => {
                for key in *keys {
                    let path = format!("{}.{}", top.name, key.name);
                    if let Holds::Named(_, of) = &key.holds {
                        out.insert(path.clone(), value(&path, of));
                    }
                }
            }
            _ => {}
        }
    }
    out
}

/// An object with these keys and no others; each comes with its path.
fn table(keys: &[(String, &'static SettingsKey)]) -> Value {
    let properties: Map<String, Value> =
        keys.iter().map(|(path, key)| (key.name.to_owned(), property(path, key))).collect();
    json!({ "type": "object", "properties": properties, "additionalProperties": false })
}

fn property(path: &str, key: &'static SettingsKey) -> Value {
    let examples: Vec<String> =
        key.examples.iter().map(|value| format!("`{} = {value}`", key.name)).collect();
    let mut out = json!({
        "description": format!(
            "{}: {}. Unset: {}. Written {}.",
            key.what, key.why, key.unset, examples.join(", ")
        ),
    });
    if let Some(default) = super::built_in(path).and_then(default) {
        join(&mut out, json!({ "default": default }));
    }
    join(&mut out, value(path, &key.holds));
    out
}

/// A built-in value as a file would write it.
fn default(held: Held) -> Option<Value> {
    Some(match held {
        Held::Word(word) => json!(word),
        Held::Flag(flag) => json!(flag),
        Held::Number(number, _) => json!(number),
        Held::Range([value, low, high], _) => json!({ "value": value, "low": low, "high": high }),
        _ => return None,
    })
}

fn value(path: &str, holds: &'static Holds) -> Value {
    match holds {
        Holds::Word(words) => word(words),
        Holds::Words(words) => one_or_many(word(words)),
        Holds::Ounce => json!({ "anyOf": [
            word(&["us", "imperial", "30 ml"]),
            { "const": 30 },
            { "type": "string", "pattern": WORDS },
        ]}),
        Holds::Unit(passes) => {
            let names: Vec<&str> =
                Unit::ALL.iter().filter(|unit| passes(**unit)).map(|unit| unit.name()).collect();
            offered(&names)
        }
        Holds::Text => text(),
        Holds::Texts => one_or_many(text()),
        Holds::Flag => json!({ "type": "boolean" }),
        Holds::Path => path_text(),
        Holds::Paths => one_or_many(path_text()),
        Holds::Number(least, most) => {
            json!({ "type": "number", "minimum": least, "maximum": most })
        }
        Holds::Whole(least, most) => {
            json!({ "type": "integer", "minimum": least, "maximum": most })
        }
        Holds::Amount(Dimension::Temperature, least, most) => {
            json!({ "type": ["number", "string"], "minimum": least, "maximum": most })
        }
        Holds::Amount(_, least, most) => amount(*least, *most),
        Holds::Measure(least, most) => {
            let one = amount(*least, *most);
            json!({ "anyOf": [one, {
                "type": "object",
                "properties": { "value": one, "low": one, "high": one },
                "required": ["value", "low", "high"],
                "additionalProperties": false,
            }]})
        }
        Holds::Proportion(least, most) => json!({
            "type": ["number", "string"],
            "minimum": least,
            "maximum": most,
            "pattern": "^\\s*[0-9.]+\\s*:\\s*[0-9.]+\\s*$",
        }),
        Holds::Jiggers(least, most) => {
            let one = amount(*least, *most);
            json!({ "type": "array", "items": { "anyOf": [one, {
                "type": "object",
                "properties": { "size": one, "marks": { "type": "array", "items": one } },
                "required": ["size"],
                "additionalProperties": false,
            }]}})
        }
        Holds::Pairs => json!({ "type": "array", "items": {
            "type": "array",
            "items": { "type": ["number", "string"], "pattern": WORDS },
            "minItems": 2,
            "maxItems": 2,
        }}),
        Holds::Band(_, least, most) => band(*least, *most),
        Holds::Family => offered(&families()),
        Holds::Severity => word(&["off", "error", "warning", "information", "hint"]),
        Holds::Table(keys) if path == "bar" => {
            let mut bar = below(path, keys);
            join(&mut bar, json!({ "patternProperties": { SPELLED: { "type": MEASURED } } }));
            bar
        }
        Holds::Table(keys) => below(path, keys),
        Holds::Tables(keys) => {
            let mut one = below(path, keys);
            let required: Vec<&str> =
                keys.iter().filter(|key| key.unset == MUST).map(|key| key.name).collect();
            join(&mut one, json!({ "required": required }));
            json!({ "type": "array", "items": one })
        }
        Holds::Named(names, _) => named(path, *names),
    }
}

/// Other spellings of the bar's measures that the reader knows.
const SPELLED: &str = "^([Bb]ar ?[Ss]poon|[Tt]ea[Ss]poon|[Tt]able[Ss]poon|[Ww]ine [Gg]lass\
                       |[Pp]ipette|[Dd]ash|[Dd]rop|[Ss]hot|[Jj]igger)(e?s)?$";
const MEASURED: [&str; 3] = ["number", "string", "object"];

/// What the table says of a key that can't be left out.
const MUST: &str = "it must be said";

/// A number with its unit behind it: `3/4 oz`, `22.5 ml`.
const WORDS: &str = "^\\s*[-\u{2212}]?\\s*[0-9.½⅓⅔¼¾⅛⅜⅝⅞][^,]*[^0-9,.\\s][^,]*$";

fn below(path: &str, keys: &'static [SettingsKey]) -> Value {
    let keys: Vec<(String, &'static SettingsKey)> =
        keys.iter().map(|key| (format!("{path}.{}", key.name), key)).collect();
    table(&keys)
}

fn named(path: &str, names: SettingsNames) -> Value {
    let each = json!({ "$ref": format!("#/definitions/{path}") });
    let known: Vec<(String, String)> = match names {
        SettingsNames::Rules => {
            washline_rules::all().map(|rule| (rule.name.to_owned(), rule.why.to_owned())).collect()
        }
        SettingsNames::Families => reference::families()
            .iter()
            .map(|family| (family.name.to_owned(), family.doc.to_owned()))
            .collect(),
        SettingsNames::Techniques => reference::techniques()
            .iter()
            .map(|technique| (technique.name.to_owned(), String::new()))
            .collect(),
        SettingsNames::Glasses => reference::glasses()
            .iter()
            .map(|glass| (glass.name.to_owned(), String::new()))
            .collect(),
    };
    let properties: Map<String, Value> = known
        .into_iter()
        .map(|(name, doc)| {
            // Draft 7 hears nothing that stands beside a reference.
            let one = match doc.is_empty() {
                true => each.clone(),
                false => json!({ "description": doc, "allOf": [each] }),
            };
            (name, one)
        })
        .collect();
    let others = if names == SettingsNames::Rules { json!(false) } else { each };
    json!({ "type": "object", "properties": properties, "additionalProperties": others })
}

fn amount(least: f64, most: f64) -> Value {
    json!({ "type": ["number", "string"], "minimum": least, "maximum": most, "pattern": WORDS })
}

fn band(least: f64, most: f64) -> Value {
    let end = json!({
        "type": ["number", "string"],
        "minimum": least,
        "maximum": most,
        "pattern": format!("({WORDS})|(^\\s*[Nn][Oo][Nn][Ee]\\s*$)"),
    });
    json!({ "anyOf": [
        word(&["none"]),
        { "type": "array", "items": end, "minItems": 2, "maxItems": 2 },
        {
            "type": "object",
            "properties": { "low": end, "high": end },
            "additionalProperties": false,
        },
    ]})
}

/// One of `words`, offered as written and taken in any case, with blanks for hyphens.
fn word(words: &[&str]) -> Value {
    let any: Vec<String> = words.iter().map(|word| any_case(word)).collect();
    json!({ "anyOf": [
        { "enum": words },
        { "type": "string", "pattern": format!("^\\s*({})\\s*$", any.join("|")) },
    ]})
}

/// Words that are offered, where others are taken too.
fn offered(words: &[&str]) -> Value {
    json!({ "anyOf": [{ "enum": words }, text()] })
}

fn any_case(word: &str) -> String {
    let each = word.chars().map(|c| match c {
        '-' | ' ' => "[- ]".to_owned(),
        c if c.is_alphabetic() => format!("[{}{}]", c.to_uppercase(), c.to_lowercase()),
        c => c.to_string(),
    });
    each.collect()
}

fn text() -> Value {
    json!({ "type": "string", "minLength": 1 })
}

fn path_text() -> Value {
    json!({ "type": "string", "minLength": 1, "pattern": "^[^\\\\]+$" })
}

fn one_or_many(one: Value) -> Value {
    json!({ "anyOf": [one, { "type": "array", "items": one }] })
}

fn families() -> Vec<&'static str> {
    reference::families().iter().map(|family| family.name).collect()
}

/// Adds the members of `more` to `to`.
fn join(to: &mut Value, more: Value) {
    if let (Some(to), Value::Object(more)) = (to.as_object_mut(), more) {
        to.extend(more);
    }
}
