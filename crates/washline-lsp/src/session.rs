//! What handlers, answers and the publisher share.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, OnceLock, PoisonError};

use serde_json::Value;
use tokio::task::spawn_blocking;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::Url;
use washline_editor::Switches;

use crate::desk::{Desk, Sheet};
use crate::edition::Edition;
use crate::library::{Library, Scan, View};
use crate::painted::Painted;
use crate::room::Room;
use crate::switches::switched;
use crate::terms::Terms;

/// One conversation.
#[derive(Debug)]
pub(crate) struct Session {
    /// The way to the client.
    pub client: Client,
    desk: Mutex<Desk>,
    library: Mutex<Library>,
    terms: OnceLock<Terms>,
    switches: Mutex<Switches>,
    /// What the client has of each text's tokens.
    pub painted: Painted,
    bell: Bell,
    begun: AtomicBool,
    shut: AtomicBool,
}

/// Wakes who waits for something to do.
#[derive(Debug, Default)]
struct Bell {
    rung: Mutex<bool>,
    changed: Condvar,
}

/// Nobody is told how far reading has come.
pub(crate) struct Unseen;

impl Scan for Unseen {
    fn expect(&self, _: usize) {}
    fn read(&self) {}
}

impl Session {
    pub(crate) fn new(client: Client) -> Self {
        Self {
            client,
            desk: Mutex::default(),
            library: Mutex::default(),
            terms: OnceLock::new(),
            switches: Mutex::default(),
            painted: Painted::default(),
            bell: Bell::default(),
            begun: AtomicBool::new(false),
            shut: AtomicBool::new(false),
        }
    }

    /// Settles the terms; the first ones hold.
    pub(crate) fn settle(&self, terms: Terms) {
        let _ = self.terms.set(terms);
        lock(&self.desk).terms = self.terms();
    }

    /// What was agreed on.
    pub(crate) fn terms(&self) -> Terms {
        self.terms.get().copied().unwrap_or_default()
    }

    /// Whether the terms are settled and the client has not said that it leaves.
    pub(crate) fn is_open(&self) -> bool {
        self.terms.get().is_some() && !self.shut.load(Ordering::Relaxed)
    }

    /// The client listens.
    pub(crate) fn begin(&self) {
        self.begun.store(true, Ordering::Relaxed);
    }

    /// Whether the client listens: what is asked of it before, it may refuse.
    pub(crate) fn is_begun(&self) -> bool {
        self.begun.load(Ordering::Relaxed)
    }

    /// The client leaves.
    pub(crate) fn shut(&self) {
        self.shut.store(true, Ordering::Relaxed);
    }

    /// What the reader wants to see between the lines.
    pub(crate) fn switches(&self) -> Switches {
        *lock(&self.switches)
    }

    /// Takes in a client's settings; whether that changed anything.
    pub(crate) fn switch(&self, settings: &Value) -> bool {
        let mut switches = lock(&self.switches);
        let before = *switches;
        *switches = switched(before, settings);
        *switches != before
    }

    /// What the client has told so far.
    pub(crate) fn desk(&self) -> Desk {
        lock(&self.desk).clone()
    }

    /// Moves with all that the client tells.
    pub(crate) fn stamp(&self) -> u64 {
        lock(&self.desk).stamp
    }

    /// Takes in what the client tells.
    pub(crate) fn tell(&self, told: impl FnOnce(&mut Desk)) {
        told(&mut lock(&self.desk));
    }

    /// The workspaces, level with `desk`.
    pub(crate) fn library(&self, desk: &Desk, scan: &dyn Scan) -> MutexGuard<'_, Library> {
        let mut library = lock(&self.library);
        library.follow(desk, scan);
        library
    }

    /// Everything that was sent is taken in: whoever works from it may begin.
    pub(crate) fn ring(&self) {
        *lock(&self.bell.rung) = true;
        self.bell.changed.notify_all();
    }

    /// Waits until there may be something to do.
    pub(crate) fn wait(&self) {
        let mut rung = lock(&self.bell.rung);
        while !*rung {
            rung = self.bell.changed.wait(rung).unwrap_or_else(PoisonError::into_inner);
        }
        *rung = false;
    }

    /// Answers from all workspaces, one after the other.
    pub(crate) async fn answer_over<T: Send + 'static>(
        self: &Arc<Self>,
        answer: impl Fn(&Edition) -> Vec<T> + Send + 'static,
    ) -> Result<Vec<T>> {
        let desk = self.desk();
        let session = self.clone();
        let work = spawn_blocking(move || {
            let library = session.library(&desk, &Unseen);
            let editions: Vec<Arc<Edition>> = library.rooms().map(Room::edition).collect();
            drop(library);
            editions.iter().flat_map(|edition| answer(edition)).collect()
        });
        work.await.map_err(|_| Error::internal_error())
    }

    /// Answers from one file as the client has it now, off the conversation's own thread; none
    /// where there is no such file. A handler awaits it before anything else.
    pub(crate) async fn answer_in<T: Send + 'static>(
        self: &Arc<Self>,
        url: Url,
        answer: impl FnOnce(&View) -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let desk = self.desk();
        let session = self.clone();
        let work = spawn_blocking(move || {
            // The lock is not held while the answer is made.
            let view = session.library(&desk, &Unseen).view(&url);
            let Some(view) = view else { return Ok(None) };
            is_current(&view, &url, &desk)?;
            Ok(Some(answer(&view)))
        });
        work.await.unwrap_or_else(|_| Err(Error::internal_error()))
    }

    /// Answers from a file of standards that the client holds open, off the conversation's own
    /// thread; none where `url` is no such file.
    pub(crate) async fn answer_in_standards<T: Send + 'static>(
        &self,
        url: &Url,
        answer: impl FnOnce(&Sheet) -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let sheet = self.desk().open.get(url).filter(|sheet| sheet.is_standards()).cloned();
        let Some(sheet) = sheet else { return Ok(None) };
        spawn_blocking(move || Some(answer(&sheet))).await.map_err(|_| Error::internal_error())
    }
}

/// Where the text went on since the client asked, what it asked for stands elsewhere now.
fn is_current(view: &View, url: &Url, desk: &Desk) -> Result<()> {
    let Some(sheet) = desk.open.get(url) else { return Ok(()) };
    let text = view.edition.workspace().file(view.file).map_or("", |file| file.document.text());
    match *text == *sheet.page.text {
        true => Ok(()),
        false => Err(Error::content_modified()),
    }
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
