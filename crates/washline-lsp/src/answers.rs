//! What an editor asks, put into the protocol's words.

pub(crate) mod actions;
pub(crate) mod calls;
pub(crate) mod completion;
pub(crate) mod findings;
pub(crate) mod layout;
pub(crate) mod names;
pub(crate) mod notes;
pub(crate) mod outline;
pub(crate) mod standards;
pub(crate) mod tokens;
