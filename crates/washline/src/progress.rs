//! How far a long run has come, for somebody who waits.

use std::io::{self, IsTerminal, Write};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Condvar, Mutex, OnceLock, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// From how many books on a run may be long.
const MANY: usize = 64;
/// Nobody is told before this has passed.
const PATIENCE: Duration = Duration::from_millis(500);
/// How often the count changes.
const PACE: Duration = Duration::from_millis(100);

/// A count on one line of a terminal; elsewhere, and in a short run, nothing. The line is gone
/// when this is dropped.
#[derive(Debug, Default)]
pub(crate) struct Progress {
    shared: Arc<Shared>,
    teller: OnceLock<JoinHandle<()>>,
}

#[derive(Debug, Default)]
struct Shared {
    read: AtomicUsize,
    of: AtomicUsize,
    done: Mutex<bool>,
    wake: Condvar,
}

impl Progress {
    /// So many more books are to be read.
    pub(crate) fn expect(&self, books: usize) {
        let of = self.shared.of.fetch_add(books, Ordering::Relaxed) + books;
        if of > MANY && io::stderr().is_terminal() {
            let shared = Arc::clone(&self.shared);
            self.teller.get_or_init(|| thread::spawn(move || shared.tell()));
        }
    }

    /// One more book was read.
    pub(crate) fn read(&self) {
        self.shared.read.fetch_add(1, Ordering::Relaxed);
    }
}

impl Shared {
    fn tell(&self) {
        if self.ends_within(PATIENCE) {
            return;
        }
        loop {
            let (read, of) = (self.read.load(Ordering::Relaxed), self.of.load(Ordering::Relaxed));
            let words = if read < of { "books read" } else { "books read, checking" };
            // The cursor waits at the line's start, so that whatever comes next writes over it.
            let _ = write!(io::stderr(), "{read} of {of} {words}\r");
            if self.ends_within(PACE) {
                let _ = write!(io::stderr(), "\x1b[2K\r");
                return;
            }
        }
    }

    fn ends_within(&self, time: Duration) -> bool {
        let done = self.done.lock().unwrap_or_else(PoisonError::into_inner);
        let waited = self.wake.wait_timeout_while(done, time, |done| !*done);
        *waited.unwrap_or_else(PoisonError::into_inner).0
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        *self.shared.done.lock().unwrap_or_else(PoisonError::into_inner) = true;
        self.shared.wake.notify_all();
        if let Some(teller) = self.teller.take() {
            let _ = teller.join();
        }
    }
}
