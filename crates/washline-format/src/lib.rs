//! Layout: entries apart, blocks, columns, one spelling of numbers and units.
//!
//! [`format`] changes white space and the spelling of numbers and units alone:
//! never a value, a comment or an order. An entry that cannot be read stays byte
//! for byte, and so does one whose meaning would not survive.

mod blocks;
mod columns;
mod edits;
mod entry;
mod marks;
mod meaning;
mod number;
mod row;

pub use edits::{Formatted, format, format_entries};
pub use number::measure as spell;

/// How a house wants its books laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Options {
    /// How parts of an ounce, spoon or cup are written.
    pub fractions: Fractions,
    /// Blanks before each line of an entry.
    pub indent: usize,
    /// Whether amounts, second measures and names stand in columns.
    pub align: bool,
}

/// How parts of an ounce are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Fractions {
    /// As the line has it.
    #[default]
    AsWritten,
    /// `0.75 oz`
    Decimal,
    /// `3/4 oz`
    Fraction,
}

impl Default for Options {
    fn default() -> Self {
        Self { fractions: Fractions::AsWritten, indent: 2, align: true }
    }
}
