//! What an entry costs: each line's share of its pack.

use washline_measure::{Estimate, UnitKind};
use washline_syntax::{Key, Role, Value};

use crate::{Read, Record, Settings};

/// The price of one unit of something.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Price {
    /// Per millilitre, or per gram.
    pub a_unit: f64,
    /// Whether the unit is a gram.
    pub grams: bool,
    /// The currency as written.
    pub currency: String,
}

/// What one unit of a stock entry costs; `None` where it does not say both cost and pack.
pub(crate) fn of_stock(record: &Record, settings: &Settings) -> Option<Price> {
    let Value::Money { amount, currency } = &record.field(Key::Cost)?.value else { return None };
    let (count, each) = match &record.field(Key::Pack)?.value {
        Value::Pack { count, each } => (*count, each),
        _ => return None,
    };
    let unit = each.unit?;
    let number = each.quantity.middle().to_f64() * f64::from(count);
    let (size, grams) = match unit.kind() {
        UnitKind::Mass => (number * unit.grams()?.to_f64(), true),
        UnitKind::Metric | UnitKind::Customary => {
            (number * unit.ml(settings.ounce)?.to_f64(), false)
        }
        _ => return None,
    };
    let waste = record.number(Key::Waste).unwrap_or(0.0);
    let usable = size * (1.0 - waste / 100.0).max(0.01);
    let currency = record.text(*currency).trim().to_ascii_uppercase();
    (usable > 0.0).then(|| Price { a_unit: amount.to_f64() / usable, grams, currency })
}

/// What the lines cost together. `None` where a line has no price: an unknown cost is
/// never shown as none. Water and ice are free.
pub(crate) fn of_lines(
    reads: &[Read],
    price: impl Fn(&Read) -> Option<Price>,
) -> Option<(Estimate, String)> {
    let mut total = Estimate::default();
    let mut currency: Option<String> = None;
    let mut any = false;
    for read in reads {
        let paid = read.counted || read.role == Role::Side;
        if !paid || read.water {
            continue;
        }
        any = true;
        let price = price(read)?;
        if currency.as_ref().is_some_and(|known| *known != price.currency) {
            return None;
        }
        let size = if price.grams { read.g? } else { read.ml? };
        total = total.plus(size.times(price.a_unit));
        currency = Some(price.currency);
    }
    any.then_some(())?;
    Some((total, currency?))
}
