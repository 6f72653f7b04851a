//! The rules, one a file, with prose, examples and fixes.
