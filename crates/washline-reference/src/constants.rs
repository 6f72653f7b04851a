//! Single values that the figures rest on: what stays in a tin, what foam adds, what a filter keeps.

use crate::Datum;
use crate::compiled::SOURCES;

include!(concat!(env!("OUT_DIR"), "/constants.rs"));
