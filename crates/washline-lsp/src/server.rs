//! What the protocol asks, handed to whoever answers it.
//!
//! Every handler changes or copies what it needs before it pauses; none waits for the client.
//! Questions over a whole text are answered [beside](crate::long) the library.

use std::sync::Arc;

use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::*;
use tower_lsp::{LanguageServer, async_trait};

use crate::answers::{
    actions, calls, completion, layout, names, notes, outline, standards, tokens,
};
use crate::capabilities::capabilities;
use crate::desk::Sheet;
use crate::library::View;
use crate::painted::paint;
use crate::session::Session;
use crate::terms::Terms;
use crate::wishes;

/// Which text is asked for.
#[derive(Debug, serde::Deserialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct TextParams {
    text_document: TextDocumentIdentifier,
}

/// The server.
#[derive(Debug)]
pub(crate) struct Server {
    session: Arc<Session>,
}

impl Server {
    pub(crate) const fn new(session: Arc<Session>) -> Self {
        Self { session }
    }

    /// Files or folders came, went or moved.
    fn disturb(&self, uris: impl Iterator<Item = String>) {
        let paths = uris.filter_map(|uri| Url::parse(&uri).ok()?.to_file_path().ok());
        self.session.tell(|desk| desk.changed_on_disk(paths));
    }

    /// A text as the server has it: for who writes a client and wants to know that both sides
    /// hold the same.
    pub(crate) async fn text(&self, params: TextParams) -> Result<Option<String>> {
        let desk = self.session.desk();
        Ok(desk.open.get(&params.text_document.uri).map(|sheet| sheet.page.text.to_string()))
    }
}

