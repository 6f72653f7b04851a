//! Files: which ones lie below a path, what they hold, and writing them whole or not at all.
//!
//! Nothing here knows the notation. Paths go in and come out absolute; [`shown`] is how
//! outputs name them.

mod contents;
mod paths;
mod read;
mod root;
mod walk;
mod write;

pub use contents::{Contents, NotUtf8, Wide};
pub use paths::{absolute, relative, shown};
pub use read::{MOST_BYTES, ReadError, read, read_all};
pub use root::{SETTINGS, settings_folder};
pub use walk::{EXTENSION, Walk, Walked, walk};
pub use write::{WriteError, Written, put, replace};
