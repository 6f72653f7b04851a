//! One value of the file, as the type that its key wants.

use std::ops::{Range, RangeInclusive};

use toml::Spanned;
use toml::de::DeValue;
use washline_text::{Span, fold};

use super::SettingsError;
use super::words;

/// A value with its place in the file.
pub(super) type Item<'t> = Spanned<DeValue<'t>>;

/// What was read, or the one thing that is wrong with it.
pub(super) type Read<T> = Result<T, SettingsError>;

/// The error that `message` and `help` tell of the bytes `span`.
pub(super) fn error(
    span: Span,
    message: impl Into<String>,
    help: impl Into<String>,
) -> SettingsError {
    SettingsError { message: message.into(), help: help.into(), span }
}

/// Refuses `item`.
pub(super) fn refuse<T>(
    item: &Item,
    message: impl Into<String>,
    help: impl Into<String>,
) -> Read<T> {
    Err(error(span(item), message, help))
}

/// Where `item` stands.
pub(super) fn span(item: &Item) -> Span {
    bytes(item.span())
}

/// `range` as a span; what lies beyond 4 GiB becomes its end.
pub(super) fn bytes(range: Range<usize>) -> Span {
    let clamp = |offset| u32::try_from(offset).unwrap_or(u32::MAX);
    Span::new(clamp(range.start), clamp(range.end))
}

/// Words in quotes.
pub(super) fn text<'t>(item: &'t Item<'t>, help: &str) -> Read<&'t str> {
    match item.get_ref().as_str() {
        Some(text) => Ok(text.trim()),
        None => mistyped(item, "words in quotes", help),
    }
}

/// `true` or `false`.
pub(super) fn flag(item: &Item, help: &str) -> Read<bool> {
    match item.get_ref().as_bool() {
        Some(flag) => Ok(flag),
        None => mistyped(item, "true or false", help),
    }
}

/// A finite number.
pub(super) fn number(item: &Item, help: &str) -> Read<f64> {
    let read: Option<f64> = match item.get_ref() {
        DeValue::Integer(n) if n.radix() == 10 => n.as_str().parse().ok(),
        DeValue::Integer(n) => i64::from_str_radix(n.as_str(), n.radix()).ok().map(|n| n as f64),
        DeValue::Float(n) => n.as_str().parse().ok(),
        _ => return mistyped(item, "a number", help),
    };
    match read.filter(|n| n.is_finite()) {
        Some(number) => Ok(number),
        None => refuse(item, "this is no number that can be reckoned with", help),
    }
}

/// A whole number of `range`.
pub(super) fn whole(item: &Item, range: RangeInclusive<u32>, help: &str) -> Read<u32> {
    let number = number(item, help)?;
    if number.fract() != 0.0 {
        return refuse(item, format!("{number} is no whole number"), help);
    }
    let (least, most) = (*range.start(), *range.end());
    within(item, number, f64::from(least)..=f64::from(most), "", help)?;
    Ok(number as u32)
}

/// The items of a list.
pub(super) fn list<'t>(item: &'t Item<'t>, help: &str) -> Read<&'t [Item<'t>]> {
    match item.get_ref().as_array() {
        Some(items) => Ok(items),
        None => mistyped(item, "a list in [ ]", help),
    }
}

/// The items of a list, or the one item that stands by itself.
pub(super) fn one_or_many<'t>(item: &'t Item<'t>) -> &'t [Item<'t>] {
    match item.get_ref().as_array() {
        Some(items) => items,
        None => std::slice::from_ref(item),
    }
}

/// One of `choices`, in any case, with blanks for hyphens; `what` names them.
pub(super) fn choice<T: Copy>(
    item: &Item,
    what: &str,
    choices: &[(&'static str, T)],
    help: &str,
) -> Read<T> {
    let written = text(item, help)?;
    let folded = fold(written);
    if let Some((_, chosen)) = choices.iter().find(|(word, _)| fold(word) == folded) {
        return Ok(*chosen);
    }
    let all = choices.iter().map(|(word, _)| *word);
    let message = format!("`{written}` is no {what}");
    refuse(item, message, words::did_you_mean(written, all, help))
}

/// Refuses `value` outside `range`; `unit` follows the numbers in the message.
pub(super) fn within(
    item: &Item,
    value: f64,
    range: RangeInclusive<f64>,
    unit: &str,
    help: &str,
) -> Read<()> {
    if range.contains(&value) {
        return Ok(());
    }
    let (least, most) = (range.start(), range.end());
    let blank = if unit.is_empty() { "" } else { " " };
    let message = format!("{value}{blank}{unit} is not between {least} and {most}{blank}{unit}");
    refuse(item, message, help)
}

/// Whether `item` is a number.
pub(super) fn is_number(item: &Item) -> bool {
    matches!(item.get_ref(), DeValue::Integer(_) | DeValue::Float(_))
}

/// Refuses an item of another type than the one that is `wanted`.
pub(super) fn mistyped<T>(item: &Item, wanted: &str, help: &str) -> Read<T> {
    let found = match item.get_ref() {
        DeValue::String(_) => "words in quotes stand",
        DeValue::Integer(_) | DeValue::Float(_) => "a number stands",
        DeValue::Boolean(_) => "true or false stands",
        DeValue::Datetime(_) => "a date or time stands",
        DeValue::Array(_) => "a list stands",
        DeValue::Table(_) => "a table stands",
    };
    refuse(item, format!("{found} where {wanted} should"), help)
}
