//! Frames to the client, written by a thread of their own.

use std::collections::VecDeque;
use std::io::{self, Write};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

use serde::Serialize;

/// From how many unread bytes on whoever has more to say waits.
const MOST_BYTES: usize = 64 << 20;

/// What waits to be written.
#[derive(Clone, Debug, Default)]
pub(crate) struct Outbox(Arc<Shared>);

#[derive(Debug, Default)]
struct Shared {
    queue: Mutex<Queue>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct Queue {
    frames: VecDeque<Vec<u8>>,
    bytes: usize,
    closed: bool,
}

impl Outbox {
    /// Puts a message in; waits while the client lets too much lie.
    pub(crate) fn send(&self, message: &impl Serialize) {
        let Ok(frame) = frame(message) else { return };
        let mut queue = self.lock();
        while queue.bytes > MOST_BYTES && !queue.closed {
            queue = self.0.changed.wait(queue).unwrap_or_else(PoisonError::into_inner);
        }
        if queue.closed {
            return;
        }
        queue.bytes += frame.len();
        queue.frames.push_back(frame);
        self.0.changed.notify_all();
    }

    /// Takes no more: what is in is still written.
    pub(crate) fn close(&self) {
        self.lock().closed = true;
        self.0.changed.notify_all();
    }

    /// Writes what is put in until the box is closed and empty.
    ///
    /// # Errors
    /// Where nobody reads any more.
    pub(crate) fn write_to(&self, mut to: impl Write) -> io::Result<()> {
        let written = (|| {
            while let Some(frame) = self.take() {
                to.write_all(&frame)?;
                to.flush()?;
            }
            Ok(())
        })();
        self.close();
        written
    }

    fn take(&self) -> Option<Vec<u8>> {
        let mut queue = self.lock();
        loop {
            if let Some(frame) = queue.frames.pop_front() {
                queue.bytes -= frame.len();
                self.0.changed.notify_all();
                return Some(frame);
            }
            if queue.closed {
                return None;
            }
            queue = self.0.changed.wait(queue).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn lock(&self) -> MutexGuard<'_, Queue> {
        self.0.queue.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn frame(message: &impl Serialize) -> serde_json::Result<Vec<u8>> {
    let body = serde_json::to_vec(message)?;
    let mut frame = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
    frame.extend_from_slice(&body);
    Ok(frame)
}
