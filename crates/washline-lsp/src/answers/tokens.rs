//! What each word is, as the protocol's differences from one to the next.

use tower_lsp::lsp_types::*;
use washline_editor as editor;
use washline_editor::{TOKEN_KINDS, Token, TokenKind};

use crate::library::View;

/// How many numbers make a token.
const NUMBERS: u32 = 5;

/// The names that the numbers of a token stand for.
pub(crate) fn legend() -> SemanticTokensLegend {
    let name = |kind: &TokenKind| SemanticTokenType::new(kind.name());
    SemanticTokensLegend {
        token_types: TOKEN_KINDS.iter().map(name).collect(),
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// The tokens of a file, or of the lines that a range touches.
pub(crate) fn tokens(view: &View, range: Option<Range>) -> Vec<SemanticToken> {
    let span = range.and_then(|range| Some(view.ruler()?.span(range)));
    let tokens = editor::tokens(view.edition.workspace(), view.file, span);
    let mut last = Position::default();
    tokens.iter().filter_map(|token| told(view, token, &mut last)).collect()
}

/// What turns `before` into `after`: one edit between what both begin and what both end with.
pub(crate) fn repainted(
    before: &[SemanticToken],
    after: &[SemanticToken],
) -> Vec<SemanticTokensEdit> {
    let both = before.iter().zip(after);
    let head = both.take_while(|(old, new)| old == new).count();
    let (old, new) = (rest(before, head), rest(after, head));
    let both = old.iter().rev().zip(new.iter().rev());
    let tail = both.take_while(|(old, new)| old == new).count();
    let gone = old.len() - tail;
    let come = new.get(..new.len() - tail).unwrap_or_default();
    if gone == 0 && come.is_empty() {
        return Vec::new();
    }
    vec![SemanticTokensEdit {
        start: numbers(head),
        delete_count: numbers(gone),
        data: Some(come.to_vec()).filter(|come| !come.is_empty()),
    }]
}

fn rest(tokens: &[SemanticToken], from: usize) -> &[SemanticToken] {
    tokens.get(from..).unwrap_or_default()
}

/// How many numbers so many tokens are.
fn numbers(tokens: usize) -> u32 {
    u32::try_from(tokens).unwrap_or(u32::MAX).saturating_mul(NUMBERS)
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

#[cfg(test)]
mod tests {
    use super::*;

    fn tokens(lengths: &[u32]) -> Vec<SemanticToken> {
        let token = |length: &u32| SemanticToken { length: *length, ..SemanticToken::default() };
        lengths.iter().map(token).collect()
    }

    #[test]
    fn a_single_edit_holds_what_differs() {
        for (before, after, edit) in [
            (&[1, 2, 3][..], &[1, 2, 3][..], None),
            (&[], &[], None),
            (&[], &[1], Some((0, 0, &[1][..]))),
            (&[1, 2, 3], &[1, 3], Some((5, 5, &[]))),
            (&[1, 2, 3], &[1, 4, 5, 3], Some((5, 5, &[4, 5]))),
            (&[1, 1], &[1, 1, 1], Some((10, 0, &[1]))),
            (&[1, 1, 1], &[1], Some((5, 10, &[]))),
            (&[1, 2], &[3, 4], Some((0, 10, &[3, 4]))),
        ] {
            let told = repainted(&tokens(before), &tokens(after));
            let told: Vec<_> = told
                .into_iter()
                .map(|edit| (edit.start, edit.delete_count, edit.data.unwrap_or_default()))
                .collect();
            let edit = edit.map(|(start, gone, come)| (start, gone, tokens(come)));
            assert_eq!(told, Vec::from_iter(edit), "{before:?} to {after:?}");
        }
    }
}
