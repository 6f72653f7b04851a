//! Where blank lines stand, and which rows are aligned together.

use crate::row::{Row, RowKind};

/// The rows of an entry with one blank line between its blocks and no more than one
/// anywhere.
pub(crate) fn spaced(rows: Vec<Row<'_>>) -> Vec<Row<'_>> {
    let mut out: Vec<Row<'_>> = Vec::with_capacity(rows.len());
    let mut last: Option<RowKind> = None;
    let mut blank = false;
    for row in rows {
        match row.kind {
            RowKind::Blank => {
                if !blank && last.is_some() {
                    out.push(row);
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
        out.push(row);
    }
    out
}

/// A gap goes before the comments that lead the new block.
fn put_gap(out: &mut Vec<Row<'_>>) {
    let comments = out.iter().rev().take_while(|row| row.kind == RowKind::Comment).count();
    let at = out.len() - comments;
    let above = at.checked_sub(1).and_then(|above| out.get(above));
    if above.is_some_and(|above| above.kind != RowKind::Blank) {
        out.insert(at, Row::GAP);
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
pub(crate) fn runs<'r, 'a>(rows: &'r [Row<'a>]) -> Vec<&'r [Row<'a>]> {
    let mut out = Vec::new();
    let mut from = 0;
    let mut kind = None;
    for (at, row) in rows.iter().enumerate().filter(|(_, row)| row.kind != RowKind::Comment) {
        if kind.is_some_and(|kind| kind != row.kind) {
            out.extend(rows.get(from..at));
            from = at;
        }
        kind = Some(row.kind);
    }
    out.extend(rows.get(from..));
    out
}
