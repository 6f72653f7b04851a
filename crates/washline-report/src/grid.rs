//! Rows of words in columns of even width.

use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

use crate::escape;

/// A table in the making; each row may have its own number of cells.
#[derive(Debug, Default)]
pub(crate) struct Grid {
    rows: Vec<Vec<Cell>>,
}

#[derive(Debug)]
struct Cell {
    words: String,
    right: bool,
}

impl Grid {
    /// A new row.
    pub(crate) fn row(&mut self) -> &mut Self {
        self.rows.push(Vec::new());
        self
    }

    /// A cell of the last row, its words flush left.
    pub(crate) fn left(&mut self, words: &str) -> &mut Self {
        self.cell(words, false)
    }

    /// A cell of the last row, its words flush right.
    pub(crate) fn right(&mut self, words: &str) -> &mut Self {
        self.cell(words, true)
    }

    fn cell(&mut self, words: &str, right: bool) -> &mut Self {
        if let Some(row) = self.rows.last_mut() {
            row.push(Cell { words: escape::on_one_line(words).into_owned(), right });
        }
        self
    }

    /// Writes it, indented by two, two blanks between columns, nothing behind the last word.
    pub(crate) fn write(&self, out: &mut String) {
        let mut widths: Vec<usize> = Vec::new();
        for row in &self.rows {
            widths.resize(widths.len().max(row.len()), 0);
            for (width, cell) in widths.iter_mut().zip(row) {
                *width = (*width).max(cell.words.width());
            }
        }
        for row in &self.rows {
            let mut line = String::new();
            for (cell, width) in row.iter().zip(&widths) {
                let pad = width.saturating_sub(cell.words.width());
                let (before, after) = if cell.right { (pad, 0) } else { (0, pad) };
                let _ = write!(line, "  {:before$}{}{:after$}", "", cell.words, "");
            }
            out.push_str(line.trim_end());
            out.push('\n');
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_letters_keep_the_columns() {
        let mut grid = Grid::default();
        grid.row().left("日本").right("1").left("x");
        grid.row().left("pear").right("10").left("");
        let mut out = String::new();
        grid.write(&mut out);
        assert_eq!(out, "  日本   1  x\n  pear  10\n");
    }
}
