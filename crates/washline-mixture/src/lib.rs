//! Density, mixing, dilution, heat balance and uncertainty: numbers in, numbers out.
//!
//! Masses are grams, volumes millilitres at 20 °C, temperatures degrees Celsius, heat
//! kilojoules. Nothing here knows an ingredient, a unit or a text, and no input makes a
//! figure other than a finite number: what is not a number counts as nothing, and what
//! is beyond every bar's measure is held at the edge. A part just below zero is carried
//! through as it is, so that a slope taken at zero is the true slope.

pub mod acids;
mod act;
mod coefficients;
mod composition;
pub mod constants;
pub mod dilution;
mod energy;
mod enthalpy;
pub mod ethanol;
pub mod freezing;
pub mod heat;
mod held;
pub mod ph;
pub mod propagate;
pub mod stability;
mod stated;
pub mod sucrose;
mod volume;

pub use act::Act;
pub use composition::Composition;
pub use stated::{Stated, per_100_ml};
pub use sucrose::syrup;
