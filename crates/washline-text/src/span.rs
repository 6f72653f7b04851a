//! A range of bytes.

use std::fmt;
use std::ops::Range;

/// A half-open range of bytes, `start..end`.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The first byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The span `start..end`; an end before the start becomes the start.
    #[must_use]
    pub const fn new(start: u32, end: u32) -> Self {
        let end = if end < start { start } else { end };
        Self { start, end }
    }

    /// The empty span at `offset`.
    #[must_use]
    pub const fn at(offset: u32) -> Self {
        Self { start: offset, end: offset }
    }

    /// The span of `part` inside `whole`. `part` must be a slice of `whole`;
    /// anything else gives an empty span at the end.
    #[must_use]
    pub fn of(part: &str, whole: &str) -> Self {
        let offset = (part.as_ptr() as usize).wrapping_sub(whole.as_ptr() as usize);
        if offset > whole.len() || offset + part.len() > whole.len() {
            return Self::at(clamp(whole.len()));
        }
        Self::new(clamp(offset), clamp(offset + part.len()))
    }

    /// How many bytes it holds.
    #[must_use]
    pub const fn len(self) -> u32 {
        self.end - self.start
    }

    /// Whether it holds no byte.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// The same span, `by` bytes further on.
    #[must_use]
    pub const fn shift(self, by: u32) -> Self {
        Self { start: self.start.saturating_add(by), end: self.end.saturating_add(by) }
    }

    /// The smallest span that holds both.
    #[must_use]
    pub fn cover(self, other: Self) -> Self {
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// Whether `offset` lies in it or right behind it.
    #[must_use]
    pub const fn touches(self, offset: u32) -> bool {
        self.start <= offset && offset <= self.end
    }

    /// Whether the two share a byte.
    #[must_use]
    pub const fn overlaps(self, other: Self) -> bool {
        self.start < other.end && other.start < self.end
    }

    /// The bytes as a range of `usize`, to index text with `str::get`.
    #[must_use]
    pub const fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }

    /// The text it names; empty where it does not fit `text`.
    #[must_use]
    pub fn text(self, text: &str) -> &str {
        text.get(self.range()).unwrap_or("")
    }
}

impl fmt::Debug for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}..{}", self.start, self.end)
    }
}

fn clamp(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slice_knows_its_place() {
        let whole = "gin, lime";
        let part = whole.get(5..).unwrap_or("");
        assert_eq!(Span::of(part, whole), Span::new(5, 9));
        assert_eq!(Span::of(part, whole).text(whole), "lime");
    }

    #[test]
    fn foreign_text_is_the_empty_span_at_the_end() {
        assert!(Span::of("elsewhere", "here").is_empty());
    }
}
