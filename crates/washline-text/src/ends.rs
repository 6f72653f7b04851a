//! Line ends: a file's first is the one that new lines of it take.

/// The first line end of `text`: `\n`, `\r\n` or a lone `\r`; `\n` where there is none.
#[must_use]
pub fn line_end(text: &str) -> &'static str {
    match text.find(['\r', '\n']) {
        Some(at) if text.get(at..at + 2) == Some("\r\n") => "\r\n",
        Some(at) if text.get(at..=at) == Some("\r") => "\r",
        _ => "\n",
    }
}

#[cfg(test)]
mod tests {
    use super::line_end;

    #[test]
    fn the_first_decides() {
        assert_eq!(line_end("a\r\nb\nc"), "\r\n");
        assert_eq!(line_end("a\rb\r\n"), "\r");
        assert_eq!(line_end("a\nb\r"), "\n");
        assert_eq!(line_end("a"), "\n");
    }
}
