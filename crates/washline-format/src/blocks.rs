//! Where blank lines stand, and which rows are aligned together.

use crate::row::{Row, RowKind};

/// A row, or a blank line that the layout puts in.
#[derive(Clone, Debug)]
pub(crate) enum Piece {
    Row(Row),
    Gap,
}

/// The rows of an entry with one blank line between its blocks and no more than one
/// anywhere. `tail` says how many rows at the end speak of what follows.
pub(crate) fn spaced(rows: Vec<Row>) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::with_capacity(rows.len());
    let mut last: Option<RowKind> = None;
    let mut blank = false;
    for row in rows {
        match row.kind {
            RowKind::Blank => {
                if !blank && last.is_some() {
                    out.push(Piece::Row(row));
                    blank = true;
                }
                continue;
            }
            RowKind::Comment => {
                blank = false;
                last = last.or(Some(RowKind::Comment));
            }
            kind => {
                if !blank && last.is_some_and(|last| apart(last, kind)) {
                    put_gap(&mut out);
                }
                blank = false;
                last = Some(kind);
            }
        }
        out.push(Piece::Row(row));
    }
    out
}

/// A gap goes before the comments that lead the new block.
fn put_gap(out: &mut Vec<Piece>) {
    let comments = out
        .iter()
        .rev()
        .take_while(|piece| matches!(piece, Piece::Row(row) if row.kind == RowKind::Comment))
        .count();
    let at = out.len() - comments;
    let blank = |piece: Option<&Piece>| matches!(piece, Some(Piece::Row(row)) if row.kind == RowKind::Blank);
    if at > 0 && !blank(out.get(at - 1)) {
        out.insert(at, Piece::Gap);
    }
}

/// Fields, lines and steps stand in blocks of their own; a field may close a block of steps.
const fn apart(last: RowKind, next: RowKind) -> bool {
    matches!(
        (last, next),
        (RowKind::Field, RowKind::Ingredient | RowKind::Step)
            | (RowKind::Ingredient, RowKind::Step | RowKind::Field)
            | (RowKind::Step, RowKind::Ingredient)
    )
}

/// Runs of rows that are aligned together: lines of one kind, comments among them with them.
pub(crate) fn runs(pieces: &[Piece]) -> Vec<&[Piece]> {
    let mut out = Vec::new();
    let mut from = 0;
    let mut kind = None;
    for (at, piece) in pieces.iter().enumerate() {
        let here = match piece {
            Piece::Gap => Some(RowKind::Blank),
            Piece::Row(row) if row.kind == RowKind::Comment => None,
            Piece::Row(row) => Some(row.kind),
        };
        let Some(here) = here else { continue };
        if kind.is_some_and(|kind| kind != here) {
            out.extend(pieces.get(from..at));
            from = at;
        }
        kind = Some(here);
    }
    out.extend(pieces.get(from..));
    out
}
