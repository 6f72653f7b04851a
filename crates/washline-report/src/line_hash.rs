//! The hash of each line that code scanning services know a result by again.
//!
//! The scheme is that of `github/codeql-action`, `src/fingerprints.ts`: a rolling hash over the
//! hundred UTF-16 units from the start of the line on, blanks and tabs left out, every line end
//! read as LF, with a count behind it where it comes again.

use std::collections::BTreeMap;

const BLOCK: usize = 100;
const FACTOR: i64 = 37;
const END: u16 = u16::MAX;

/// The hash of each line of `text`, in order.
pub(crate) fn line_hashes(text: &str) -> Vec<String> {
    let mut hasher = Hasher {
        window: [0; BLOCK],
        starts: [false; BLOCK],
        at: 0,
        hash: 0,
        first: (0..BLOCK).fold(1, |product: i64, _| product.wrapping_mul(FACTOR)),
        line_start: true,
        out: Vec::new(),
        seen: BTreeMap::new(),
    };
    let mut after_return = false;
    for unit in text.encode_utf16().chain([END]) {
        let feed = unit == u16::from(b'\n');
        if unit == u16::from(b' ') || unit == u16::from(b'\t') || (after_return && feed) {
            after_return = false;
            continue;
        }
        after_return = unit == u16::from(b'\r');
        hasher.take(if after_return { u16::from(b'\n') } else { unit });
    }
    for _ in 0..BLOCK {
        hasher.tell();
        hasher.push(0);
    }
    hasher.out
}

struct Hasher {
    window: [u16; BLOCK],
    /// Whether a line starts at the place.
    starts: [bool; BLOCK],
    at: usize,
    hash: i64,
    /// The factor of what falls out of the window.
    first: i64,
    line_start: bool,
    out: Vec<String>,
    seen: BTreeMap<i64, usize>,
}

impl Hasher {
    fn take(&mut self, unit: u16) {
        self.tell();
        if std::mem::take(&mut self.line_start)
            && let Some(start) = self.starts.get_mut(self.at)
        {
            *start = true;
        }
        self.line_start = unit == u16::from(b'\n');
        self.push(unit);
    }

    /// Hands over the hash of the line that started a whole window ago.
    fn tell(&mut self) {
        if self.starts.get_mut(self.at).is_some_and(std::mem::take) {
            let count = self.seen.entry(self.hash).or_insert(0);
            *count += 1;
            self.out.push(format!("{:x}:{count}", self.hash));
        }
    }

    fn push(&mut self, unit: u16) {
        let Some(place) = self.window.get_mut(self.at) else { return };
        let gone = i64::from(std::mem::replace(place, unit));
        self.hash = (self.hash.wrapping_mul(FACTOR))
            .wrapping_add(i64::from(unit))
            .wrapping_sub(self.first.wrapping_mul(gone));
        self.at = (self.at + 1) % BLOCK;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The values of `github/codeql-action`, `src/fingerprints.test.ts`.
    #[test]
    fn the_published_examples() {
        assert_eq!(line_hashes(""), ["c129715d7a2bc9a3:1"]);
        assert_eq!(
            line_hashes(" a\nb\n  \t\tc\n d"),
            ["271789c17abda88f:1", "54703d4cd895b18:1", "180aee12dab6264:1", "a23a3dc5e078b07b:1"]
        );
    }

    #[test]
    fn line_ends_and_blanks_do_not_count() {
        assert_eq!(line_hashes("a b\r\nc\rd"), line_hashes("ab\nc\nd"));
        assert_eq!(line_hashes(&"x\n".repeat(300)).len(), 301);
    }
}
