//! What two texts have in common before and behind an edit.

/// How many bytes two texts share at their start and, apart from those, at their end.
///
/// ```
/// use washline_text::Common;
///
/// assert_eq!(Common::of("60 ml gin", "45 ml gin"), Common { head: 0, tail: 7 });
/// assert_eq!(Common::of("aa", "aaa"), Common { head: 2, tail: 0 });
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Common {
    /// The bytes at the start.
    pub head: usize,
    /// The bytes at the end; with `head` never more than the shorter text.
    pub tail: usize,
}

/// How many bytes are compared at once.
const STRIDE: usize = 256;

impl Common {
    /// What `old` and `new` share. Neither end need lie between two characters.
    #[must_use]
    pub fn of(old: &str, new: &str) -> Self {
        let (old, new) = (old.as_bytes(), new.as_bytes());
        let head = head(old, new);
        let most = old.len().min(new.len()) - head;
        Self { head, tail: tail(last(old, most), last(new, most)) }
    }
}

fn last(text: &[u8], bytes: usize) -> &[u8] {
    text.get(text.len() - bytes..).unwrap_or_default()
}

fn head(a: &[u8], b: &[u8]) -> usize {
    let strides = a.chunks_exact(STRIDE).zip(b.chunks_exact(STRIDE));
    let sure = strides.take_while(|(a, b)| a == b).count() * STRIDE;
    let rest = a.iter().skip(sure).zip(b.iter().skip(sure));
    sure + rest.take_while(|(a, b)| a == b).count()
}

fn tail(a: &[u8], b: &[u8]) -> usize {
    let strides = a.rchunks_exact(STRIDE).zip(b.rchunks_exact(STRIDE));
    let sure = strides.take_while(|(a, b)| a == b).count() * STRIDE;
    let rest = a.iter().rev().skip(sure).zip(b.iter().rev().skip(sure));
    sure + rest.take_while(|(a, b)| a == b).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_texts_are_compared_to_the_byte() {
        let old = "x".repeat(3 * STRIDE) + "old" + &"y".repeat(2 * STRIDE + 7);
        let new = old.replace("old", "newer");
        let common = Common::of(&old, &new);
        assert_eq!(common, Common { head: 3 * STRIDE, tail: 2 * STRIDE + 7 });
        assert_eq!(Common::of(&old, &old), Common { head: old.len(), tail: 0 });
    }

    #[test]
    fn the_two_ends_never_overlap() {
        for (old, new) in [("", "a"), ("aba", "aba aba"), ("aaaa", "aa"), ("é", "è")] {
            let Common { head, tail } = Common::of(old, new);
            assert!(head + tail <= old.len().min(new.len()), "{old:?} {new:?}");
            assert_eq!(old.as_bytes()[..head], new.as_bytes()[..head]);
            assert_eq!(old.as_bytes()[old.len() - tail..], new.as_bytes()[new.len() - tail..]);
        }
    }
}
