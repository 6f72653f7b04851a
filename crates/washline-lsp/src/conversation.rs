//! The conversation: messages are taken in the order in which they came.
//!
//! Each handler is run up to its first pause before the next message is looked at, so that
//! what it changes there is changed in order. What takes longer goes on beside.

use std::future::poll_fn;
use std::io;
use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::task::Poll;
use std::thread;
use std::time::Duration;

use futures::future::BoxFuture;
use futures::{FutureExt, SinkExt, StreamExt};
use tokio::runtime::{Builder, Runtime};
use tokio::sync::Semaphore;
use tokio::sync::mpsc::Receiver;
use tokio::time::timeout;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::{ExitedError, LspService};
use tower_service::Service;

use crate::guard::Inbound;
use crate::held::Held;
use crate::long::Long;
use crate::outbox::Outbox;
use crate::publisher::{self, Told};
use crate::server::Server;
use crate::session::Session;

/// How many answers may be in the making.
const MOST_AT_WORK: u32 = 256;
/// How many threads make them.
const ANSWERERS: usize = 2;
/// How long what is in the making may take once the client has left.
const GRACE: Duration = Duration::from_millis(300);

/// Converses until no more messages come and what they ask is answered.
///
/// # Errors
/// Where the system gives no runtime.
pub(crate) fn converse(messages: Receiver<Inbound>, outbox: &Outbox) -> io::Result<()> {
    let runtime =
        Builder::new_current_thread().enable_time().max_blocking_threads(ANSWERERS).build()?;
    runtime.block_on(talk(messages, outbox, &runtime));
    // Whatever is still at work goes with the process.
    runtime.shutdown_background();
    Ok(())
}

async fn talk(mut messages: Receiver<Inbound>, outbox: &Outbox, runtime: &Runtime) {
    let mut session = None;
    let (mut service, socket) = LspService::build(|client| {
        let own = Arc::new(Session::new(client));
        session = Some(own.clone());
        Server::new(own)
    })
    .custom_method("washline/text", Server::text)
    .finish();
    let Some(session) = session else { return };
    let (mut asked, mut replies) = socket.split();
    let out = outbox.clone();
    runtime.spawn(async move {
        while let Some(request) = asked.next().await {
            out.send(&request);
        }
    });
    let told = Arc::new(Told::default());
    let held = Arc::new(Held::new(session.clone(), outbox.clone()));
    let (publishes, handle, out) = (session.clone(), runtime.handle().clone(), outbox.clone());
    let (waiting, tells) = (held.clone(), told.clone());
    thread::spawn(move || publisher::run(&publishes, &tells, &waiting, &out, &handle));
    let long = Long::new(session.clone(), held.clone(), told, outbox.clone());
    let at_work = Arc::new(Semaphore::new(MOST_AT_WORK as usize));
    while let Some(message) = messages.recv().await {
        match message {
            Inbound::Idle => session.ring(),
            Inbound::Reply(reply) => {
                let _ = replies.send(reply).await;
            }
            Inbound::Call(call) if held.take(&call) => {}
            Inbound::Call(call) => {
                let Ok(permit) = at_work.clone().acquire_owned().await else { return };
                if let Some(mut answer) = long.begin(&call) {
                    // Up to its first pause, in which it copies what the client has told so far.
                    if poll_fn(|context| Poll::Ready(answer.poll_unpin(context))).await.is_pending()
                    {
                        runtime.spawn(async move {
                            answer.await;
                            drop(permit);
                        });
                    }
                    continue;
                }
                let (id, mut answer) = begin(&mut service, call);
                let first = poll_fn(|context| Poll::Ready(answer.poll_unpin(context))).await;
                match first {
                    Poll::Ready(answer) => send(outbox, id, answer),
                    Poll::Pending => {
                        let out = outbox.clone();
                        runtime.spawn(async move {
                            send(&out, id, answer.await);
                            drop(permit);
                        });
                    }
                }
            }
        }
    }
    let _ = timeout(GRACE, at_work.acquire_many(MOST_AT_WORK)).await;
}

/// What a handler comes to, or that it broke.
type Answer = thread::Result<Result<Option<Response>, ExitedError>>;

fn begin(
    service: &mut LspService<Server>,
    call: Request,
) -> (Option<Id>, BoxFuture<'static, Answer>) {
    let id = call.id().cloned();
    (id, AssertUnwindSafe(service.call(call)).catch_unwind().boxed())
}

fn send(outbox: &Outbox, id: Option<Id>, answer: Answer) {
    match (answer, id) {
        (Ok(Ok(Some(response))), _) => outbox.send(&response),
        (Err(_), Some(id)) => outbox.send(&Response::from_error(id, Error::internal_error())),
        _ => {}
    }
}
