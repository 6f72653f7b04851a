//! What is wrong in a file, for a client that asks for it.

use tower_lsp::jsonrpc::{Error, ErrorCode};
use tower_lsp::lsp_types::*;

use crate::diagnostics::Written;

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

/// The diagnostics of a file, which the client will know by `id`; none where it has them already.
pub(crate) fn report(id: String, items: Option<Vec<Written>>) -> DocumentDiagnosticReportResult {
    let report = match items {
        None => DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
            related_documents: None,
            unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport {
                result_id: id,
            },
        }),
        Some(items) => DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: FullDocumentDiagnosticReport {
                result_id: Some(id).filter(|id| !id.is_empty()),
                items: items.into_iter().map(Written::whole).collect(),
            },
        }),
    };
    DocumentDiagnosticReportResult::Report(report)
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
