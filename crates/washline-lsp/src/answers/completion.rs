//! What may be written at a position, told about when it is asked for.

use serde_json::{Value, json};
use tower_lsp::lsp_types::*;
use washline_editor as editor;
use washline_editor::{Item, ItemKind, Topic};

use crate::library::View;

/// The most items that are offered at once. A client asks again as more letters are typed, and
/// nobody reads so many.
const MOST: usize = 200;

/// What may be written at a position, the likeliest first.
pub(crate) fn completion(view: &View, at: Position) -> CompletionResponse {
    let items = editor::completion(view.edition.workspace(), view.file, view.offset(at));
    let is_incomplete = items.len() > MOST;
    let items = items.into_iter().take(MOST).filter_map(|item| told(view, item)).collect();
    match is_incomplete {
        true => CompletionResponse::List(CompletionList { is_incomplete, items }),
        false => CompletionResponse::Array(items),
    }
}

/// An item with what can be told of it.
pub(crate) fn resolved(view: &View, mut item: CompletionItem) -> CompletionItem {
    let word = item.data.as_ref().and_then(|data| data.get("topic")).and_then(Value::as_str);
    let topic = word.and_then(|word| word.parse::<Topic>().ok());
    let markdown =
        topic.and_then(|topic| editor::describe(view.edition.workspace(), view.file, &topic));
    item.documentation = markdown.map(|markdown| {
        match view.edition.terms.documentation.of(markdown) {
            // Every client takes a string, and shows it as it comes.
            MarkupContent { kind: MarkupKind::PlainText, value } => Documentation::String(value),
            rendered => Documentation::MarkupContent(rendered),
        }
    });
    item
}

/// The file that an item was offered in.
pub(crate) fn file(item: &CompletionItem) -> Option<Url> {
    Url::parse(item.data.as_ref()?.get("uri")?.as_str()?).ok()
}

/// The item in the protocol's words; none where it is a snippet and the client takes none.
fn told(view: &View, item: Item) -> Option<CompletionItem> {
    let edition = &view.edition;
    if item.snippet && !edition.terms.snippets {
        return None;
    }
    let uri = edition.url(view.file).map(Url::as_str);
    let data = item.topic.map(|topic| json!({"uri": uri, "topic": topic.to_string()}));
    let format =
        if item.snippet { InsertTextFormat::SNIPPET } else { InsertTextFormat::PLAIN_TEXT };
    Some(CompletionItem {
        // Who types `honey` means `Honey Syrup` no less than `honey`; some clients weigh the case.
        filter_text: Some(item.label.to_lowercase()),
        label: item.label,
        detail: Some(item.detail).filter(|detail| !detail.is_empty()),
        kind: Some(kind(item.kind)),
        // Clients sort as text.
        sort_text: Some(format!("{:010}", item.rank)),
        insert_text_format: Some(format),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit::new(
            view.ruler()?.range(item.span),
            item.text,
        ))),
        data,
        ..CompletionItem::default()
    })
}

const fn kind(kind: ItemKind) -> CompletionItemKind {
    match kind {
        ItemKind::Entry => CompletionItemKind::SNIPPET,
        ItemKind::Key => CompletionItemKind::PROPERTY,
        ItemKind::Word => CompletionItemKind::ENUM_MEMBER,
        ItemKind::Unit => CompletionItemKind::UNIT,
        ItemKind::Ingredient => CompletionItemKind::VARIABLE,
        ItemKind::Prepared | ItemKind::Drink => CompletionItemKind::CLASS,
        ItemKind::Technique => CompletionItemKind::FUNCTION,
        ItemKind::Rule => CompletionItemKind::CONSTANT,
    }
}
