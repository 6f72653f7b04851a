//! The publisher: a thread of its own that finds out what is wrong and tells the client.
//!
//! The newest text wins: what it works on is thrown away as soon as there is something newer,
//! and nothing is told of a text that the client no longer has. There is no timer: it begins
//! when everything that was sent is taken in.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError, Weak};

use serde::Serialize;
use tokio::runtime::Handle;
use tower_lsp::lsp_types::notification::{Notification as _, PublishDiagnostics};
use tower_lsp::lsp_types::{Diagnostic, Url};

use crate::beyond::Beyond;
use crate::desk::Desk;
use crate::diagnostics::{Written, diagnostics, print, trouble};
use crate::edition::Edition;
use crate::held::Held;
use crate::library::View;
use crate::outbox::Outbox;
use crate::progress::Progress;
use crate::session::{Session, Unseen};
use crate::survey::Survey;
use crate::wishes;

/// What the client was told, or has asked for, of each file: the version and the print of the
/// findings.
#[derive(Debug, Default)]
pub(crate) struct Told(Mutex<BTreeMap<Url, (i32, u64)>>);

impl Told {
    /// The client has it now.
    pub(crate) fn tell(&self, url: &Url, version: i32, print: u64) {
        self.lock().insert(url.clone(), (version, print));
    }

    fn get(&self, url: &Url) -> Option<(i32, u64)> {
        self.lock().get(url).copied()
    }

    /// Forgets what is closed, and says which that was.
    fn forget(&self, desk: &Desk) -> Vec<Url> {
        let mut told = self.lock();
        let closed: Vec<Url> =
            told.keys().filter(|url| !desk.open.contains_key(*url)).cloned().collect();
        told.retain(|url, _| desk.open.contains_key(url));
        closed
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, BTreeMap<Url, (i32, u64)>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// What is wrong in files of standards.
type Standards = BTreeMap<Url, Vec<Diagnostic>>;

/// A file that is open.
struct Open {
    url: Url,
    version: i32,
    view: View,
}

/// What a file's diagnostics are told in. It goes to the client as it is: the library would make
/// a tree of values of it first, which takes longer than finding what is wrong.
#[derive(Serialize)]
struct Notification<'a> {
    jsonrpc: &'static str,
    method: &'static str,
    params: Params<'a>,
}

#[derive(Serialize)]
struct Params<'a> {
    uri: &'a Url,
    #[serde(skip_serializing_if = "Option::is_none")]
    version: Option<i32>,
    diagnostics: Vec<Written>,
}

/// Publishes for as long as the process lives.
pub(crate) fn run(
    session: &Arc<Session>,
    told: &Told,
    held: &Held,
    outbox: &Outbox,
    runtime: &Handle,
) {
    let standards = BTreeMap::new();
    let (beyond, shown) = (Beyond::default(), Vec::new());
    let mut publisher =
        Publisher { session, told, held, outbox, runtime, level: 0, standards, beyond, shown };
    loop {
        session.wait();
        if !session.is_begun() {
            continue;
        }
        // One text that can't be worked on must not keep the next from it.
        let _ = catch_unwind(AssertUnwindSafe(|| publisher.round()));
    }
}

struct Publisher<'a> {
    session: &'a Arc<Session>,
    told: &'a Told,
    held: &'a Held,
    outbox: &'a Outbox,
    runtime: &'a Handle,
    /// The stamp of the desk that the client was told of.
    level: u64,
    /// What was last told of files of standards.
    standards: Standards,
    /// The standards that lie where nothing else is watched.
    beyond: Beyond,
    /// The workspaces that the client last asked all of.
    shown: Vec<Weak<Edition>>,
}

