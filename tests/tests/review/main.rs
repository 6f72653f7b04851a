//! `washline review` over real histories: each test makes a repository with git itself.
//!
//! Dates and authors are fixed, nothing is fetched, and the settings of whoever runs the tests
//! do not count. The program is the one that `cargo test --workspace` has built beside this test;
//! when only this test is run, `cargo build -p washline` comes before it.

mod ci;
mod hostile;
mod outputs;
mod repository;
mod scenarios;
