//! Amounts, second measures, names and trailing comments in columns.

use unicode_width::UnicodeWidthStr;

use crate::Options;
use crate::row::{Row, RowKind};

/// Blanks between two columns.
const GAP: usize = 2;

/// The texts of the rows of one block, aligned by display width.
pub(crate) fn lay_out(rows: &[Row], indent: usize, options: &Options) -> Vec<String> {
    let ingredients = || rows.iter().filter(|row| row.kind == RowKind::Ingredient);
    let width = |cell: usize| {
        let widths = ingredients().filter_map(|row| row.cells.get(cell)).map(|c| c.width());
        widths.max().unwrap_or(0)
    };
    let widths = if options.align { [width(0), width(1)] } else { [0, 0] };
    let bare: Vec<String> = rows.iter().map(|row| text(row, indent, widths)).collect();
    // Beside lines, comments stand clear of every line; beside fields and steps, of each other's.
    let commented =
        rows.iter().zip(&bare).filter(|(row, _)| trails(row) || row.kind == RowKind::Ingredient);
    let column = commented.map(|(_, text)| text.width()).max().unwrap_or(0) + GAP;
    rows.iter()
        .zip(bare)
        .map(|(row, text)| match &row.comment {
            Some(comment) if trails(row) => {
                let column = if options.align { column } else { text.width() + GAP };
                format!("{text}{}{comment}", " ".repeat(column - text.width()))
            }
            _ => text,
        })
        .collect()
}

fn trails(row: &Row) -> bool {
    row.comment.is_some() && row.kind != RowKind::Comment
}

fn text(row: &Row, indent: usize, widths: [usize; 2]) -> String {
    let margin = " ".repeat(indent);
    match row.kind {
        RowKind::Blank => String::new(),
        RowKind::Comment => format!("{margin}{}", row.comment.as_deref().unwrap_or("#")),
        RowKind::Heading => row.text.clone(),
        RowKind::Field | RowKind::Step => format!("{margin}{}", row.text),
        RowKind::Ingredient => {
            let mut line = margin;
            for (cell, width) in row.cells.iter().zip(widths) {
                if width == 0 && cell.is_empty() {
                    continue;
                }
                line.push_str(cell);
                let gap = if widths == [0, 0] { 1 } else { GAP };
                line.push_str(&" ".repeat(width.saturating_sub(cell.width()) + gap));
            }
            line.push_str(&row.text);
            line.trim_end().to_owned()
        }
    }
}
