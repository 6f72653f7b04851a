//! The notation as it is read, from one line to whole files.

mod entries;
mod grammar;
mod ingredients;
mod others;
mod promises;
mod read;
mod refused;
mod steps;
mod values;
mod words;
