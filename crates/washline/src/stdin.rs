//! Standard input as a book.

use std::io::{self, Read};

use washline_files::{Contents, MOST_BYTES};

use crate::failure::{Failure, Failures};

/// What outputs call standard input where it stands in for no file.
pub(crate) const NAME: &str = "<stdin>";

/// All of standard input.
pub(crate) fn read(failures: &mut Failures) -> Option<Contents> {
    let mut bytes = Vec::new();
    let read = io::stdin().lock().take(MOST_BYTES + 1).read_to_end(&mut bytes);
    let refused = match read {
        Err(error) => error.to_string(),
        Ok(_) if bytes.len() as u64 > MOST_BYTES => "it is larger than 4 GiB".to_owned(),
        Ok(_) => return Some(Contents::of(bytes)),
    };
    failures.tell(&Failure::about("standard input", refused));
    None
}
