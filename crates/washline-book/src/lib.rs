//! A workspace of spec books: names resolved, preps composed, figures of every entry.
