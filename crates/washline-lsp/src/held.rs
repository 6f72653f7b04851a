//! Questions for what is wrong in all files, held until there is something that the client has not.
//!
//! A question is a line in a list: nothing runs for its sake. The publisher looks through the list
//! when it has looked through the files.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use serde::{Deserialize, Serialize};
use tower_lsp::jsonrpc::{Error, Id, Request as Call, Response};
use tower_lsp::lsp_types::request::{Request, Shutdown, WorkspaceDiagnosticRequest};
use tower_lsp::lsp_types::{Url, WorkspaceDiagnosticParams};

use crate::outbox::Outbox;
use crate::session::Session;
use crate::survey::{Known, Report, Survey};

/// How many may be held; a client needs one. The oldest of more is told that there is no news.
const MOST: usize = 16;

/// The questions that are held.
#[derive(Debug)]
pub(crate) struct Held {
    session: Arc<Session>,
    outbox: Outbox,
    questions: Mutex<Vec<Question>>,
}

/// A client that waits for news.
#[derive(Debug)]
struct Question {
    id: Id,
    known: Known,
    /// The stamp of the desk at which there was none.
    level: Option<u64>,
}

/// An answer as it is written.
#[derive(Serialize)]
struct Answer<'a> {
    jsonrpc: &'static str,
    id: &'a Id,
    result: Report,
}

impl Held {
    pub(crate) fn new(session: Arc<Session>, outbox: Outbox) -> Self {
        Self { session, outbox, questions: Mutex::default() }
    }

    /// Takes in a question that can be understood; false of all else. Nothing is held beyond the
    /// client's leave.
    pub(crate) fn take(&self, call: &Call) -> bool {
        match call.method() {
            WorkspaceDiagnosticRequest::METHOD => self.ask(call).is_some(),
            Shutdown::METHOD => {
                self.lock().drain(..).for_each(|question| self.no_news(&question));
                false
            }
            _ => false,
        }
    }

    /// Gives up what the client no longer wants; whether that was held.
    pub(crate) fn cancel(&self, id: &Id) -> bool {
        let mut questions = self.lock();
        let Some(at) = questions.iter().position(|question| question.id == *id) else {
            return false;
        };
        let Question { id, .. } = questions.remove(at);
        self.outbox.send(&Response::from_error(id, Error::request_cancelled()));
        true
    }

    /// Whether someone waits for news who has not been looked after at `level`.
    pub(crate) fn is_wanted(&self, level: u64) -> bool {
        self.lock().iter().any(|question| question.level != Some(level))
    }

    /// Answers everyone to whom something in `survey`, made at `level`, is news.
    pub(crate) fn answer(&self, survey: &Survey, level: u64) {
        let mut told = Vec::new();
        self.lock().retain_mut(|question| {
            question.level = Some(level);
            let news = survey.has_news(&question.known);
            if news {
                told.push((question.id.clone(), std::mem::take(&mut question.known)));
            }
            !news
        });
        for (id, known) in told {
            let result = survey.report(&known);
            self.outbox.send(&Answer { jsonrpc: "2.0", id: &id, result });
        }
    }

    fn ask(&self, call: &Call) -> Option<()> {
        let id = call.id().filter(|_| self.session.is_open() && self.session.terms().pulls)?;
        let params = WorkspaceDiagnosticParams::deserialize(call.params()?).ok()?;
        let known: BTreeMap<Url, String> =
            params.previous_result_ids.into_iter().map(|one| (one.uri, one.value)).collect();
        let mut questions = self.lock();
        if questions.len() == MOST {
            self.no_news(&questions.remove(0));
        }
        questions.push(Question { id: id.clone(), known: Known::of(known), level: None });
        Some(())
    }

    fn no_news(&self, question: &Question) {
        let result = Report::default();
        self.outbox.send(&Answer { jsonrpc: "2.0", id: &question.id, result });
    }

    fn lock(&self) -> MutexGuard<'_, Vec<Question>> {
        self.questions.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
