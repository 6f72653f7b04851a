//! The language server.
//!
//! This is the only crate that names the protocol. What an editor asks is answered below, as
//! plain data in byte offsets; here it is put into the protocol's words, and the conversation
//! is held: a [`guard`] reads what the client sends, the [`conversation`] takes it in order,
//! answers are made on threads of their own, a [`publisher`] tells what is wrong.

mod answers;
mod beyond;
mod capabilities;
mod conversation;
mod desk;
mod diagnostics;
mod edition;
mod encoding;
mod frames;
mod guard;
mod held;
mod library;
mod long;
mod message;
mod offers;
mod outbox;
mod painted;
mod process;
mod progress;
mod publisher;
mod room;
mod serve;
mod server;
mod session;
mod survey;
mod switches;
mod terms;
mod wishes;

pub use serve::serve;
