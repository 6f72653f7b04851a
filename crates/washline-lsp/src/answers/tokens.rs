//! What each word is, as the protocol's differences from one to the next.

use tower_lsp::lsp_types::*;
use washline_editor as editor;
use washline_editor::{TOKEN_KINDS, Token, TokenKind};

use crate::library::View;

/// The names that the numbers of a token stand for.
pub(crate) fn legend() -> SemanticTokensLegend {
    let name = |kind: &TokenKind| SemanticTokenType::new(kind.name());
    SemanticTokensLegend {
        token_types: TOKEN_KINDS.iter().map(name).collect(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// The tokens of a file, or of the lines that a range touches.
pub(crate) fn tokens(view: &View, range: Option<Range>) -> SemanticTokens {
    let span = range.and_then(|range| Some(view.ruler()?.span(range)));
    let tokens = editor::tokens(view.edition.workspace(), view.file, span);
    let mut last = Position::default();
    let data = tokens.iter().filter_map(|token| told(view, token, &mut last)).collect();
    SemanticTokens { result_id: None, data }
}

fn told(view: &View, token: &Token, last: &mut Position) -> Option<SemanticToken> {
    let Range { start, end } = view.ruler()?.range(token.span);
    let delta_line = start.line.saturating_sub(last.line);
    let from = if delta_line == 0 { last.character } else { 0 };
    *last = start;
    Some(SemanticToken {
        delta_line,
        delta_start: start.character.saturating_sub(from),
        length: end.character.saturating_sub(start.character),
        token_type: token.kind as u32,
        token_modifiers_bitset: u32::from(token.declares),
    })
}
