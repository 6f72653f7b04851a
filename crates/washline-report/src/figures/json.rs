//! Figures as JSON: every key always there, numbers at six significant digits.

use serde::Serialize;
use serde_json::{Map, Value};
use washline_book::{Figure, Read};
use washline_measure::{Interval, Unit, six_digits};
use washline_reference::Market;

use super::Card;
use super::card::{range, role};

/// The figures of `cards` as one JSON object, with a line end.
#[must_use]
pub fn json(cards: &[Card<'_>]) -> String {
    // Entry by entry: all of them at once as a tree of values would fill the memory.
    let entries = cards.iter().map(|card| serde_json::to_string(&Entry::of(card)));
    let mut out = String::from("{\"format\":1,\"entries\":[");
    for (n, entry) in entries.flatten().enumerate() {
        if n > 0 {
            out.push(',');
        }
        out.push_str(&entry);
    }
    out.push_str("]}\n");
    out
}

#[derive(Serialize)]
struct Entry<'a> {
    entry: &'a str,
    kind: &'a str,
    family: Vec<&'a str>,
    family_inferred: bool,
    file: &'a str,
    line: u32,
    serves: Value,
    lines: Vec<Line<'a>>,
    figures: Map<String, Value>,
    allergens: Vec<Allergen<'a>>,
    allergens_unknown: Vec<String>,
    not_counted: Vec<&'a str>,
}

#[derive(Serialize)]
struct Line<'a> {
    line: u32,
    amount: &'a str,
    second: Option<&'a str>,
    unit: Option<&'a str>,
    name: &'a str,
    qualifiers: Vec<&'a str>,
    resolved: Option<&'a str>,
    or: Vec<&'a str>,
    ml: Value,
    g: Value,
    role: &'a str,
}

#[derive(Serialize)]
struct Allergen<'a> {
    allergen: &'a str,
    detail: Option<&'a str>,
    from: Vec<&'a str>,
}

impl<'a> Entry<'a> {
    fn of(card: &Card<'a>) -> Self {
        let record = card.record;
        Self {
            entry: &record.name,
            kind: record.kind.name(),
            family: card.families(),
            family_inferred: record.families.inferred,
            file: card.file,
            line: card.line(),
            serves: number(record.serves),
            lines: record.reads.iter().map(|read| Line::of(card, read)).collect(),
            figures: figures(card),
            allergens: card
                .allergens()
                .into_iter()
                .map(|a| Allergen { allergen: a.name, detail: a.detail, from: a.from })
                .collect(),
            allergens_unknown: card.unknown().into_iter().collect(),
            not_counted: card.not_counted(),
        }
    }
}

impl<'a> Line<'a> {
    fn of(card: &Card<'a>, read: &'a Read) -> Self {
        Self {
            line: card.line_of(read),
            amount: &read.amount,
            second: card.second(read),
            unit: read.unit.map(Unit::name),
            name: &read.name,
            qualifiers: card.qualifiers(read),
            resolved: card.resolved(read),
            or: card.others(read),
            ml: figure(read.ml.map(range)),
            g: figure(read.g.map(range)),
            role: role(read.role),
        }
    }
}

fn figures(card: &Card<'_>) -> Map<String, Value> {
    let record = card.record;
    let known = |interval: Option<Interval>| interval.filter(|_| !record.unread);
    let mut out = Map::new();
    for one in Figure::ALL {
        let mut value = figure(known(record.figures.get(*one)));
        if let (Figure::Cost, Value::Object(cost)) = (one, &mut value) {
            cost.insert("currency".to_owned(), record.figures.currency.clone().into());
        }
        out.insert(one.id().to_owned(), value);
    }
    let drinks = Market::ALL.iter().zip(record.figures.standard_drinks);
    let drinks = drinks.map(|(market, drinks)| (market.id().to_owned(), figure(known(drinks))));
    out.insert("standard_drinks".to_owned(), Value::Object(drinks.collect()));
    out
}

fn figure(interval: Option<Interval>) -> Value {
    let Some(interval) = interval else { return Value::Null };
    let ends = [("value", interval.value), ("low", interval.low), ("high", interval.high)];
    let ends = ends.map(|(name, end)| (name.to_owned(), Value::from(six_digits(end))));
    Value::Object(ends.into_iter().collect())
}

/// A count as a whole number where it is one.
fn number(value: f64) -> Value {
    if value.fract() == 0.0 && (0.0..1e9).contains(&value) {
        return Value::from(value as u64);
    }
    Value::from(six_digits(value))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::checks::{card, cards};

    fn of(text: &str) -> Value {
        cards(text, |cards| serde_json::from_str(&json(cards)).unwrap())
    }

    #[test]
    fn every_key_is_there_whatever_is_known() {
        let known = of(&card("  45 ml (1 1/2 oz) gin, chilled"));
        let unknown = of(&card("  45 ml no such thing"));
        let keys =
            |value: &Value| -> Vec<String> { value.as_object().unwrap().keys().cloned().collect() };
        for pointer in ["/entries/0", "/entries/0/figures", "/entries/0/lines/0"] {
            assert_eq!(
                keys(known.pointer(pointer).unwrap()),
                keys(unknown.pointer(pointer).unwrap())
            );
        }
        let first =
            |value: &Value, pointer: &str| value["entries"][0].pointer(pointer).unwrap().clone();
        assert_eq!(first(&known, "/lines/0/second"), "1 1/2 oz");
        assert_eq!(first(&known, "/lines/0/line"), 3);
        assert_eq!(first(&known, "/lines/0/ml/value"), 45.0);
        assert_eq!(first(&known, "/serves"), 1);
        let figures = first(&unknown, "/figures");
        for (name, value) in figures.as_object().unwrap() {
            let empty = value.is_null() || value.as_object().unwrap().values().all(Value::is_null);
            assert!(empty, "{name} {value}");
        }
        assert_eq!(first(&unknown, "/lines/0/resolved"), Value::Null);
        assert_eq!(first(&unknown, "/allergens_unknown"), serde_json::json!(["no such thing"]));
    }

    #[test]
    fn no_entry_is_an_empty_list() {
        assert_eq!(json(&[]), "{\"format\":1,\"entries\":[]}\n");
    }

    #[test]
    fn counts_are_whole_where_they_are_whole() {
        assert_eq!(number(2.0), Value::from(2));
        assert_eq!(number(2.5), Value::from(2.5));
    }
}