impl Publisher<'_> {
    fn round(&mut self) {
        loop {
            let desk = self.session.desk();
            if desk.stamp == self.level {
                match self.tell_who_waits(&desk) {
                    true => return,
                    false => continue,
                }
            }
            let first = self.level == 0;
            let (views, standards) = self.read(&desk, first);
            if desk.arranged > self.level {
                self.have_all_anew(&desk);
            }
            self.level = desk.stamp;
            self.tell_standards(standards);
            self.tell(&desk, &views);
        }
    }

    /// The open files, and what is wrong in standards.
    fn read(&self, desk: &Desk, first: bool) -> (Vec<Open>, Standards) {
        let terms = self.session.terms();
        let progress = Progress::new(self.session, self.runtime, first && terms.progress);
        let library = self.session.library(desk, &progress);
        let views = desk.open.iter().filter_map(|(url, sheet)| {
            let (url, version) = (url.clone(), sheet.version);
            let view = library.view(&url)?;
            Some(Open { url, version, view })
        });
        let views = views.collect();
        let mut standards = Standards::new();
        for one in library.rooms().flat_map(|room| &room.troubles) {
            let open = desk.open.iter().find(|(_, sheet)| sheet.path.as_ref() == Some(&one.path));
            let url =
                open.map(|(url, _)| url.clone()).or_else(|| Url::from_file_path(&one.path).ok());
            let told = standards.entry(match url {
                Some(url) => url,
                None => continue,
            });
            let diagnostic = trouble(one, terms.columns);
            let told = told.or_default();
            if !told.contains(&diagnostic) {
                told.push(diagnostic);
            }
        }
        (views, standards)
    }

    /// Has the client ask anew where files came, went or changed behind its texts, and watch the
    /// standards that hold now.
    fn have_all_anew(&mut self, desk: &Desk) {
        let library = self.session.library(desk, &Unseen);
        let editions: Vec<Weak<Edition>> =
            library.rooms().map(|room| Arc::downgrade(&room.edition())).collect();
        let standards: Vec<PathBuf> =
            library.rooms().flat_map(|room| room.standards.clone()).collect();
        drop(library);
        if self.session.terms().watches_beyond {
            self.beyond.watch(standards.into_iter(), desk, self.session, self.runtime);
        }
        let same = editions.len() == self.shown.len()
            && editions.iter().zip(&self.shown).all(|(now, then)| now.ptr_eq(then));
        if !(same || self.level == 0) {
            self.runtime.spawn(wishes::all_anew(self.session.clone()));
        }
        self.shown = editions;
    }

    /// Tells what is wrong in standards: pushed to every client, since none asks for it.
    fn tell_standards(&mut self, standards: Standards) {
        for url in self.standards.keys().filter(|url| !standards.contains_key(*url)) {
            self.publish(url, Vec::new(), None);
        }
        for (url, diagnostics) in &standards {
            if self.standards.get(url) != Some(diagnostics) {
                let diagnostics = diagnostics.iter().cloned().map(Written::from).collect();
                self.publish(url, diagnostics, None);
            }
        }
        self.standards = standards;
    }

    fn tell(&self, desk: &Desk, views: &[Open]) {
        let terms = self.session.terms();
        for url in self.told.forget(desk) {
            if !terms.pulls {
                self.publish(&url, Vec::new(), None);
            }
        }
        let mut ask_again = false;
        for Open { url, version, view } in views {
            if !self.is_newest(url, *version) {
                continue;
            }
            let print = print(view);
            let known = self.told.get(url);
            if terms.pulls {
                // A client asks by itself for what it changed.
                ask_again |= known.is_some_and(|(v, p)| v == *version && p != print);
                continue;
            }
            if known == Some((*version, print)) {
                continue;
            }
            let diagnostics = diagnostics(view);
            if self.is_newest(url, *version) {
                self.told.tell(url, *version, print);
                self.publish(url, diagnostics, Some(*version));
            }
        }
        if ask_again && terms.refreshes_diagnostics {
            let client = self.session.client.clone();
            self.runtime.spawn(async move { client.workspace_diagnostic_refresh().await });
        }
    }

    /// Tells who waits for news of any file; false where the client goes on meanwhile.
    fn tell_who_waits(&self, desk: &Desk) -> bool {
        if !self.held.is_wanted(desk.stamp) {
            return true;
        }
        // The lock is not held while the files are looked through.
        let files = self.session.library(desk, &Unseen).files(desk);
        let survey = Survey::of(files, desk, || self.session.stamp() == desk.stamp);
        survey.map(|survey| self.held.answer(&survey, desk.stamp)).is_some()
    }

    /// Whether the client still has that version.
    fn is_newest(&self, url: &Url, version: i32) -> bool {
        self.session.desk().open.get(url).is_some_and(|sheet| sheet.version == version)
    }

    fn publish(&self, uri: &Url, diagnostics: Vec<Written>, version: Option<i32>) {
        self.outbox.send(&Notification {
            jsonrpc: "2.0",
            method: PublishDiagnostics::METHOD,
            params: Params { uri, version, diagnostics },
        });
    }
}
