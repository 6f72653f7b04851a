//! Answers over a whole text, which may be long.
//!
//! They are written as they are made, off the conversation's own thread: the library would make
//! a tree of values of each first, which takes longer than the answer.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use futures::future::{AbortHandle, Abortable, BoxFuture};
use futures::{FutureExt, TryFutureExt};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::value::{RawValue, to_raw_value};
use tower_lsp::jsonrpc::{Error, Id, Request as Call, Response, Result};
use tower_lsp::lsp_types::notification::{Cancel, Notification};
use tower_lsp::lsp_types::request::*;
use tower_lsp::lsp_types::*;

use crate::answers::findings::{self, Found};
use crate::answers::{completion, layout, notes, outline};
use crate::diagnostics::{print, result_id};
use crate::held::Held;
use crate::library::View;
use crate::outbox::Outbox;
use crate::painted::paint;
use crate::publisher::Told;
use crate::session::Session;

/// Answers over whole texts.
#[derive(Debug)]
pub(crate) struct Long {
    session: Arc<Session>,
    held: Arc<Held>,
    told: Arc<Told>,
    outbox: Outbox,
    /// What is in the making, to be given up when the client asks for that.
    at_work: Arc<Mutex<HashMap<Id, AbortHandle>>>,
}

/// An answer as it is written.
#[derive(Serialize)]
struct Written<'a> {
    jsonrpc: &'static str,
    id: &'a Id,
    result: Option<Box<RawValue>>,
}

/// A question about a file.
struct Question {
    url: Url,
    make: Make,
    /// What is answered where there is no such file.
    nothing: Option<Box<RawValue>>,
    /// What is answered where the answer failed.
    failed: fn(Error) -> Error,
}

/// Makes an answer of a file.
type Make = Box<dyn FnOnce(&View) -> Option<Box<RawValue>> + Send>;

#[derive(Deserialize)]
struct Cancelled {
    id: Id,
}

impl Long {
    pub(crate) fn new(
        session: Arc<Session>,
        held: Arc<Held>,
        told: Arc<Told>,
        outbox: Outbox,
    ) -> Self {
        Self { session, held, told, outbox, at_work: Arc::default() }
    }

    /// The way to the answer of a question over a whole text that can be understood; it sends
    /// the answer itself. `None` of all else.
    pub(crate) fn begin(&self, call: &Call) -> Option<BoxFuture<'static, ()>> {
        if call.method() == Cancel::METHOD {
            self.cancel(call);
            return None;
        }
        let id = call.id().filter(|_| self.session.is_open())?.clone();
        let Question { url, make, nothing, failed } = self.question(call)?;
        let (handle, registration) = AbortHandle::new_pair();
        lock(&self.at_work).insert(id.clone(), handle);
        let (session, outbox, at_work) =
            (self.session.clone(), self.outbox.clone(), self.at_work.clone());
        let answer = async move { session.answer_in(url, make).await };
        let answer = Abortable::new(answer, registration);
        let answer = answer.unwrap_or_else(|_| Err(Error::request_cancelled()));
        Some(
            answer
                .map(move |answer| {
                    lock(&at_work).remove(&id);
                    let answer = answer.map(|made| made.unwrap_or(nothing));
                    send(&outbox, id, answer.map_err(failed));
                })
                .boxed(),
        )
    }

    /// Gives up what the client no longer wants.
    fn cancel(&self, call: &Call) {
        let asked = call.params().and_then(|params| Cancelled::deserialize(params).ok());
        let Some(Cancelled { id }) = asked.filter(|asked| !self.held.cancel(&asked.id)) else {
            return;
        };
        if let Some(handle) = lock(&self.at_work).remove(&id) {
            handle.abort();
        }
    }

    fn question(&self, call: &Call) -> Option<Question> {
        let switches = self.session.switches();
        Some(match call.method() {
            SemanticTokensFullRequest::METHOD => {
                let SemanticTokensParams { text_document: of, .. } = params(call)?;
                let (session, url) = (self.session.clone(), of.uri.clone());
                make(of.uri, move |view| paint(&session, view, &url, None).whole())
            }
            DocumentSymbolRequest::METHOD => {
                let DocumentSymbolParams { text_document: of, .. } = params(call)?;
                make(of.uri, outline::outline)
            }
            FoldingRangeRequest::METHOD => {
                let FoldingRangeParams { text_document: of, .. } = params(call)?;
                make(of.uri, outline::folds)
            }
            InlayHintRequest::METHOD => {
                let InlayHintParams { text_document: of, range, .. } = params(call)?;
                make(of.uri, move |view| notes::hints(view, range, switches))
            }
            CodeLensRequest::METHOD => {
                let CodeLensParams { text_document: of, .. } = params(call)?;
                make(of.uri, move |view| notes::lenses(view, switches))
            }
            Formatting::METHOD => {
                let DocumentFormattingParams { text_document: of, .. } = params(call)?;
                make(of.uri, layout::whole)
            }
            Completion::METHOD => {
                let CompletionParams { text_document_position: of, .. } = params(call)?;
                make(of.text_document.uri, move |view| completion::completion(view, of.position))
            }
            DocumentDiagnosticRequest::METHOD => self.diagnostics(params(call)?),
            _ => return None,
        })
    }

    fn diagnostics(&self, params: DocumentDiagnosticParams) -> Question {
        let DocumentDiagnosticParams { text_document: of, previous_result_id: known, .. } = params;
        let (told, url) = (self.told.clone(), of.uri.clone());
        let version = self.session.desk().open.get(&url).map(|sheet| sheet.version);
        let question = make(of.uri, move |view| {
            let print = print(view);
            if let Some(version) = version {
                told.tell(&url, version, print);
            }
            Found::of(view, result_id(print), known.as_deref())
        });
        let nothing = to_raw_value(&Found::NOTHING).ok();
        Question { nothing, failed: findings::ask_again, ..question }
    }
}

fn make<T: Serialize>(url: Url, answer: impl FnOnce(&View) -> T + Send + 'static) -> Question {
    let make: Make = Box::new(|view| to_raw_value(&answer(view)).ok());
    Question { url, make, nothing: None, failed: |error| error }
}

fn params<P: DeserializeOwned>(call: &Call) -> Option<P> {
    P::deserialize(call.params()?).ok()
}

fn send(outbox: &Outbox, id: Id, answer: Result<Option<Box<RawValue>>>) {
    match answer {
        Ok(result) => outbox.send(&Written { jsonrpc: "2.0", id: &id, result }),
        Err(error) => outbox.send(&Response::from_error(id, error)),
    }
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
