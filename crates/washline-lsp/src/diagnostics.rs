//! Findings as the protocol's diagnostics.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::LazyLock;

use serde::Serialize;
use tower_lsp::lsp_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag,
    NumberOrString, Range, Url, WorkspaceEdit,
};
use washline_files::Trouble;
use washline_rules::Rule;
use washline_text::{Columns, Finding, Fix, LineIndex, Place, Severity, Span};

use crate::edition::Edition;
use crate::encoding::Ruler;
use crate::library::View;

/// The most diagnostics a file gets.
const MOST: usize = 1_000;
/// Who says so.
const SOURCE: &str = "washline";

/// A diagnostic as it is written to the client.
#[derive(Debug, Serialize)]
pub(crate) struct Written {
    #[serde(flatten)]
    diagnostic: Diagnostic,
    #[serde(skip_serializing_if = "Option::is_none")]
    data: Option<Data>,
}

/// What a client sends back when it asks how to mend a finding.
#[derive(Debug, Serialize)]
struct Data {
    fingerprint: String,
    fixes: Vec<Mend>,
}

/// A way to mend it.
#[derive(Debug, Serialize)]
struct Mend {
    title: String,
    safe: bool,
    edit: WorkspaceEdit,
}

/// The diagnostics of a file; the last of too many says how many more there are.
pub(crate) fn diagnostics(view: &View) -> Vec<Written> {
    let findings = view.edition.findings(view.file);
    let most = if findings.len() > MOST { MOST - 1 } else { MOST };
    let told = |finding| written(&view.edition, finding);
    let mut out: Vec<Written> = findings.iter().take(most).filter_map(told).collect();
    if let Some(next) = findings.get(most)
        && let Some(Diagnostic { range, severity, source, .. }) = bare(&view.edition, next)
    {
        let message = format!("and {} more findings in this file", findings.len() - most);
        let last = Diagnostic { range, severity, source, message, ..Diagnostic::default() };
        out.push(last.into());
    }
    out
}

impl From<Diagnostic> for Written {
    fn from(diagnostic: Diagnostic) -> Self {
        Self { diagnostic, data: None }
    }
}

impl Written {
    /// The same for whoever wants the data as a value.
    pub(crate) fn whole(self) -> Diagnostic {
        let data = self.data.and_then(|data| serde_json::to_value(data).ok());
        Diagnostic { data, ..self.diagnostic }
    }
}

/// A finding as a diagnostic of its file.
pub(crate) fn diagnostic(edition: &Edition, finding: &Finding) -> Option<Diagnostic> {
    written(edition, finding).map(Written::whole)
}

fn written(edition: &Edition, finding: &Finding) -> Option<Written> {
    let data = || {
        let mend = |fix: &Fix| Mend {
            title: fix.title.clone(),
            safe: fix.safe,
            edit: WorkspaceEdit::new(edition.text_edits(&fix.edits).into_iter().collect()),
        };
        let fixes = finding.fixes.iter().map(mend).collect();
        Data { fingerprint: finding.fingerprint.clone(), fixes }
    };
    let diagnostic = bare(edition, finding)?;
    Some(Written { diagnostic, data: edition.terms.data.then(data) })
}

/// By what a client knows diagnostics whose print that is, however it asked for them.
pub(crate) fn result_id(print: u64) -> String {
    format!("{print:x}")
}

/// All that is in the diagnostics of a file, as a number: equal numbers, equal diagnostics.
pub(crate) fn print(view: &View) -> u64 {
    let edition = &view.edition;
    let findings = edition.findings(view.file);
    let mut hasher = DefaultHasher::new();
    findings.len().hash(&mut hasher);
    for finding in findings.iter().take(MOST) {
        (finding.rule, &finding.fingerprint, finding.severity as u8).hash(&mut hasher);
        (&finding.message, &finding.why, &finding.help).hash(&mut hasher);
        stamp(edition, finding.place, &mut hasher);
        for related in &finding.related {
            related.message.hash(&mut hasher);
            stamp(edition, related.place, &mut hasher);
        }
        for fix in &finding.fixes {
            (&fix.title, fix.safe).hash(&mut hasher);
            for (file, edit) in &fix.edits {
                edit.text.hash(&mut hasher);
                stamp(edition, Place { file: *file, span: edit.span }, &mut hasher);
            }
        }
    }
    hasher.finish()
}

/// A place as the client knows it: the same bytes may stand on another line.
fn stamp(edition: &Edition, place: Place, hasher: &mut DefaultHasher) {
    let Some((url, ruler)) = edition.url(place.file).zip(edition.ruler(place.file)) else { return };
    let Range { start, end } = ruler.range(place.span);
    (url, start.line, start.character, end.line, end.character).hash(hasher);
}

/// What is wrong in a file of standards.
pub(crate) fn trouble(trouble: &Trouble, columns: Columns) -> Diagnostic {
    let index = LineIndex::new(&trouble.text);
    let ruler = Ruler { text: &trouble.text, index: &index, columns };
    let here = trouble.path.parent().unwrap_or(&trouble.path);
    let help = match &trouble.what {
        washline_files::Wrong::Said(error) => error.help.as_str(),
        _ => "",
    };
    Diagnostic {
        range: ruler.range(trouble.what.span().unwrap_or(Span::at(0))),
        severity: Some(DiagnosticSeverity::ERROR),
        source: Some(SOURCE.to_owned()),
        message: sentences([&trouble.what.message(here), "", help]),
        ..Diagnostic::default()
    }
}

/// A finding as a diagnostic of its file, without what mends it.
fn bare(edition: &Edition, finding: &Finding) -> Option<Diagnostic> {
    let related: Vec<DiagnosticRelatedInformation> = finding
        .related
        .iter()
        .filter_map(|related| {
            let location = edition.location(related.place)?;
            Some(DiagnosticRelatedInformation { location, message: related.message.clone() })
        })
        .collect();
    Some(Diagnostic {
        range: edition.ruler(finding.place.file)?.range(finding.place.span),
        severity: Some(severity(finding.severity)),
        code: Some(NumberOrString::String(finding.rule.to_owned())),
        code_description: page(finding.rule).map(|href| CodeDescription { href }),
        source: Some(SOURCE.to_owned()),
        message: sentences([&finding.message, &finding.why, &finding.help]),
        related_information: Some(related).filter(|related| !related.is_empty()),
        tags: tag(finding.rule).map(|tag| vec![tag]),
        data: None,
    })
}

/// The address of a rule's page; each is made once.
fn page(rule: &str) -> Option<Url> {
    static PAGES: LazyLock<HashMap<&str, Url>> = LazyLock::new(|| {
        let page = |rule: &Rule| Some((rule.name, Url::parse(&rule.page()).ok()?));
        washline_rules::all().filter_map(page).collect()
    });
    PAGES.get(rule).cloned()
}

const fn severity(severity: Severity) -> DiagnosticSeverity {
    match severity {
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
        Severity::Information => DiagnosticSeverity::INFORMATION,
        Severity::Hint => DiagnosticSeverity::HINT,
    }
}

/// What nothing uses is shown faded.
fn tag(rule: &str) -> Option<DiagnosticTag> {
    matches!(
        rule,
        "unused-prep"
            | "never-used"
            | "waiver-unused"
            | "waiver-unknown"
            | "duplicate-field"
            | "empty-step"
            | "empty-value"
    )
    .then_some(DiagnosticTag::UNNECESSARY)
}

/// What is wrong, why it matters, what to do: each on a line of its own.
fn sentences(parts: [&str; 3]) -> String {
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("\n")
}
