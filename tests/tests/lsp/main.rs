//! The language server, spoken to as an editor speaks to it.

mod client;
mod colours;
mod command;
mod ends;
mod frames;
mod houses;
mod large;
mod prose;
mod questions;
mod session;
mod terms;
mod truth;
mod waiting;
mod watched;
