//! What is shown beside the text: explanations, hints, figures over headings, links.

use tower_lsp::lsp_types::*;
use washline_editor as editor;
use washline_editor::{LinkTarget, Switches};

use crate::library::View;

/// What is told of the words at a position.
pub(crate) fn hover(view: &View, at: Position) -> Option<Hover> {
    let found = editor::hover(view.edition.workspace(), view.file, view.offset(at))?;
    let range = view.ruler()?.range(found.span);
    Some(Hover {
        contents: HoverContents::Markup(view.edition.terms.hovers.of(found.markdown)),
        // What stands beside a name belongs to it and is not marked as the name.
        range: Some(range).filter(|range| range.start <= at && at <= range.end),
    })
}

/// The figures over each heading.
pub(crate) fn lenses(view: &View, switches: Switches) -> Vec<CodeLens> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let lenses = editor::lenses(view.edition.workspace(), view.file, &switches).into_iter();
    lenses
        .map(|lens| CodeLens {
            range: ruler.range(lens.span),
            // It says something; there is nothing to run.
            command: Some(Command::new(lens.title, String::new(), None)),
            data: None,
        })
        .collect()
}

/// What is told within the lines of a range.
pub(crate) fn hints(view: &View, range: Range, switches: Switches) -> Vec<InlayHint> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let span = ruler.span(range);
    let hints = editor::hints(view.edition.workspace(), view.file, span, &switches).into_iter();
    hints
        .map(|hint| InlayHint {
            position: ruler.position(hint.offset),
            label: InlayHintLabel::String(hint.label),
            kind: None,
            text_edits: None,
            tooltip: None,
            padding_left: Some(true),
            padding_right: None,
            data: None,
        })
        .collect()
}

/// What can be opened.
pub(crate) fn links(view: &View, switches: Switches) -> Vec<DocumentLink> {
    let Some(ruler) = view.ruler() else { return Vec::new() };
    let links = editor::links(view.edition.workspace(), view.file, &switches).into_iter();
    links
        .filter_map(|link| {
            let LinkTarget::Url(address) = link.target else { return None };
            Some(DocumentLink {
                range: ruler.range(link.span),
                target: Some(Url::parse(&address).ok()?),
                tooltip: None,
                data: None,
            })
        })
        .collect()
}
