//! Comments at the end of a line.

use memchr::memchr_iter;

use crate::slice;

/// `content` without its trailing comment, and the comment from its `#`. A comment
/// starts at a `#` with white space before it and no digit behind it.
pub(crate) fn split(content: &str) -> (&str, Option<&str>) {
    let bytes = content.as_bytes();
    for at in memchr_iter(b'#', bytes) {
        let Some((before, comment)) = content.split_at_checked(at) else { continue };
        let numbered = bytes.get(at + 1).is_some_and(u8::is_ascii_digit);
        if before.ends_with(char::is_whitespace) && !numbered {
            return (crate::blank::trim(before), Some(comment));
        }
    }
    (content, None)
}

/// Whether a line with this content is a comment and nothing else.
pub(crate) fn whole(content: &str) -> bool {
    slice::first(content) == Some('#')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comment_needs_a_blank_before_and_no_digit_behind() {
        assert_eq!(split("1 egg  # small"), ("1 egg", Some("# small")));
        assert_eq!(split("1 egg #"), ("1 egg", Some("#")));
        assert_eq!(split("Lantern #2"), ("Lantern #2", None));
        assert_eq!(split("a#b"), ("a#b", None));
        assert_eq!(split(r"a \#b"), (r"a \#b", None));
        assert_eq!(split("A #2 # second"), ("A #2", Some("# second")));
    }
}
