//! What is wrong in a file, for a client that asks for it.

use tower_lsp::lsp_types::*;

use crate::diagnostics::Written;

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
