//! Amounts, second measures, names and trailing comments in columns.

use unicode_width::UnicodeWidthStr;

use crate::Options;
use crate::row::{Row, RowKind};

/// Blanks between two columns.
const GAP: usize = 2;

/// Writes the rows of one block, aligned by display width; a row without an end ends in `new_line`.
pub(crate) fn lay_out(
    out: &mut String,
    rows: &[Row<'_>],
    indent: usize,
    options: &Options,
    new_line: &str,
) {
    let width = |cell: usize| {
        let ingredients = rows.iter().filter(|row| row.kind == RowKind::Ingredient);
        let widths = ingredients.filter_map(|row| row.cells.get(cell)).map(|cell| cell.width());
        widths.max().unwrap_or(0)
    };
    let widths = if options.align { [width(0), width(1)] } else { [0, 0] };
    let column = column(rows, indent, widths);
    for row in rows {
        let from = out.len();
        write(out, row, indent, widths);
        if let Some(comment) = row.comment.filter(|_| row.trails()) {
            let width = out.get(from..).map_or(0, UnicodeWidthStr::width);
            let column = if options.align { column } else { width + GAP };
            blanks(out, column.saturating_sub(width));
            out.push_str(comment);
        }
        out.push_str(if row.end.is_empty() { new_line } else { row.end });
    }
}

/// Where trailing comments start. Beside lines, they stand clear of every line; beside fields
/// and steps, of each other's.
fn column(rows: &[Row<'_>], indent: usize, widths: [usize; 2]) -> usize {
    if !rows.iter().any(Row::trails) {
        return 0;
    }
    let mut line = String::new();
    let commented = rows.iter().filter(|row| row.trails() || row.kind == RowKind::Ingredient);
    let each = commented.map(|row| {
        line.clear();
        write(&mut line, row, indent, widths);
        line.width()
    });
    each.max().unwrap_or(0) + GAP
}

/// Writes a row without its trailing comment and its end.
fn write(out: &mut String, row: &Row<'_>, indent: usize, widths: [usize; 2]) {
    let from = out.len();
    if !matches!(row.kind, RowKind::Blank | RowKind::Heading) {
        blanks(out, indent);
    }
    match row.kind {
        RowKind::Blank => {}
        RowKind::Comment => out.push_str(row.comment.unwrap_or("#")),
        RowKind::Heading | RowKind::Field | RowKind::Step => out.push_str(&row.text),
        RowKind::Ingredient => {
            for (cell, width) in row.cells.iter().zip(widths) {
                if width == 0 && cell.is_empty() {
                    continue;
                }
                out.push_str(cell);
                let gap = if widths == [0, 0] { 1 } else { GAP };
                blanks(out, width.saturating_sub(cell.width()) + gap);
            }
            // A count with no name: `30 cloves, toasted`.
            if row.text.starts_with([',', ';']) {
                trim_end(out, from);
            }
            out.push_str(&row.text);
            trim_end(out, from);
        }
    }
}

/// Takes the white space off the end of the line that starts at the byte `from`.
fn trim_end(out: &mut String, from: usize) {
    let kept = out.get(from..).map_or(0, |line| line.trim_end().len());
    out.truncate(from + kept);
}

fn blanks(out: &mut String, count: usize) {
    out.extend(std::iter::repeat_n(' ', count));
}
