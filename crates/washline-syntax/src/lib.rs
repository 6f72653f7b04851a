//! Spec book notation: text to lines to entries, lossless and total.
