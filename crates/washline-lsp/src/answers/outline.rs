//! The shape of a file: its outline, what folds, what a selection grows to.

use tower_lsp::lsp_types::*;
use washline_editor as editor;
use washline_editor::{FoldKind, Symbol, SymbolKind as Holds};
use washline_text::Span;

use crate::edition::Edition;
use crate::encoding::Ruler;
use crate::library::View;

/// The outline of a file; one after the other for a client that takes no symbols within symbols.
pub(crate) fn outline(view: &View) -> Option<DocumentSymbolResponse> {
    let (ruler, url) = (view.ruler()?, view.edition.url(view.file)?);
    let symbols = editor::document_symbols(view.edition.workspace(), view.file);
    if view.edition.terms.nests {
        let nodes = symbols.into_iter().map(|symbol| node(symbol, ruler)).collect();
        return Some(DocumentSymbolResponse::Nested(nodes));
    }
    let mut flat = Vec::new();
    let place = |span| Location::new(url.clone(), ruler.range(span));
    flatten(symbols, None, &place, &mut flat);
    Some(DocumentSymbolResponse::Flat(flat))
}

/// The entries of a workspace whose names hold what was typed.
pub(crate) fn search(edition: &Edition, query: &str) -> Vec<SymbolInformation> {
    let found = editor::workspace_symbols(edition.workspace(), query).into_iter();
    found
        .filter_map(|symbol| {
            #[expect(deprecated, reason = "the structure cannot be made without its old field")]
            Some(SymbolInformation {
                name: symbol.name,
                kind: kind(symbol.kind),
                tags: retired(symbol.retired),
                deprecated: None,
                location: edition.location(symbol.place)?,
                container_name: Some(symbol.container).filter(|name| !name.is_empty()),
            })
        })
        .collect()
}

/// What folds.
pub(crate) fn folds(view: &View) -> Vec<FoldingRange> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let folds = editor::folds(view.edition.workspace(), view.file).into_iter();
    folds
        .map(|fold| {
            let range = ruler.range(fold.span);
            FoldingRange {
                start_line: range.start.line,
                start_character: Some(range.start.character),
                end_line: range.end.line,
                end_character: Some(range.end.character),
                kind: match fold.kind {
                    FoldKind::Entry => None,
                    FoldKind::Region => Some(FoldingRangeKind::Region),
                    FoldKind::Comment => Some(FoldingRangeKind::Comment),
                },
                collapsed_text: None,
            }
        })
        .collect()
}

/// What a selection at each position grows to, step by step.
pub(crate) fn selections(view: &View, positions: &[Position]) -> Vec<SelectionRange> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let at = |position: &Position| {
        let offset = ruler.offset(*position);
        let spans = editor::selection(view.edition.workspace(), view.file, offset);
        // The widest is nobody's part.
        let grown = spans.into_iter().rev().fold(None, |parent, span| {
            let range = ruler.range(span);
            Some(SelectionRange { range, parent: parent.map(Box::new) })
        });
        grown.unwrap_or(SelectionRange { range: Range::new(*position, *position), parent: None })
    };
    positions.iter().map(at).collect()
}

/// Symbols before those within them, each with the name of what holds it.
fn flatten(
    symbols: Vec<Symbol>,
    holder: Option<&str>,
    place: &impl Fn(Span) -> Location,
    out: &mut Vec<SymbolInformation>,
) {
    for symbol in symbols {
        #[expect(deprecated, reason = "the structure cannot be made without its old field")]
        out.push(SymbolInformation {
            name: symbol.name.clone(),
            kind: kind(symbol.kind),
            tags: retired(symbol.retired),
            deprecated: None,
            location: place(symbol.whole),
            container_name: holder.map(str::to_owned),
        });
        flatten(symbol.children, Some(&symbol.name), place, out);
    }
}

fn node(symbol: Symbol, ruler: Ruler<'_>) -> DocumentSymbol {
    let children: Vec<DocumentSymbol> =
        symbol.children.into_iter().map(|child| node(child, ruler)).collect();
    #[expect(deprecated, reason = "the structure cannot be made without its old field")]
    DocumentSymbol {
        name: symbol.name,
        detail: Some(symbol.detail).filter(|detail| !detail.is_empty()),
        kind: kind(symbol.kind),
        tags: retired(symbol.retired),
        deprecated: None,
        range: ruler.range(symbol.whole),
        selection_range: ruler.range(symbol.name_span),
        children: Some(children).filter(|children| !children.is_empty()),
    }
}

/// The nearest of the protocol's kinds, which are those of programs.
pub(crate) const fn kind(kind: Holds) -> SymbolKind {
    match kind {
        Holds::Book => SymbolKind::MODULE,
        Holds::Section => SymbolKind::NAMESPACE,
        Holds::Drink => SymbolKind::CLASS,
        Holds::Prep => SymbolKind::FUNCTION,
        Holds::Stock => SymbolKind::CONSTANT,
        Holds::Ingredient => SymbolKind::FIELD,
    }
}

fn retired(retired: bool) -> Option<Vec<SymbolTag>> {
    retired.then(|| vec![SymbolTag::DEPRECATED])
}
