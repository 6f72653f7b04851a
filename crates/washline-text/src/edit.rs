//! A change of text as data.

use crate::Span;

/// Replace the bytes of `span` by `text`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Edit {
    /// What goes.
    pub span: Span,
    /// What comes in its place.
    pub text: String,
}

/// Why edits could not be applied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EditError {
    /// Two edits touch the same byte, or stand out of order.
    Overlap(Span, Span),
    /// An edit names bytes that the text does not have, or cuts a character.
    Outside(Span),
}

impl Edit {
    /// Replace `span` by `text`.
    #[must_use]
    pub fn new(span: Span, text: impl Into<String>) -> Self {
        Self { span, text: text.into() }
    }

    /// Put `text` in at `offset`.
    #[must_use]
    pub fn insert(offset: u32, text: impl Into<String>) -> Self {
        Self::new(Span::at(offset), text)
    }

    /// Take `span` out.
    #[must_use]
    pub fn delete(span: Span) -> Self {
        Self::new(span, "")
    }
}

/// `text` after all of `edits`, which must be sorted and must not overlap.
///
/// # Errors
/// [`EditError`] when two edits overlap or one lies outside the text; nothing is
/// applied then.
pub fn apply(text: &str, edits: &[Edit]) -> Result<String, EditError> {
    let mut out = String::with_capacity(text.len());
    let mut done = 0;
    let mut last = Span::at(0);
    for edit in edits {
        if edit.span.start < done {
            return Err(EditError::Overlap(last, edit.span));
        }
        let kept = text.get(done as usize..edit.span.start as usize);
        let gone = text.get(edit.span.range());
        let (Some(kept), Some(_)) = (kept, gone) else {
            return Err(EditError::Outside(edit.span));
        };
        out.push_str(kept);
        out.push_str(&edit.text);
        done = edit.span.end;
        last = edit.span;
    }
    out.push_str(text.get(done as usize..).unwrap_or(""));
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_apply_in_one_go() {
        let edits = [Edit::new(Span::new(0, 2), "60"), Edit::insert(5, "!")];
        assert_eq!(apply("45 ml gin", &edits).as_deref(), Ok("60 ml! gin"));
    }

    #[test]
    fn overlapping_edits_are_refused() {
        let edits = [Edit::delete(Span::new(0, 4)), Edit::delete(Span::new(3, 5))];
        assert!(matches!(apply("45 ml gin", &edits), Err(EditError::Overlap(..))));
    }

    #[test]
    fn an_edit_never_cuts_a_character() {
        let edits = [Edit::delete(Span::new(0, 1))];
        assert!(matches!(apply("é", &edits), Err(EditError::Outside(_))));
    }
}
