//! How a technique waters a drink.

use crate::vocabulary::vocabulary;

vocabulary! {
    /// How the water that a technique adds is reckoned.
    Dilution {
        /// No water.
        None = "none",
        /// The published formula of a drink stirred in a mixing glass.
        Stir = "stir",
        /// The published formula of a shaken drink.
        Shake = "shake",
        /// A share of what was poured.
        Share = "share",
        /// The ice that was put in, less what is still ice.
        IceInLine = "ice-in-line",
    }
}
