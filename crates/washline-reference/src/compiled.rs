//! The tables that the build made of the data files.

use washline_measure::Unit;

use crate::energy::Energy;
use crate::family::{Band, Family};
use crate::law::{AlcoholFree, Declared, Law, SulphiteThreshold};
use crate::{
    Allergen, Carries, Datum, Dilution, Glass, Ice, Ingredient, Keeping, Market, Minimum,
    Restriction, Size, Sort, Source, Technique, Trait, Trust,
};

include!(concat!(env!("OUT_DIR"), "/tables.rs"));
