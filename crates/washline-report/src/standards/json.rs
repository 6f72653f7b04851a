//! The standards as JSON: every key always there.

use serde::Serialize;
use serde_json::{Value, json as value};
use washline_book::Held;

use super::rows::{Row, rows};
use super::{Origin, Standards};

/// The standards as one JSON object, with a line end.
///
/// `said` is `null` where nobody said it and the built-in value holds. A number stands with its
/// unit; a band's open end is `null`, and so is a value that has no default.
#[must_use]
pub fn json(standards: &Standards<'_>) -> String {
    let rows = rows(standards);
    let report = Report {
        format: 1,
        path: standards.name,
        files: standards.files.iter().map(|file| file.name.as_str()).collect(),
        settings: rows.iter().map(setting).collect(),
    };
    let mut out = serde_json::to_string(&report).unwrap_or_default();
    out.push('\n');
    out
}

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    path: &'a str,
    files: Vec<&'a str>,
    settings: Vec<Setting<'a>>,
}

#[derive(Serialize)]
struct Setting<'a> {
    key: &'a str,
    value: Value,
    said: Option<Said<'a>>,
}

#[derive(Serialize)]
struct Said<'a> {
    file: &'a str,
    line: u32,
    column: u32,
}

fn setting(row: &Row) -> Setting<'_> {
    let said = row.origin.as_ref().map(|Origin { file, line, column }| Said {
        file,
        line: *line,
        column: *column,
    });
    Setting { key: &row.key, value: typed(&row.value), said }
}

fn typed(held: &Held) -> Value {
    match held {
        Held::Nothing => Value::Null,
        Held::Word(word) => value!(word),
        Held::Flag(flag) => value!(flag),
        Held::Number(number, "") => value!(number),
        Held::Number(number, unit) => value!({ "value": number, "unit": unit }),
        Held::Range([number, low, high], unit) => {
            value!({ "value": number, "low": low, "high": high, "unit": unit })
        }
        Held::Band(low, high, unit) => value!({ "low": low, "high": high, "unit": unit }),
        Held::List(values) => values.iter().map(typed).collect(),
    }
}
