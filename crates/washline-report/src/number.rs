//! Numbers as people read them: the one spelling that every output has.

pub(crate) use washline_measure::{number, spread, within};
