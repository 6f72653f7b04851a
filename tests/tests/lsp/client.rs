//! A client: over a pipe to a server in this process, or to the command.
//!
//! It never sleeps: it waits for what the server is to say. What never comes fails the test.

use std::collections::VecDeque;
use std::io::{BufRead, BufReader, PipeWriter, Read, Write, pipe};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

/// How long the slowest machine may take.
const PATIENCE: Duration = Duration::from_secs(120);

/// A client and what it was told.
pub struct Client {
    to: Option<Box<dyn Write + Send>>,
    from: Receiver<(Instant, Value)>,
    /// When the last message that was waited for had come, not yet looked into.
    pub heard: Instant,
    /// What came while something else was waited for.
    kept: VecDeque<Value>,
    ended: Option<Receiver<u8>>,
    next: i64,
    /// What the server can do.
    pub can: Value,
}

impl Client {
    /// A client of a server in this process.
    pub fn within() -> Self {
        let (input, to): (_, PipeWriter) = pipe().unwrap();
        let (from, output) = pipe().unwrap();
        let (end, ended) = channel();
        thread::spawn(move || {
            let _ = end.send(washline_lsp::serve(input, output));
        });
        Self::of(to, from, Some(ended))
    }

    /// A client over the pipes of a process.
    pub fn of(
        to: impl Write + Send + 'static,
        from: impl Read + Send + 'static,
        ended: Option<Receiver<u8>>,
    ) -> Self {
        let (told, listened) = channel();
        thread::spawn(move || listen(from, &told));
        Self {
            to: Some(Box::new(to)),
            from: listened,
            heard: Instant::now(),
            kept: VecDeque::new(),
            ended,
            next: 0,
            can: Value::Null,
        }
    }

    /// A client that has said who it is and what it can do.
    pub fn begun(capabilities: Value, folders: &[String]) -> Self {
        let mut client = Self::within();
        client.begin(capabilities, folders);
        client
    }

    /// Says who it is and what it can do.
    pub fn begin(&mut self, capabilities: Value, folders: &[String]) {
        let folders: Vec<Value> =
            folders.iter().map(|uri| json!({"uri": uri, "name": "house"})).collect();
        let params = json!({
            "processId": std::process::id(), "rootUri": null, "workspaceFolders": folders,
            "capabilities": capabilities,
        });
        self.can = self.ask("initialize", params)["result"]["capabilities"].clone();
        self.tell("initialized", json!({}));
    }

    /// Sends bytes as they are.
    pub fn send(&mut self, bytes: &[u8]) {
        let to = self.to.as_mut().expect("the pipe is open");
        to.write_all(bytes).unwrap();
        to.flush().unwrap();
    }

    /// Sends a request; its id.
    pub fn post(&mut self, method: &str, params: Value) -> i64 {
        self.next += 1;
        let id = self.next;
        self.send(&frame(&json!({"jsonrpc": "2.0", "id": id, "method": method, "params": params})));
        id
    }

    /// Sends a notification.
    pub fn tell(&mut self, method: &str, params: Value) {
        self.send(&frame(&json!({"jsonrpc": "2.0", "method": method, "params": params})));
    }

    /// Sends a request and waits for its answer.
    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        let id = self.post(method, params);
        self.answer(id)
    }

    /// The answer to a request.
    pub fn answer(&mut self, id: i64) -> Value {
        self.wait(|m| m["id"] == json!(id) && m.get("method").is_none())
    }

    /// The code of the error that answers no request in particular.
    pub fn complaint(&mut self) -> i64 {
        self.wait(|m| m.get("id") == Some(&Value::Null))["error"]["code"].as_i64().unwrap()
    }

    /// The first message, of those not yet taken, that is `wanted`.
    pub fn wait(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.kept.iter().position(&wanted) {
            return self.kept.remove(at).unwrap();
        }
        loop {
            let (heard, message) = self.from.recv_timeout(PATIENCE).expect("the server says it");
            if wanted(&message) {
                self.heard = heard;
                return message;
            }
            self.kept.push_back(message);
        }
    }

    /// Opens a text.
    pub fn open(&mut self, uri: &str, version: i32, text: &str) {
        let one = json!({"uri": uri, "languageId": "pour", "version": version, "text": text});
        self.tell("textDocument/didOpen", json!({"textDocument": one}));
    }

    /// Changes a text.
    pub fn change(&mut self, uri: &str, version: i32, changes: Value) {
        let one = json!({"uri": uri, "version": version});
        self.tell(
            "textDocument/didChange",
            json!({"textDocument": one, "contentChanges": changes}),
        );
    }

    /// The diagnostics of a version of a text, once they are published.
    pub fn published(&mut self, uri: &str, version: i32) -> Vec<Value> {
        let told = self.wait(|m| {
            m["method"] == "textDocument/publishDiagnostics"
                && m["params"]["uri"] == uri
                && m["params"]["version"] == json!(version)
        });
        told["params"]["diagnostics"].as_array().unwrap().clone()
    }

    /// How many messages of a method have come and were not taken.
    pub fn count(&self, method: &str) -> usize {
        self.kept.iter().filter(|m| m["method"] == method).count()
    }

    /// Closes the pipe to the server.
    pub fn hang_up(&mut self) {
        self.to = None;
    }

    /// The status that the server ends with.
    pub fn status(&mut self) -> u8 {
        self.ended.take().unwrap().recv_timeout(PATIENCE).expect("the server ends")
    }
}

/// A message as a frame.
pub fn frame(message: &Value) -> Vec<u8> {
    framed(&serde_json::to_vec(message).unwrap())
}

/// A body as a frame.
pub fn framed(body: &[u8]) -> Vec<u8> {
    let mut frame = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
    frame.extend_from_slice(body);
    frame
}

/// The rules that a list of diagnostics names.
pub fn rules(diagnostics: &[Value]) -> Vec<&str> {
    diagnostics.iter().filter_map(|one| one["code"].as_str()).collect()
}

fn listen(from: impl Read, told: &Sender<(Instant, Value)>) {
    let mut from = BufReader::new(from);
    loop {
        let mut length = 0;
        loop {
            let mut line = String::new();
            if from.read_line(&mut line).unwrap_or(0) == 0 {
                return;
            }
            match line.trim_end().split_once(": ") {
                Some(("Content-Length", digits)) => length = digits.parse().unwrap(),
                Some(_) => {}
                None => break,
            }
        }
        let mut body = vec![0; length];
        if from.read_exact(&mut body).is_err() {
            return;
        }
        let heard = Instant::now();
        let message = serde_json::from_slice(&body).expect("the server writes JSON");
        let _ = told.send((heard, message));
    }
}
