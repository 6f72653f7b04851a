//! What the bytes of a file are: text, or no UTF-8.

use std::borrow::Cow;

/// A file's bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Contents {
    /// UTF-8.
    Text(String),
    /// Something else.
    NotUtf8(NotUtf8),
}

/// Bytes that are no UTF-8.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotUtf8 {
    /// The first byte, from 0, that is none.
    pub offset: u64,
    /// The line it stands on, from 1.
    pub line: u64,
    /// That byte.
    pub byte: u8,
    /// UTF-16, by its byte order mark.
    pub wide: Option<Wide>,
    /// The text as far as it can be read, with U+FFFD for what can't.
    pub readable: String,
}

/// UTF-16 by its byte order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wide {
    /// The low byte first.
    LittleEndian,
    /// The high byte first.
    BigEndian,
}

impl Wide {
    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::LittleEndian => "UTF-16LE",
            Self::BigEndian => "UTF-16BE",
        }
    }

    fn of(bytes: &[u8]) -> Option<Self> {
        match bytes {
            [0xff, 0xfe, ..] => Some(Self::LittleEndian),
            [0xfe, 0xff, ..] => Some(Self::BigEndian),
            _ => None,
        }
    }

    fn decode(self, bytes: &[u8]) -> String {
        let pairs = bytes.chunks_exact(2).filter_map(|pair| <[u8; 2]>::try_from(pair).ok());
        let units = pairs.map(|pair| match self {
            Self::LittleEndian => u16::from_le_bytes(pair),
            Self::BigEndian => u16::from_be_bytes(pair),
        });
        char::decode_utf16(units).map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER)).collect()
    }
}

impl Contents {
    /// What `bytes` are.
    #[must_use]
    pub fn of(bytes: Vec<u8>) -> Self {
        match String::from_utf8(bytes) {
            Ok(text) => Self::Text(text),
            Err(error) => {
                Self::NotUtf8(NotUtf8::of(error.utf8_error().valid_up_to(), error.as_bytes()))
            }
        }
    }

    /// The text, or as much of it as can be read.
    #[must_use]
    pub fn readable(&self) -> &str {
        match self {
            Self::Text(text) => text,
            Self::NotUtf8(not) => &not.readable,
        }
    }
}

impl NotUtf8 {
    fn of(offset: usize, bytes: &[u8]) -> Self {
        let before = bytes.get(..offset).unwrap_or_default();
        let wide = Wide::of(bytes);
        let readable = match wide {
            Some(wide) => wide.decode(bytes),
            None => String::from_utf8_lossy(bytes).into_owned(),
        };
        Self {
            offset: offset as u64,
            line: 1 + memchr::memchr_iter(b'\n', before).count() as u64,
            byte: bytes.get(offset).copied().unwrap_or_default(),
            wide,
            readable,
        }
    }

    /// What is wrong, for people.
    #[must_use]
    pub fn message(&self) -> Cow<'static, str> {
        if let Some(wide) = self.wide {
            return format!("the file is {}, not UTF-8", wide.name()).into();
        }
        let Self { offset, line, byte, .. } = self;
        format!("byte {offset} (0x{byte:02X}, on line {line}) is no UTF-8").into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn not(bytes: &[u8]) -> NotUtf8 {
        match Contents::of(bytes.to_vec()) {
            Contents::NotUtf8(not) => not,
            Contents::Text(text) => panic!("{text}"),
        }
    }

    #[test]
    fn the_first_bad_byte_is_named() {
        let found = not(b"drink: A\n  cr\xe8me\n");
        assert_eq!(found.message(), "byte 13 (0xE8, on line 2) is no UTF-8");
        assert_eq!(found.readable, "drink: A\n  cr\u{fffd}me\n");
    }

    #[test]
    fn wide_text_is_named_and_still_readable() {
        let text = "\u{feff}drink: \u{1f34b}";
        let little: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
        let big: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
        assert_eq!(not(&little).message(), "the file is UTF-16LE, not UTF-8");
        assert_eq!(not(&big).message(), "the file is UTF-16BE, not UTF-8");
        assert_eq!(not(&big).readable, text);
    }

    #[test]
    fn text_stays_as_it_is() {
        assert_eq!(Contents::of(b"a\r\n".to_vec()), Contents::Text("a\r\n".to_owned()));
        assert_eq!(Contents::of(Vec::new()).readable(), "");
    }
}
