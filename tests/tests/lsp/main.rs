//! The language server, spoken to as an editor speaks to it.

mod client;
mod colours;
mod ends;
mod frames;
mod houses;
mod prose;
mod session;
mod truth;
