//! Walks the examples of the written grammar.
