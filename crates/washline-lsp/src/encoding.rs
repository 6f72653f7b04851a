//! Bytes to the protocol's positions and back, in the unit that client and server agreed on, and
//! how files are addressed.

use tower_lsp::lsp_types::{ClientCapabilities, Position, PositionEncodingKind, Range, Url};
use washline_text::{Columns, LineIndex, Position as Place, Span};

/// The unit to count columns in: UTF-8 where the client offers it, else UTF-16, which every
/// client that offers nothing means.
pub(crate) fn agreed(client: &ClientCapabilities) -> Columns {
    let offered = client.general.as_ref().and_then(|g| g.position_encodings.as_deref());
    let offers = |kind| offered.is_some_and(|offered| offered.contains(&kind));
    if offers(PositionEncodingKind::UTF8) {
        Columns::Bytes
    } else if offers(PositionEncodingKind::UTF32) && !offers(PositionEncodingKind::UTF16) {
        Columns::Scalars
    } else {
        Columns::Utf16
    }
}

/// What the protocol calls it.
pub(crate) const fn kind(columns: Columns) -> PositionEncodingKind {
    match columns {
        Columns::Bytes => PositionEncodingKind::UTF8,
        Columns::Utf16 => PositionEncodingKind::UTF16,
        Columns::Scalars => PositionEncodingKind::UTF32,
    }
}

/// The address of a file as it is spelled here: clients differ in which letters they encode.
pub(crate) fn spelled(url: &Url) -> Url {
    let path = url.to_file_path().ok();
    path.and_then(|path| Url::from_file_path(path).ok()).unwrap_or_else(|| url.clone())
}

/// The measure of one text.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ruler<'a> {
    pub text: &'a str,
    pub index: &'a LineIndex,
    pub columns: Columns,
}

impl Ruler<'_> {
    /// Where the byte `offset` stands.
    pub(crate) fn position(self, offset: u32) -> Position {
        let place = self.index.position(self.text, offset, self.columns);
        Position::new(place.line, place.column)
    }

    /// Where the bytes of `span` stand.
    pub(crate) fn range(self, span: Span) -> Range {
        Range::new(self.position(span.start), self.position(span.end))
    }

    /// The byte at `position`; outside of the text it is the nearest there is.
    pub(crate) fn offset(self, position: Position) -> u32 {
        let place = Place { line: position.line, column: position.character };
        self.index.offset(self.text, place, self.columns)
    }

    /// The bytes of `range`, which may stand the wrong way round.
    pub(crate) fn span(self, range: Range) -> Span {
        let (a, b) = (self.offset(range.start), self.offset(range.end));
        Span::new(a.min(b), a.max(b))
    }
}
