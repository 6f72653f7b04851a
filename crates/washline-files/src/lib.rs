//! Files: which ones lie below a path, what they hold, writing them whole or not at all, and
//! what they held at a revision.
//!
//! Nothing here reads the notation. Paths go in and come out absolute; [`shown`] is how
//! outputs name them.

mod contents;
pub mod git;
mod paths;
mod read;
mod root;
mod standards;
mod visible;
mod walk;
mod write;

pub use contents::{Contents, NotUtf8, Wide};
pub use paths::{absolute, relative, shown};
pub use read::{MOST_BYTES, ReadError, read, read_all};
pub use root::{SETTINGS, settings_folder};
pub use standards::{NoParent, StandIn, Standards, StandardsFile, Trouble, Wrong, standards};
pub use visible::{IGNORE_FILES, Visible};
pub use walk::{EXTENSION, Excluded, Walk, Walked, walk};
pub use write::{Change, WriteError, Written, put, replace, replace_all};
