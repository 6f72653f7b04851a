//! The guard: stands between the client's bytes and the library, on a thread of its own.
//!
//! It reads frames, mends or answers what the library would stumble over, and says when the
//! conversation is over. Nothing that a client sends ends it but `exit` and the end of the
//! stream.

use std::io::{self, Read};

use tokio::sync::mpsc::Sender;
use tower_lsp::jsonrpc::{Request, Response};

use crate::frames::{Frame, Frames};
use crate::message::{Message, messages, unreadable};
use crate::outbox::Outbox;

/// What the guard lets through.
#[derive(Debug)]
pub(crate) enum Inbound {
    /// A request or a notification.
    Call(Request),
    /// The answer to a request of ours.
    Reply(Response),
    /// Everything that was sent so far is through.
    Idle,
}

/// How a client left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Left {
    /// Whether it asked to shut down before.
    pub shut_down: bool,
}

/// Reads until the client leaves. `client` is told the id of the client's process.
pub(crate) fn stand(
    input: impl Read,
    inbox: &Sender<Inbound>,
    outbox: &Outbox,
    client: impl Fn(u32),
) -> Left {
    let mut frames = Frames::new(Telling { from: input, inbox });
    let mut left = Left { shut_down: false };
    let mut initialized = false;
    while let Ok(Some(frame)) = frames.next() {
        let body = match frame {
            Frame::Body(body) => body,
            Frame::Bad(why) => {
                outbox.send(&unreadable(why));
                continue;
            }
        };
        let Some(messages) = messages(&body) else {
            outbox.send(&unreadable("the message is no JSON"));
            frames.reconsider(&body);
            continue;
        };
        for message in messages {
            let inbound = match message {
                Message::Refused(answer) => {
                    outbox.send(&answer);
                    continue;
                }
                Message::Reply(reply) => Inbound::Reply(reply),
                Message::Call(call) => {
                    match call.method() {
                        "exit" => return left,
                        "initialize" => {
                            initialized = true;
                            process(&call).into_iter().for_each(&client);
                        }
                        "shutdown" => left.shut_down |= initialized && call.id().is_some(),
                        _ => {}
                    }
                    Inbound::Call(call)
                }
            };
            if inbox.blocking_send(inbound).is_err() {
                return left;
            }
        }
    }
    left
}

/// The client's process, as `initialize` names it.
fn process(call: &Request) -> Option<u32> {
    u32::try_from(call.params()?.get("processId")?.as_u64()?).ok()
}

/// A stream that says when it has nothing more at hand.
struct Telling<'a, R> {
    from: R,
    inbox: &'a Sender<Inbound>,
}

impl<R: Read> Read for Telling<'_, R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let _ = self.inbox.blocking_send(Inbound::Idle);
        self.from.read(buffer)
    }
}
