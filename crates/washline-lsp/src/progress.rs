//! How far the first reading of all files has come, told to a client that shows it.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use tokio::runtime::Handle;
use tokio::time::timeout;
use tower_lsp::lsp_types::notification::Progress as ProgressNotification;
use tower_lsp::lsp_types::request::WorkDoneProgressCreate;
use tower_lsp::lsp_types::{
    NumberOrString, ProgressParams, ProgressParamsValue, WorkDoneProgress, WorkDoneProgressBegin,
    WorkDoneProgressCreateParams, WorkDoneProgressEnd, WorkDoneProgressReport,
};

use crate::library::Scan;
use crate::session::Session;

/// How long a client may take to say that it will show it.
const PATIENCE: Duration = Duration::from_secs(5);
/// How often it is told.
const BEAT: Duration = Duration::from_millis(100);
/// By which name client and server know it.
const TOKEN: &str = "washline/reading";

/// Counts files. Dropped, it is done.
#[derive(Debug)]
pub(crate) struct Progress(Arc<Counts>);

#[derive(Debug, Default)]
struct Counts {
    expected: AtomicUsize,
    read: AtomicUsize,
    done: tokio::sync::Notify,
}

impl Progress {
    /// Starts to count, and to tell where `shown`.
    pub(crate) fn new(session: &Arc<Session>, runtime: &Handle, shown: bool) -> Self {
        let counts = Arc::new(Counts::default());
        if shown {
            runtime.spawn(tell(session.clone(), counts.clone()));
        }
        Self(counts)
    }
}

impl Scan for Progress {
    fn expect(&self, files: usize) {
        self.0.expected.fetch_add(files, Ordering::Relaxed);
    }

    fn read(&self) {
        self.0.read.fetch_add(1, Ordering::Relaxed);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.0.done.notify_one();
    }
}

async fn tell(session: Arc<Session>, counts: Arc<Counts>) {
    let token = NumberOrString::String(TOKEN.to_owned());
    let create = WorkDoneProgressCreateParams { token: token.clone() };
    let created = session.client.send_request::<WorkDoneProgressCreate>(create);
    if !matches!(timeout(PATIENCE, created).await, Ok(Ok(()))) {
        return;
    }
    let say = |what| {
        let value = ProgressParamsValue::WorkDone(what);
        let params = ProgressParams { token: token.clone(), value };
        session.client.send_notification::<ProgressNotification>(params)
    };
    say(WorkDoneProgress::Begin(WorkDoneProgressBegin {
        title: "Reading spec books".to_owned(),
        cancellable: Some(false),
        ..WorkDoneProgressBegin::default()
    }))
    .await;
    while timeout(BEAT, counts.done.notified()).await.is_err() {
        let (read, all) =
            (counts.read.load(Ordering::Relaxed), counts.expected.load(Ordering::Relaxed));
        let percentage = u32::try_from(read * 100 / all.max(1)).ok();
        let message = Some(format!("{read} of {all}"));
        let report = WorkDoneProgressReport { message, percentage, cancellable: Some(false) };
        say(WorkDoneProgress::Report(report)).await;
    }
    let message = Some(format!("{} read", counts.read.load(Ordering::Relaxed)));
    say(WorkDoneProgress::End(WorkDoneProgressEnd { message })).await;
}
