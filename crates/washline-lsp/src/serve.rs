//! One conversation from its first byte to its end, whichever way it ends.

use std::io::{Read, Write};
use std::sync::Mutex;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

use crate::conversation::converse;
use crate::guard::{Left, stand};
use crate::outbox::Outbox;
use crate::process::Process;

/// How often the client's process is looked after.
const BEAT: Duration = Duration::from_secs(1);
/// As good as never.
const FOREVER: Duration = Duration::from_secs(3_600);
/// How long what was asked before the end may still take.
const GRACE: Duration = Duration::from_millis(400);
/// How many messages may wait: the client's pipe holds the rest.
const WAITING: usize = 16;

/// The conversation ended without the client having asked for it.
const CUT_OFF: u8 = 1;
/// A thread that everything hangs on broke.
const BROKEN: u8 = 101;

/// What ends a conversation, or tells who to look after.
enum Event {
    /// The client's process, where it was seen to live.
    Client(Option<Process>),
    /// The client left.
    Left(Left),
    /// All that was asked is answered.
    Answered,
    /// All that was said is written, or nobody reads it.
    Written,
    /// Something broke.
    Broke,
}

/// Serves one client until it leaves; the status that the process ends with: 0 after
/// `shutdown`, 1 without.
///
/// What is still at work when it returns goes with the process.
#[must_use]
pub fn serve(input: impl Read + Send + 'static, output: impl Write + Send + 'static) -> u8 {
    let (events, happened) = channel();
    let outbox = Outbox::default();
    let (inbox, messages) = tokio::sync::mpsc::channel(WAITING);
    {
        let outbox = outbox.clone();
        start(events.clone(), move |_| {
            let _ = outbox.write_to(output);
            Event::Written
        });
    }
    {
        let outbox = outbox.clone();
        start(events.clone(), move |events| {
            let events = Mutex::new(events.clone());
            // Looked at before the client gets its answer: one that dies right behind it was seen.
            let client = |id| {
                let process = Process::living(id);
                let _ = events.lock().map(|events| events.send(Event::Client(process)));
            };
            Event::Left(stand(input, &inbox, &outbox, client))
        });
    }
    start(events, move |_| match converse(messages, &outbox) {
        Ok(()) => {
            outbox.close();
            Event::Answered
        }
        Err(_) => Event::Broke,
    });
    end(&happened)
}

/// Starts a thread that says how it ended.
fn start(events: Sender<Event>, work: impl FnOnce(&Sender<Event>) -> Event + Send + 'static) {
    thread::spawn(move || {
        let work = std::panic::AssertUnwindSafe(|| work(&events));
        let event = std::panic::catch_unwind(work).unwrap_or(Event::Broke);
        let _ = events.send(event);
    });
}

/// Waits for the end.
fn end(happened: &Receiver<Event>) -> u8 {
    let mut client: Option<Process> = None;
    let mut written = false;
    loop {
        // Nobody reads what is said: the client is gone, or about to say that it goes.
        let patience = match (written, client) {
            (true, _) => GRACE,
            (false, Some(_)) => BEAT,
            (false, None) => FOREVER,
        };
        match happened.recv_timeout(patience) {
            Ok(Event::Client(process)) => client = process,
            Ok(Event::Left(left)) => {
                if !written {
                    drain(happened);
                }
                return if left.shut_down { 0 } else { CUT_OFF };
            }
            Ok(Event::Answered) => {}
            Ok(Event::Written) => written = true,
            Ok(Event::Broke) | Err(RecvTimeoutError::Disconnected) => return BROKEN,
            Err(RecvTimeoutError::Timeout) if written => return CUT_OFF,
            Err(RecvTimeoutError::Timeout) => {
                if client.is_some_and(|client| !client.lives()) {
                    return CUT_OFF;
                }
            }
        }
    }
}

/// Lets what was asked be answered and written.
fn drain(happened: &Receiver<Event>) {
    let until = Instant::now() + GRACE;
    while let Ok(event) = happened.recv_timeout(until.saturating_duration_since(Instant::now())) {
        if matches!(event, Event::Written | Event::Broke) {
            return;
        }
    }
}
