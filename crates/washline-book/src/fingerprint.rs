//! What holds a finding still while lines move, files are renamed and layout changes.

use std::hash::Hasher;

/// A fingerprint of `parts`, in order, and of how many like it came before.
///
/// The hash is 64-bit FNV-1a over the parts with a separator between them: the same on
/// every machine and in every version.
#[must_use]
pub fn fingerprint(parts: &[&str], nth: u32) -> String {
    let mut hash = Fnv(0xcbf2_9ce4_8422_2325);
    for part in parts {
        hash.write(part.as_bytes());
        hash.write(&[0x1f]);
    }
    hash.write(&nth.to_le_bytes());
    format!("v1:{:016x}", hash.finish())
}

struct Fnv(u64);

impl Hasher for Fnv {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_kept_apart() {
        assert_ne!(fingerprint(&["ab", "c"], 0), fingerprint(&["a", "bc"], 0));
        assert_ne!(fingerprint(&["ab"], 0), fingerprint(&["ab"], 1));
        assert_eq!(fingerprint(&["ab"], 0), fingerprint(&["ab"], 0));
    }
}
