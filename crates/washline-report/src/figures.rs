//! The computed figures of drinks and preps, as a table, JSON and CSV.

mod bands;
mod card;
#[cfg(test)]
mod checks;
mod csv;
mod json;
mod models;
mod table;

pub use self::bands::{HouseBands, bands_csv, bands_json, bands_toml};
pub use self::csv::csv;
pub use self::json::json;
pub use self::table::table;
pub use card::Card;
pub use models::Models;
