//! A table in columns.

use unicode_width::UnicodeWidthStr;

use super::words::words;

/// Between two columns.
const GUTTER: &str = "  ";

/// The rows of a table.
pub(super) struct Table {
    rows: Vec<Vec<String>>,
    /// Which columns stand to the right.
    right: Vec<bool>,
}

impl Table {
    /// A table under the headings of `line`.
    pub(super) fn headed(line: &str) -> Self {
        Self { rows: vec![cells(line).collect()], right: Vec::new() }
    }

    /// Adds a row, or the rule that says how the columns stand.
    pub(super) fn row(&mut self, line: &str) {
        let is_rule =
            line.contains('-') && line.chars().all(|c| matches!(c, '|' | '-' | ':' | ' '));
        if self.right.is_empty() && is_rule {
            self.right = cells(line).map(|cell| cell.ends_with("-:")).collect();
        } else {
            self.rows.push(cells(line).collect());
        }
    }

    /// The rows, each column as wide as its widest cell; a heading of nothing is left out.
    pub(super) fn lines(&self) -> Vec<String> {
        let columns = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        let width = |column| {
            let cell = |row: &Vec<String>| row.get(column).map_or(0, |cell: &String| cell.width());
            let below = self.rows.iter().skip(1).map(cell).max().unwrap_or(0);
            let heading = self.rows.first().map_or(0, cell);
            if below == 0 { 0 } else { below.max(heading) }
        };
        let widths: Vec<usize> = (0..columns).map(width).collect();
        self.rows.iter().map(|row| self.line(row, &widths)).collect()
    }

    fn line(&self, row: &[String], widths: &[usize]) -> String {
        let mut out = String::new();
        for (column, (cell, width)) in row.iter().zip(widths).enumerate() {
            if *width == 0 {
                continue;
            }
            let lacks = " ".repeat(width.saturating_sub(cell.width()));
            let right = self.right.get(column).copied().unwrap_or(false);
            let (before, behind) = if right { (&*lacks, "") } else { ("", &*lacks) };
            let gutter = if out.is_empty() { "" } else { GUTTER };
            out.extend([gutter, before, cell, behind]);
        }
        out.truncate(out.trim_end().len());
        out
    }
}

/// The cells of a row, without their marks.
fn cells(line: &str) -> impl Iterator<Item = String> {
    let inner = line.trim();
    let inner = inner.strip_prefix('|').unwrap_or(inner);
    let mut cells = vec![String::new()];
    let mut escaped = false;
    for c in inner.chars() {
        match cells.last_mut() {
            Some(cell) if escaped || c != '|' => cell.push(c),
            _ => cells.push(String::new()),
        }
        escaped = c == '\\' && !escaped;
    }
    // The last bar closes the row.
    if cells.last().is_some_and(|cell| cell.trim().is_empty()) {
        cells.pop();
    }
    cells.into_iter().map(|cell| words(cell.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_may_hold_a_bar() {
        let cells: Vec<String> = cells("| a \\| b | | `c` |").collect();
        assert_eq!(cells, ["a | b", "", "c"]);
    }

    #[test]
    fn a_heading_stands_over_something() {
        let mut table = Table::headed("| | range | its family |");
        table.row("|---|---|---|");
        table.row("| strength | 7 to 8 | |");
        assert_eq!(table.lines(), ["          range", "strength  7 to 8"]);
    }

    #[test]
    fn wide_letters_are_counted_as_wide() {
        let mut table = Table::headed("| 柚子 | 1 |");
        table.row("|---|---|");
        table.row("| yuzu | 2 |");
        assert_eq!(table.lines(), ["柚子  1", "yuzu  2"]);
    }
}
