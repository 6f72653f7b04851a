//! Exact numbers, units, quantities, and values with their uncertainty.
//!
//! What a spec says is held exactly ([`Exact`]); what is computed from it is an
//! [`Estimate`]: a value with a standard uncertainty.

mod estimate;
mod exact;
mod quantity;
pub mod robust;
mod shown;
mod unit;

pub use estimate::{Estimate, Interval, six_digits};
pub use exact::Exact;
pub use quantity::{Form, Measure, Quantity};
pub use shown::{number, spread, within};
pub use unit::{Ounce, Unit, UnitKind};
