//! Finding, reading and writing files.
