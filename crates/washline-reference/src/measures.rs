//! What the bar's own measures hold where the house does not say.

use washline_measure::Unit;

use crate::Datum;
use crate::compiled::{MEASURES, WORDS};

/// What `unit` holds, ml; only of the bar's measures.
#[must_use]
pub fn bar_measure(unit: Unit) -> Option<Datum> {
    MEASURES.iter().find(|(of, _)| *of == unit).map(|(_, ml)| *ml)
}

/// What an amount word (`rinse`, `mist`, `rim`, `float`) leaves in the drink, ml.
/// `top` and `fill` depend on the glass and have none.
#[must_use]
pub fn amount_word(folded: &str) -> Option<Datum> {
    WORDS.iter().find(|(word, _)| *word == folded).map(|(_, ml)| *ml)
}
