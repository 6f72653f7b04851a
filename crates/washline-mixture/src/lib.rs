//! Density, mixing, dilution, heat balance and uncertainty: numbers in, numbers out.