#[async_trait]
impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let terms = Terms::of(&params);
        self.session.settle(terms);
        params.initialization_options.iter().for_each(|settings| {
            self.session.switch(settings);
        });
        let folders = match params.workspace_folders {
            Some(folders) => folders.into_iter().map(|folder| folder.uri).collect(),
            None => Vec::from_iter(params.root_uri),
        };
        let folders = folders.into_iter().filter_map(|uri| uri.to_file_path().ok());
        self.session.tell(|desk| desk.refold(folders, None));
        Ok(InitializeResult {
            capabilities: capabilities(terms),
            server_info: Some(ServerInfo {
                name: "washline".to_owned(),
                version: Some(env!("CARGO_PKG_VERSION").to_owned()),
            }),
        })
    }

    async fn initialized(&self, _: InitializedParams) {
        self.session.begin();
        wishes::watch(&self.session);
        if self.session.terms().configures {
            wishes::settings(&self.session);
        }
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        // Some clients send their settings, some say that they are to be asked for.
        if params.settings.is_object() {
            wishes::take(&self.session, &params.settings);
        }
        if params.settings.get("washline").is_none() && self.session.terms().configures {
            wishes::settings(&self.session);
        }
    }

    async fn shutdown(&self) -> Result<()> {
        self.session.shut();
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let one = params.text_document;
        // Some never say that they listen.
        self.session.begin();
        self.session.tell(|desk| desk.open(one.uri, one.version, one.text));
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let one = params.text_document;
        self.session.tell(|desk| desk.change(&one.uri, one.version, params.content_changes));
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        self.session.tell(|desk| desk.close(&params.text_document.uri));
        self.session.painted.forget(&params.text_document.uri);
    }

    async fn did_save(&self, _: DidSaveTextDocumentParams) {
        // Not all that a house hangs on lies where the client watches it.
        self.session.tell(|desk| desk.changed_on_disk(None));
    }

    async fn did_create_files(&self, params: CreateFilesParams) {
        self.disturb(params.files.into_iter().map(|file| file.uri));
    }

    async fn did_rename_files(&self, params: RenameFilesParams) {
        self.disturb(params.files.into_iter().flat_map(|file| [file.old_uri, file.new_uri]));
    }

    async fn did_delete_files(&self, params: DeleteFilesParams) {
        self.disturb(params.files.into_iter().map(|file| file.uri));
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        let paths = params.changes.into_iter().filter_map(|event| event.uri.to_file_path().ok());
        self.session.tell(|desk| desk.changed_on_disk(paths));
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        let paths = |folders: Vec<WorkspaceFolder>| {
            folders.into_iter().filter_map(|folder| folder.uri.to_file_path().ok())
        };
        let (come, gone) = (paths(params.event.added), paths(params.event.removed));
        self.session.tell(|desk| desk.refold(come, gone));
    }

    async fn range_formatting(
        &self,
        params: DocumentRangeFormattingParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        let range = params.range;
        let url = params.text_document.uri;
        self.session.answer_in(url, move |view| layout::part(view, range)).await
    }

    async fn on_type_formatting(
        &self,
        params: DocumentOnTypeFormattingParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        let Asked { url, at } = asked(params.text_document_position);
        let typed = params.ch;
        self.session.answer_in(url, move |view| layout::typed(view, at, &typed)).await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let url = params.text_document.uri.clone();
        self.session.answer_in(url, move |view| actions::actions(view, &params)).await
    }

    async fn code_action_resolve(&self, action: CodeAction) -> Result<CodeAction> {
        let Some(url) = actions::file(&action) else { return Ok(action) };
        let offered = action.clone();
        let resolved = self.session.answer_in(url, |view| actions::resolved(view, action)).await?;
        Ok(resolved.unwrap_or(offered))
    }

    async fn completion_resolve(&self, item: CompletionItem) -> Result<CompletionItem> {
        let Some(url) = completion::file(&item) else { return Ok(item) };
        let offered = item.clone();
        let resolved = self.session.answer_in(url, |view| completion::resolved(view, item)).await?;
        Ok(resolved.unwrap_or(offered))
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        let (url, before) = (params.text_document.uri, params.previous_result_id);
        let (session, asked) = (self.session.clone(), url.clone());
        let answer = move |view: &View| paint(&session, view, &asked, Some(&before)).news();
        self.session.answer_in(url, answer).await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        let (url, range) = (params.text_document.uri, params.range);
        let found = self.session.answer_in(url, move |view| tokens::tokens(view, Some(range)));
        let tokens = |data| SemanticTokens { result_id: None, data };
        Ok(found.await?.map(tokens).map(SemanticTokensRangeResult::Tokens))
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let Asked { url, at } = asked(params.text_document_position_params);
        let found = self.session.answer_in(url, move |view| notes::hover(view, at)).await?;
        Ok(found.flatten())
    }

    async fn goto_definition(
        &self,
        params: GotoDefinitionParams,
    ) -> Result<Option<GotoDefinitionResponse>> {
        let Asked { url, at } = asked(params.text_document_position_params);
        self.session.answer_in(url, move |view| names::definition(view, at)).await
    }

    async fn goto_declaration(
        &self,
        params: GotoDefinitionParams,
    ) -> Result<Option<GotoDefinitionResponse>> {
        let Asked { url, at } = asked(params.text_document_position_params);
        self.session.answer_in(url, move |view| names::declaration(view, at)).await
    }

    async fn goto_implementation(
        &self,
        params: GotoDefinitionParams,
    ) -> Result<Option<GotoDefinitionResponse>> {
        let Asked { url, at } = asked(params.text_document_position_params);
        self.session.answer_in(url, move |view| names::implementation(view, at)).await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let Asked { url, at } = asked(params.text_document_position);
        let with = params.context.include_declaration;
        self.session.answer_in(url, move |view| names::references(view, at, with)).await
    }

    async fn document_highlight(
        &self,
        params: DocumentHighlightParams,
    ) -> Result<Option<Vec<DocumentHighlight>>> {
        let Asked { url, at } = asked(params.text_document_position_params);
        self.session.answer_in(url, move |view| names::highlights(view, at)).await
    }

    async fn prepare_rename(
        &self,
        params: TextDocumentPositionParams,
    ) -> Result<Option<PrepareRenameResponse>> {
        let Asked { url, at } = asked(params);
        let found =
            self.session.answer_in(url, move |view| names::prepare_rename(view, at)).await?;
        Ok(found.flatten())
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let Asked { url, at } = asked(params.text_document_position);
        let new = params.new_name;
        self.session.answer_in(url, move |view| names::rename(view, at, &new)).await?.transpose()
    }

    async fn symbol(
        &self,
        params: WorkspaceSymbolParams,
    ) -> Result<Option<Vec<SymbolInformation>>> {
        let session = &self.session;
        let found = session.answer_over(move |edition| outline::search(edition, &params.query));
        Ok(Some(found.await?))
    }

    async fn selection_range(
        &self,
        params: SelectionRangeParams,
    ) -> Result<Option<Vec<SelectionRange>>> {
        let (url, positions) = (params.text_document.uri, params.positions);
        self.session.answer_in(url, move |view| outline::selections(view, &positions)).await
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        let switches = self.session.switches();
        let url = params.text_document.uri;
        let columns = self.session.terms().columns;
        let extends = move |sheet: &Sheet| standards::links(sheet, columns, switches);
        match self.session.answer_in_standards(&url, extends).await? {
            None => self.session.answer_in(url, move |view| notes::links(view, switches)).await,
            links => Ok(links),
        }
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let Asked { url, at } = asked(params.text_document_position_params);
        self.session.answer_in(url, move |view| calls::prepare(view, at)).await
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        let (url, item) = (params.item.uri.clone(), params.item);
        self.session.answer_in(url, move |view| calls::incoming(view, &item)).await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        let (url, item) = (params.item.uri.clone(), params.item);
        self.session.answer_in(url, move |view| calls::outgoing(view, &item)).await
    }
}

/// What most questions are of: a place in a file.
struct Asked {
    url: Url,
    at: Position,
}

fn asked(params: TextDocumentPositionParams) -> Asked {
    Asked { url: params.text_document.uri, at: params.position }
}
