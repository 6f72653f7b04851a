//! Values: what a field's key says of its form.

use washline_text::Span;

use crate::heading;
use crate::ingredient::parts;
use crate::reader::Reader;
use crate::slice::{self, phrase};
use crate::{Key, Problem, Value, field};

mod amount;
mod figure;
mod garnish;
mod keeps;
mod money;
mod vessel;
mod waive;
pub(crate) mod word;

/// Reads the value of `key`, which is not empty.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, key: Key, text: &'t str) -> Value {
    match key {
        Key::House
        | Key::Note
        | Key::Credit
        | Key::Menu
        | Key::Store
        | Key::Source
        | Key::Kind
        | Key::VariantOf => Value::Text,
        Key::Market | Key::Tags | Key::Also => terms(reader, text),
        Key::Family | Key::Contains | Key::MayContain | Key::FreeFrom => {
            terms_or_none(reader, text)
        }
        Key::Units => word::units(reader, text),
        Key::Status | Key::Serve => word::one_of(reader, key, text),
        Key::Ice => word::ice(reader, text),
        Key::Glass | Key::Vessel => vessel::read(reader, text),
        Key::Serves => amount::count(reader, text),
        Key::Portion | Key::Part | Key::Total | Key::Yields | Key::Dash => {
            amount::read(reader, key, text)
        }
        Key::Pack => amount::pack(reader, text),
        Key::Strength
        | Key::Abv
        | Key::Brix
        | Key::Sugar
        | Key::Acid
        | Key::Salt
        | Key::Fat
        | Key::Density
        | Key::Ph
        | Key::Loss
        | Key::Waste => figure::read(reader, key, text),
        Key::Price | Key::Cost => money::read(reader, key, text),
        Key::Keeps => keeps::read(reader, text),
        Key::Garnish => garnish::read(reader, text),
        Key::Waive => waive::read(reader, text),
    }
}

/// Whether `text` says `none`, as a statement.
fn is_none(text: &str) -> bool {
    phrase(text, "none").is_some_and(str::is_empty)
}

fn terms(reader: &Reader<'_>, text: &str) -> Value {
    Value::Terms(spans(reader, text))
}

fn terms_or_none(reader: &Reader<'_>, text: &str) -> Value {
    if is_none(text) { Value::None } else { terms(reader, text) }
}

fn spans(reader: &Reader<'_>, text: &str) -> Vec<Span> {
    parts(text).filter(|part| !part.is_empty()).map(|part| reader.span(part)).collect()
}

/// Tells that the value of a key is not of its form, and how one looks.
fn unreadable(reader: &mut Reader<'_>, key: Key, at: &str, example: &str) -> Value {
    let span = reader.span(at);
    let word = key.word();
    let problem = Problem::new(
        "unreadable-amount",
        span,
        format!("`{word}` takes {}, and `{at}` is not one", form(key)),
        format!("write it like `{word}: {example}`; words go behind `note:`"),
    );
    let words = !at.contains(|c: char| c.is_numeric());
    let pair = words.then(|| heading::pair(slice::trim(reader.whole_line()))).flatten();
    reader.tell(match pair {
        Some(pair) => field::noted(reader, problem, pair),
        None => problem,
    });
    Value::Bad
}

/// What a value is, in a few words.
const fn form(key: Key) -> &'static str {
    match key {
        Key::Keeps => "a time",
        Key::Price | Key::Cost => "an amount of money",
        Key::Serves => "a number of serves",
        Key::Portion | Key::Part | Key::Total | Key::Yields | Key::Dash | Key::Pack => "an amount",
        _ => "a number",
    }
}

/// Tells that a number of a key has no unit, and how one looks.
fn unitless(reader: &mut Reader<'_>, key: Key, at: &str, example: &str) -> Value {
    let span = reader.span(at);
    let word = key.word();
    let lack = if matches!(key, Key::Cost | Key::Price) { "currency" } else { "unit" };
    reader.tell(Problem::new(
        "missing-unit",
        span,
        format!("`{word}: {at}` has no {lack}"),
        format!("write it like `{word}: {example}`"),
    ));
    Value::Bad
}
