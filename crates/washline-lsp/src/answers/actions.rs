//! Code actions: mends of findings, and rewriting.

use serde_json::{Value, json};
use tower_lsp::lsp_types::*;
use washline_editor as editor;
use washline_editor::{Action, ActionKind, Deferred, Does};

use crate::diagnostics::diagnostic;
use crate::library::View;

/// What can be done about a range of a file.
pub(crate) fn actions(view: &View, params: &CodeActionParams) -> CodeActionResponse {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let (workspace, span) = (view.edition.workspace(), ruler.span(params.range));
    let actions = editor::actions(workspace, view.file, span, &view.edition.findings(view.file));
    actions
        .into_iter()
        .filter(|action| asks_for(params, &kind(action.kind)))
        .map(|action| CodeActionOrCommand::CodeAction(told(view, action)))
        .collect()
}

/// The edits of an action that was offered without them.
pub(crate) fn resolved(view: &View, mut action: CodeAction) -> CodeAction {
    let word = action.data.as_ref().and_then(|data| data.get("act")).and_then(Value::as_str);
    let act = word.and_then(|word| word.parse::<Deferred>().ok());
    action.edit = act.and_then(|act| edit(view, &act));
    action
}

fn edit(view: &View, act: &Deferred) -> Option<WorkspaceEdit> {
    let edits = editor::resolve(view.edition.workspace(), view.file, act)?;
    Some(view.workspace_edit(&edits))
}

/// The file that an action is of.
pub(crate) fn file(action: &CodeAction) -> Option<Url> {
    Url::parse(action.data.as_ref()?.get("uri")?.as_str()?).ok()
}

fn told(view: &View, action: Action) -> CodeAction {
    let edition = &view.edition;
    let findings = edition.findings(view.file);
    let answers: Vec<Diagnostic> =
        action.answers.iter().filter_map(|at| diagnostic(edition, findings.get(*at)?)).collect();
    let (edit, data) = match action.does {
        Does::Edits(edits) => (Some(view.workspace_edit(&edits)), None),
        Does::Deferred(act) if !edition.terms.resolves => (edit(view, &act), None),
        Does::Deferred(act) => {
            let uri = edition.url(view.file).map(Url::as_str);
            (None, Some(json!({"uri": uri, "act": act.to_string()})))
        }
    };
    CodeAction {
        title: action.title,
        kind: Some(kind(action.kind)),
        diagnostics: Some(answers).filter(|answers| !answers.is_empty()),
        edit,
        is_preferred: action.preferred.then_some(true),
        data,
        ..CodeAction::default()
    }
}

/// All mends at once, for a client that asks for such of this server or of any.
pub(crate) const FIX_ALL: CodeActionKind = CodeActionKind::new("source.fixAll.washline");

const fn kind(kind: ActionKind) -> CodeActionKind {
    match kind {
        ActionKind::QuickFix => CodeActionKind::QUICKFIX,
        ActionKind::FixAll => FIX_ALL,
        ActionKind::Rewrite => CodeActionKind::REFACTOR_REWRITE,
        ActionKind::Extract => CodeActionKind::REFACTOR_EXTRACT,
    }
}

/// Whether a client that asks for some kinds of actions alone asks for `kind`.
fn asks_for(params: &CodeActionParams, kind: &CodeActionKind) -> bool {
    let Some(only) = &params.context.only else { return true };
    only.iter().any(|wanted| {
        let rest = kind.as_str().strip_prefix(wanted.as_str());
        rest.is_some_and(|rest| {
            wanted.as_str().is_empty() || rest.is_empty() || rest.starts_with('.')
        })
    })
}
