//! How far a long read has come, for somebody who waits.

use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Nobody is told before this has passed.
const PATIENCE: Duration = Duration::from_millis(500);
/// How often the count changes.
const PACE: Duration = Duration::from_millis(100);

/// A count on one line of a terminal; elsewhere nothing.
#[derive(Debug)]
pub(crate) struct Progress {
    state: Option<Mutex<State>>,
}

#[derive(Debug)]
struct State {
    next: Instant,
    read: usize,
    shown: bool,
}

impl Progress {
    pub(crate) fn new() -> Self {
        let state = State { next: Instant::now() + PATIENCE, read: 0, shown: false };
        let looking = io::stderr().is_terminal();
        Self { state: looking.then(|| Mutex::new(state)) }
    }

    /// One more book was read.
    pub(crate) fn read(&self) {
        let Some(Ok(mut state)) = self.state.as_ref().map(Mutex::lock) else { return };
        state.read += 1;
        let now = Instant::now();
        if now >= state.next {
            state.next = now + PACE;
            state.shown = true;
            let _ = write!(io::stderr(), "\r{} books read", state.read);
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(Ok(state)) = self.state.as_ref().map(Mutex::lock)
            && state.shown
        {
            let _ = write!(io::stderr(), "\r\x1b[2K");
        }
    }
}
