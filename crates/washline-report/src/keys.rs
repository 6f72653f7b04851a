//! The keys of `washline.toml` as a JSON Schema and as a page, both written from the tables
//! that the reader itself checks against.

mod page;
mod schema;

pub use page::page;
pub use schema::schema;

use washline_book::{Held, Settings};

/// Where the schema lies in the repository.
pub const SCHEMA_PATH: &str = "crates/washline-book/washline.schema.json";

/// The address of the schema, which is its `$id`.
#[must_use]
pub fn schema_url() -> String {
    format!("{}/raw/main/{SCHEMA_PATH}", env!("CARGO_PKG_REPOSITORY"))
}

/// What a key of a fixed name holds in a house that has said nothing.
fn built_in(path: &str) -> Option<Held> {
    let held = Settings::default().held();
    held.into_iter().find(|standard| standard.key == path).map(|standard| standard.value)
}
