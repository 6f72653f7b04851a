//! What is wrong in a file, for a client that asks for it.

use serde::Serialize;
use tower_lsp::jsonrpc::{Error, ErrorCode};
use tower_lsp::lsp_types::DiagnosticServerCancellationData;

use crate::diagnostics::{Written, diagnostics};
use crate::library::View;

/// By this number the protocol knows what the server gave up; the library does not.
const SERVER_CANCELLED: i64 = -32802;

/// Where the text went on meanwhile, the client is to ask again: to be told nothing, it would
/// show nothing.
pub(crate) fn ask_again(error: Error) -> Error {
    if error.code != ErrorCode::ContentModified {
        return error;
    }
    let data = serde_json::to_value(DiagnosticServerCancellationData { retrigger_request: true });
    Error { code: ErrorCode::ServerError(SERVER_CANCELLED), data: data.ok(), ..error }
}

/// What a client is told of a file.
#[derive(Debug, Serialize)]
#[serde(tag = "kind", rename_all = "camelCase", rename_all_fields = "camelCase")]
pub(crate) enum Found {
    /// What is wrong in it.
    Full {
        #[serde(skip_serializing_if = "Option::is_none")]
        result_id: Option<String>,
        items: Vec<Written>,
    },
    /// What it has still holds.
    Unchanged { result_id: String },
}

impl Found {
    /// Of a file that is none.
    pub(crate) const NOTHING: Self = Self::Full { result_id: None, items: Vec::new() };

    /// Of a file that a client will know by `result_id`, and knows by `known`.
    pub(crate) fn of(view: &View, result_id: String, known: Option<&str>) -> Self {
        match known == Some(&result_id) {
            true => Self::Unchanged { result_id },
            false => Self::Full { result_id: Some(result_id), items: diagnostics(view) },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_asked_of_an_older_text_is_to_ask_again() {
        let told = ask_again(Error::content_modified());
        assert_eq!(told.code.code(), -32802);
        assert_eq!(told.data, Some(serde_json::json!({"retriggerRequest": true})));
        assert_eq!(ask_again(Error::internal_error()), Error::internal_error());
    }
}
