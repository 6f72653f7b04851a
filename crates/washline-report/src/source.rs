//! A text with its lines counted, for messages that point into it.

use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use washline_text::{Columns, LineIndex};

/// A named text. It finds a line by its index rather than by reading from the start, and
/// counts columns as every other output does.
#[derive(Clone, Debug)]
pub struct Source {
    name: String,
    text: String,
    index: LineIndex,
    /// The numbers of its lines, from 0; empty where they simply follow one another.
    numbers: Vec<u32>,
}

impl Source {
    /// The text of the file `name`.
    #[must_use]
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        let text = text.into();
        Self { name: name.into(), index: LineIndex::new(&text), text, numbers: Vec::new() }
    }

    /// The same, as lines of a file that have these numbers there, from 0.
    #[must_use]
    pub(crate) fn numbered(self, numbers: Vec<u32>) -> Self {
        Self { numbers, ..self }
    }
}

impl SourceCode for Source {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let (start, end) = (narrow(span.offset()), narrow(span.offset() + span.len()));
        let first = self.index.line_of(start).saturating_sub(narrow(before));
        let last = self.index.line_of(end).saturating_add(narrow(after));
        let last = last.min(self.index.lines().saturating_sub(1));
        let whole = self.index.span_with_end(first).cover(self.index.span_with_end(last));
        let data = self.text.get(whole.range()).ok_or(MietteError::OutOfBounds)?;
        let column = match before {
            0 => self.index.position(&self.text, start, Columns::Scalars).column,
            _ => 0,
        };
        Ok(Box::new(MietteSpanContents::new_named(
            self.name.clone(),
            data.as_bytes(),
            (whole.start as usize, whole.len() as usize).into(),
            self.numbers.get(first as usize).copied().unwrap_or(first) as usize,
            column as usize,
            (last - first) as usize + 1,
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, span: (usize, usize), around: usize) -> (String, usize, usize, usize) {
        let source = Source::new("washline.toml", text);
        let contents = source.read_span(&span.into(), around, around).unwrap();
        let data = String::from_utf8(contents.data().to_vec()).unwrap();
        assert_eq!(contents.name(), Some("washline.toml"));
        (data, contents.line(), contents.column(), contents.line_count())
    }

    #[test]
    fn whole_lines_with_true_places() {
        let text = "a\nüb = c\nd\ne\n";
        assert_eq!(read(text, (7, 1), 0), ("üb = c\n".to_owned(), 1, 4, 1));
        assert_eq!(read(text, (7, 1), 1), ("a\nüb = c\nd\n".to_owned(), 0, 0, 3));
        assert_eq!(read("", (0, 0), 1), (String::new(), 0, 0, 1));
    }
}
