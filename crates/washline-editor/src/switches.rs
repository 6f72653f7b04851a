//! What a reader may not want to see between the lines.

/// Which of the answers that nobody asked for by a key are given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Switches {
    /// Behind an amount, the same in the house's other unit.
    pub other_unit: bool,
    /// Behind a line, its share of the drink's sugar or acid.
    pub shares: bool,
    /// Above a heading, the figures.
    pub figures: bool,
    /// Addresses and files that can be opened.
    pub links: bool,
}

impl Default for Switches {
    fn default() -> Self {
        Self { other_unit: true, shares: true, figures: true, links: true }
    }
}
