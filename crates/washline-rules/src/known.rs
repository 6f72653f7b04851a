//! The words that the standards of a house may name.

use std::sync::OnceLock;

use washline_book::Known;
use washline_reference as reference;

/// Every rule, family and technique, by name.
#[must_use]
pub fn known() -> Known<'static> {
    static NAMES: OnceLock<[Vec<&'static str>; 3]> = OnceLock::new();
    let [rules, families, techniques] = NAMES.get_or_init(|| {
        [
            crate::all().map(|rule| rule.name).collect(),
            reference::families().iter().map(|family| family.name).collect(),
            reference::techniques().iter().map(|one| one.name).collect(),
        ]
    });
    Known { rules, families, techniques }
}
