//! What client and server agreed on at the start.

use tower_lsp::lsp_types::{
    ClientCapabilities, GotoCapability, InitializeParams, MarkupContent, MarkupKind,
    TextDocumentClientCapabilities,
};
use washline_text::Columns;

use crate::encoding;

/// What the client can do that makes a difference here.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Terms {
    /// What a column counts.
    pub columns: Columns,
    /// It asks for diagnostics; else they are pushed.
    pub pulls: bool,
    /// It can be told to ask again for diagnostics.
    pub refreshes_diagnostics: bool,
    /// It can be told to ask again for inlay hints.
    pub refreshes_hints: bool,
    /// It can be told to ask again for code lenses.
    pub refreshes_lenses: bool,
    /// It can be told to ask again for what each word is.
    pub refreshes_tokens: bool,
    /// It shows how far work has come.
    pub progress: bool,
    /// It can be asked to watch files.
    pub watches: bool,
    /// It can be asked to watch files beyond its folders.
    pub watches_beyond: bool,
    /// It can be asked to tell of settings that change.
    pub tells_settings: bool,
    /// It can be asked for its settings.
    pub configures: bool,
    /// Where it takes links that say what they lead from.
    pub links: Links,
    /// It takes edits of a version of a text.
    pub versions: bool,
    /// It asks whether something can be renamed.
    pub prepares: bool,
    /// It takes actions that are more than commands.
    pub acts: bool,
    /// It asks for the edits of an action that is taken.
    pub resolves: bool,
    /// It takes an outline whose symbols hold others.
    pub nests: bool,
    /// It takes items with tab stops.
    pub snippets: bool,
    /// It takes diagnostics with data.
    pub data: bool,
    /// How explanations of words are written.
    pub hovers: Prose,
    /// How explanations of what may be written are written.
    pub documentation: Prose,
}

/// Which of its questions a client takes links for.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Links {
    /// What a name means.
    pub definition: bool,
    /// Where it is declared.
    pub declaration: bool,
    /// What varies it.
    pub implementation: bool,
}

/// How an explanation is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Prose {
    /// With marks that the client renders.
    #[default]
    Markdown,
    /// As it is read.
    Plain,
}

impl Prose {
    /// The first of what the client prefers; where it names nothing, what the protocol took
    /// there before clients could name anything.
    fn preferred(named: Option<&Vec<MarkupKind>>, before: Self) -> Self {
        match named.and_then(|named| named.first()) {
            Some(MarkupKind::Markdown) => Self::Markdown,
            Some(MarkupKind::PlainText) => Self::Plain,
            None => before,
        }
    }

    /// An explanation that was written as Markdown.
    pub(crate) fn of(self, markdown: String) -> MarkupContent {
        match self {
            Self::Markdown => MarkupContent { kind: MarkupKind::Markdown, value: markdown },
            Self::Plain => {
                let value = washline_editor::plain(&markdown);
                MarkupContent { kind: MarkupKind::PlainText, value }
            }
        }
    }
}

impl Links {
    fn of(text: &TextDocumentClientCapabilities) -> Self {
        let takes = |asked: &Option<GotoCapability>| {
            asked.and_then(|asked| asked.link_support).unwrap_or(false)
        };
        Self {
            definition: takes(&text.definition),
            declaration: takes(&text.declaration),
            implementation: takes(&text.implementation),
        }
    }
}

impl Terms {
    /// The terms that a client's first request offers.
    pub(crate) fn of(params: &InitializeParams) -> Self {
        let client: &ClientCapabilities = &params.capabilities;
        let text = client.text_document.as_ref();
        let workspace = client.workspace.as_ref();
        let window = client.window.as_ref();
        let item = text.and_then(|text| text.completion.as_ref()?.completion_item.as_ref());
        let published = text.and_then(|text| text.publish_diagnostics.as_ref());
        Self {
            columns: encoding::agreed(client),
            pulls: text.is_some_and(|text| text.diagnostic.is_some()),
            refreshes_diagnostics: workspace
                .and_then(|workspace| workspace.diagnostic.as_ref()?.refresh_support)
                .unwrap_or(false),
            refreshes_hints: workspace
                .and_then(|workspace| workspace.inlay_hint.as_ref()?.refresh_support)
                .unwrap_or(false),
            refreshes_lenses: workspace
                .and_then(|workspace| workspace.code_lens.as_ref()?.refresh_support)
                .unwrap_or(false),
            refreshes_tokens: workspace
                .and_then(|workspace| workspace.semantic_tokens.as_ref()?.refresh_support)
                .unwrap_or(false),
            progress: window.and_then(|window| window.work_done_progress).unwrap_or(false),
            watches: workspace
                .and_then(|w| w.did_change_watched_files.as_ref()?.dynamic_registration)
                .unwrap_or(false),
            watches_beyond: workspace
                .and_then(|w| w.did_change_watched_files.as_ref())
                .is_some_and(|can| {
                    [can.dynamic_registration, can.relative_pattern_support] == [Some(true); 2]
                }),
            tells_settings: workspace
                .and_then(|w| w.did_change_configuration.as_ref()?.dynamic_registration)
                .unwrap_or(false),
            configures: workspace.and_then(|w| w.configuration).unwrap_or(false),
            links: text.map(Links::of).unwrap_or_default(),
            versions: workspace
                .and_then(|w| w.workspace_edit.as_ref()?.document_changes)
                .unwrap_or(false),
            prepares: text.and_then(|text| text.rename.as_ref()?.prepare_support).unwrap_or(false),
            acts: text
                .and_then(|text| text.code_action.as_ref()?.code_action_literal_support.as_ref())
                .is_some(),
            resolves: text
                .and_then(|text| text.code_action.as_ref()?.resolve_support.as_ref())
                .is_some_and(|asked| asked.properties.iter().any(|property| property == "edit"))
                // An action that loses its data on the way is lost.
                && text.and_then(|text| text.code_action.as_ref()?.data_support).unwrap_or(false),
            nests: text
                .and_then(|text| {
                    text.document_symbol.as_ref()?.hierarchical_document_symbol_support
                })
                .unwrap_or(false),
            snippets: item.and_then(|item| item.snippet_support).unwrap_or(false),
            data: published.and_then(|published| published.data_support).unwrap_or(false)
                || text.is_some_and(|text| text.diagnostic.is_some()),
            // A hover was Markdown, documentation a string of plain text.
            hovers: Prose::preferred(
                text.and_then(|text| text.hover.as_ref()?.content_format.as_ref()),
                Prose::Markdown,
            ),
            documentation: Prose::preferred(
                item.and_then(|item| item.documentation_format.as_ref()),
                Prose::Plain,
            ),
        }
    }
}
