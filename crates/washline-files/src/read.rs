//! Reading files whole.

use std::fmt;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use crate::Contents;

/// The most bytes a file may have: what a span can name.
pub const MOST_BYTES: u64 = u32::MAX as u64;

/// From how many files on they are read by several threads: below, starting threads costs
/// more than it saves.
const MANY: usize = 64;

/// Why a file could not be read.
#[derive(Debug)]
pub enum ReadError {
    /// The system says so.
    Io(io::Error),
    /// It has more than [`MOST_BYTES`].
    TooLarge,
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Io(error) => write!(f, "{error}"),
            Self::TooLarge => f.write_str("it is larger than 4 GiB"),
        }
    }
}

impl std::error::Error for ReadError {}

impl From<io::Error> for ReadError {
    fn from(error: io::Error) -> Self {
        Self::Io(error)
    }
}

/// All of the file at `path`.
///
/// # Errors
/// [`ReadError`] where it is missing, may not be read, or is too large.
pub fn read(path: &Path) -> Result<Contents, ReadError> {
    let file = File::open(path)?;
    let size = file.metadata()?.len();
    contents(file, size)
}

/// All of what `reader` gives, of which `size` bytes are expected.
fn contents(reader: impl Read, size: u64) -> Result<Contents, ReadError> {
    if size > MOST_BYTES {
        return Err(ReadError::TooLarge);
    }
    let mut bytes = Vec::with_capacity(usize::try_from(size).unwrap_or(0));
    reader.take(MOST_BYTES + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(ReadError::TooLarge);
    }
    Ok(Contents::of(bytes))
}

/// All files, in their order; `each` is told of every one that was read.
pub fn read_all(paths: &[PathBuf], each: impl Fn() + Sync) -> Vec<Result<Contents, ReadError>> {
    let one = |path: &PathBuf| {
        let contents = read(path);
        each();
        contents
    };
    if paths.len() > MANY {
        return paths.par_iter().map(one).collect();
    }
    paths.iter().map(one).collect()
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};

    use super::*;

    #[test]
    fn many_files_come_in_their_order() {
        let folder = tempfile::tempdir().unwrap();
        let paths: Vec<PathBuf> =
            (0..3 * MANY).map(|n| folder.path().join(format!("{n}.pour"))).collect();
        for path in &paths {
            std::fs::write(path, path.to_str().unwrap()).unwrap();
        }
        std::fs::remove_file(&paths[70]).unwrap();
        let told = AtomicUsize::new(0);
        let read = read_all(&paths, || {
            told.fetch_add(1, Ordering::Relaxed);
        });
        assert_eq!(told.into_inner(), paths.len());
        for (n, (path, contents)) in paths.iter().zip(read).enumerate() {
            match contents {
                Ok(contents) => assert_eq!(contents.readable(), path.to_str().unwrap()),
                Err(error) => {
                    assert_eq!(n, 70);
                    assert!(error.to_string().contains("No such file"), "{error}");
                }
            }
        }
    }

    #[test]
    fn more_than_a_span_can_name_is_refused() {
        let refused = contents(io::empty(), MOST_BYTES + 1);
        assert!(matches!(refused, Err(ReadError::TooLarge)));
        assert!(contents(io::empty(), 10).is_ok());
    }
}
