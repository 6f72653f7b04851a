//! Files for other tools that are made from the parser's own word lists, and kept.

use std::fs;

use washline_syntax::vocabulary::{List, lists};

use crate::root;

/// Every list with a blank for each hyphen, and the roles that are said whole.
#[must_use]
pub fn words() -> Vec<(String, Vec<String>)> {
    let plain = |word: &&str| word.replace('-', " ");
    let mut out: Vec<(String, Vec<String>)> = lists()
        .iter()
        .map(|List { name, words }| ((*name).to_owned(), words.iter().map(plain).collect()))
        .collect();
    out.push(("whole role".to_owned(), vec!["on the side".to_owned(), "optional".to_owned()]));
    out
}

/// Holds the file at `path`, from the root, against what it should be; `UPDATE_EXPECT=1` writes it.
///
/// # Panics
/// Where the two differ.
pub fn is_current(path: &str, wanted: &str) {
    let file = root().join(path);
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::write(&file, wanted).unwrap();
    }
    let found = fs::read_to_string(&file).unwrap_or_default().replace("\r\n", "\n");
    assert!(found == wanted, "{path} is stale: UPDATE_EXPECT=1 writes it anew");
}
