//! From the bytes of a frame to what the library can be given, or to the answer that they get.

use std::borrow::Cow;

use serde_json::{Map, Value};
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

use crate::offers;

/// A message of the client.
#[derive(Debug)]
pub(crate) enum Message {
    /// A request or a notification.
    Call(Request),
    /// The answer to a request of ours.
    Reply(Response),
    /// What can't be taken: how it is answered.
    Refused(Response),
}

/// The messages of a frame; none where it is no JSON at all.
pub(crate) fn messages(body: &[u8]) -> Option<Vec<Message>> {
    let value: Value = serde_json::from_str(&mended(&String::from_utf8_lossy(body))).ok()?;
    Some(match value {
        Value::Array(batch) if !batch.is_empty() => batch.into_iter().map(message).collect(),
        value => vec![message(value)],
    })
}

/// The answer to what is no JSON or no frame.
pub(crate) fn unreadable(why: impl Into<Cow<'static, str>>) -> Response {
    let mut error = Error::parse_error();
    error.message = why.into();
    Response::from_error(Id::Null, error)
}

fn message(value: Value) -> Message {
    let Value::Object(mut object) = value else { return invalid(Id::Null) };
    object.entry("jsonrpc").or_insert_with(|| Value::from("2.0"));
    let id = object.get("id").and_then(|id| serde_json::from_value::<Id>(id.clone()).ok());
    if !object.contains_key("method") {
        return match serde_json::from_value(Value::Object(object)) {
            Ok(reply) => Message::Reply(reply),
            Err(_) => invalid(id.unwrap_or_default()),
        };
    }
    tidy(&mut object);
    match serde_json::from_value::<Request>(Value::Object(object)) {
        Ok(call) if is_unknown_protocol_request(&call) => Message::Refused(Response::from_error(
            id.unwrap_or_default(),
            Error::method_not_found(),
        )),
        Ok(call) => Message::Call(call),
        Err(_) => invalid(id.unwrap_or_default()),
    }
}

fn invalid(id: Id) -> Message {
    Message::Refused(Response::from_error(id, Error::invalid_request()))
}

/// A request named `$/…` must be answered, be it that nobody knows it; the library keeps silent.
fn is_unknown_protocol_request(call: &Request) -> bool {
    call.id().is_some() && call.method().starts_with("$/")
}

/// Takes out what the library would refuse.
fn tidy(call: &mut Map<String, Value>) {
    let none = call.get("params").is_some_and(Value::is_null);
    let method = call.get("method").and_then(Value::as_str).unwrap_or_default();
    if none || matches!(method, "shutdown" | "exit") {
        call.shift_remove("params");
    } else if method == "initialize"
        && let Some(params) = call.get_mut("params")
    {
        offers::tidy(params);
    }
}

/// `text` with halves of surrogate pairs that stand alone replaced: some clients cut a
/// character in two, and no reader of JSON takes the halves.
fn mended(text: &str) -> Cow<'_, str> {
    let bytes = text.as_bytes();
    let mut out = String::new();
    let mut copied = 0;
    let mut at = 0;
    while let Some(found) = memchr::memchr(b'\\', bytes.get(at..).unwrap_or_default()) {
        at += found;
        match (unit(bytes, at), unit(bytes, at + 6)) {
            (Some(0xd800..=0xdbff), Some(0xdc00..=0xdfff)) => at += 12,
            (Some(0xd800..=0xdfff), _) => {
                out.push_str(text.get(copied..at).unwrap_or_default());
                out.push_str("\\ufffd");
                at += 6;
                copied = at;
            }
            _ => at += 2,
        }
    }
    if copied == 0 {
        return Cow::Borrowed(text);
    }
    out.push_str(text.get(copied..).unwrap_or_default());
    Cow::Owned(out)
}

/// The UTF-16 unit that the escape at `at` stands for.
fn unit(bytes: &[u8], at: usize) -> Option<u16> {
    let digits = bytes.get(at..at + 6)?.strip_prefix(b"\\u")?;
    let digits = std::str::from_utf8(digits).ok().filter(|d| !d.starts_with('+'))?;
    u16::from_str_radix(digits, 16).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(body: &str) -> Vec<String> {
        let Some(messages) = messages(body.as_bytes()) else { return vec!["no JSON".to_owned()] };
        messages
            .into_iter()
            .map(|message| match message {
                Message::Call(call) => format!("call {call}"),
                Message::Reply(reply) => format!("reply {}", reply.id()),
                Message::Refused(answer) => {
                    format!("{} {}", answer.id(), answer.error().unwrap().code.code())
                }
            })
            .collect()
    }

    #[test]
    fn what_is_no_message_is_answered() {
        assert_eq!(told("{"), ["no JSON"]);
        assert_eq!(told(""), ["no JSON"]);
        assert_eq!(told("42"), ["null -32600"]);
        assert_eq!(told("[]"), ["null -32600"]);
        assert_eq!(told(r#"{"id":3}"#), ["3 -32600"]);
        assert_eq!(told(r#"{"jsonrpc":"1.0","id":3,"method":"a"}"#), ["3 -32600"]);
        assert_eq!(told(r#"{"id":1.5,"method":"a"}"#), ["null -32600"]);
        assert_eq!(told(r#"{"id":"x","method":"$/a"}"#), ["\"x\" -32601"]);
        let deep =
            format!("{{\"method\":\"x\",\"params\":{}{}}}", "[".repeat(9999), "]".repeat(9999));
        assert_eq!(told(&deep), ["no JSON"]);
    }

    #[test]
    fn what_the_library_would_refuse_is_tidied() {
        let shutdown = r#"call {"jsonrpc":"2.0","method":"shutdown","id":1}"#;
        assert_eq!(
            told(r#"{"jsonrpc":"2.0","id":1,"method":"shutdown","params":null}"#),
            [shutdown]
        );
        assert_eq!(told(r#"[{"id":1,"method":"shutdown"}]"#), [shutdown]);
        let begin = told(r#"{"id":1,"method":"initialize","params":{"trace":"loud"}}"#);
        let begun =
            r#"{"jsonrpc":"2.0","method":"initialize","params":{"capabilities":{}},"id":1}"#;
        assert_eq!(begin, [format!("call {begun}")]);
    }

    #[test]
    fn halves_of_pairs_are_replaced_and_pairs_are_kept() {
        assert_eq!(mended(r"a\ud83db"), r"a\ufffdb");
        assert_eq!(mended(r"\ud83c\udf4b"), r"\ud83c\udf4b");
        assert_eq!(mended(r"\udf4b\ud83c"), r"\ufffd\ufffd");
        assert_eq!(mended(r"\ud83c\ud83c\udf4b"), r"\ufffd\ud83c\udf4b");
        assert_eq!(mended(r"\\ud83c"), r"\\ud83c");
        assert_eq!(mended("\\"), "\\");
    }
}
