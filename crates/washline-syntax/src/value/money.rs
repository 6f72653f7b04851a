//! `cost: 24.50 EUR`, `price: £12`.

use super::{unitless, unreadable};
use crate::amount::{self, number};
use crate::reader::Reader;
use crate::slice::{first, gap, taken};
use crate::{Key, Value};

/// A number and a currency, on either side: an ISO 4217 code or a sign.
pub(super) fn read<'t>(reader: &mut Reader<'t>, key: Key, text: &'t str) -> Value {
    let before = currency(text);
    let start = before.map_or(text, |(_, rest)| gap(rest));
    let (rest, read) = match number(start) {
        Ok(read) => read,
        Err(nom::Err::Failure(refused)) => {
            amount::tell(reader, refused);
            return Value::Bad;
        }
        Err(_) => return unreadable(reader, key, text, "24.50 EUR"),
    };
    crate::ingredient::comma(reader, taken(start, rest));
    let rest = gap(rest);
    let behind = currency(rest).filter(|(_, after)| gap(after).is_empty());
    let currency = match (before, behind) {
        (Some((currency, _)), None) if rest.is_empty() => currency,
        (None, Some((currency, _))) => currency,
        (None, None) if rest.is_empty() => return unitless(reader, key, text, "24.50 EUR"),
        _ => return unreadable(reader, key, text, "24.50 EUR"),
    };
    Value::Money { amount: read.value, currency: reader.span(currency) }
}

/// A currency at the start of `text`: three letters, or a sign with at most two letters
/// before it (`A$`).
fn currency(text: &str) -> Option<(&str, &str)> {
    let letters = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    let rest = text.get(letters..)?;
    if let Some(after) = rest.strip_prefix(is_sign).filter(|_| letters <= 2) {
        return Some((taken(text, after), after));
    }
    let ends = first(rest).is_none_or(|c| !c.is_alphanumeric() || c.is_ascii_digit());
    (letters == 3 && ends).then(|| (taken(text, rest), rest))
}

/// Signs of currencies (Unicode category Sc, the common ones).
const fn is_sign(c: char) -> bool {
    matches!(c, '$' | '\u{a2}'..='\u{a5}' | '\u{e3f}' | '\u{20a0}'..='\u{20c0}')
}
