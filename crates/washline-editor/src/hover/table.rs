//! A table of figures in Markdown, whose columns stand below each other where nobody draws it.

use unicode_width::UnicodeWidthStr;

/// What a value is, the value with its unit, its range, what is said of it.
pub(super) type Row = [String; 4];

/// The column that stands to the right.
const VALUE: usize = 1;

/// The table of `rows`, the last column under the heading `said`; without that where nothing is
/// said. Nothing where there is no row.
pub(super) fn table(rows: &[Row], said: &str) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let heading = ["", "", "19 of 20 lie in", said].map(str::to_owned);
    let is_said = rows.iter().any(|[.., said]| !said.is_empty());
    let shown = if is_said { heading.len() } else { heading.len() - 1 };
    let all = || std::iter::once(&heading).chain(rows);
    let width = |column: usize| {
        let cells = all().filter_map(|row: &Row| row.get(column));
        cells.map(|cell: &String| cell.width()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..shown).map(width).collect();
    let mut out = String::from("\n");
    for (at, row) in all().enumerate() {
        line(&mut out, row, &widths);
        if at == 0 {
            rule(&mut out, &widths);
        }
    }
    out
}

/// A value and its unit, where it has one.
pub(super) fn joined(value: &str, unit: &str) -> String {
    [value, unit].join(" ").trim_end().to_owned()
}

fn line(out: &mut String, row: &Row, widths: &[usize]) {
    out.push_str("\n|");
    for (column, (cell, width)) in row.iter().zip(widths).enumerate() {
        let lacks = " ".repeat(width.saturating_sub(cell.width()));
        let (before, behind) = if column == VALUE { (&*lacks, "") } else { ("", &*lacks) };
        out.extend([" ", before, cell, behind, " |"]);
    }
}

fn rule(out: &mut String, widths: &[usize]) {
    out.push_str("\n|");
    for (column, width) in widths.iter().enumerate() {
        let dashes = "-".repeat(width + 1);
        out.extend([&*dashes, if column == VALUE { ":|" } else { "-|" }]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(cells: [&str; 4]) -> Row {
        cells.map(str::to_owned)
    }

    #[test]
    fn columns_stand_below_each_other() {
        let rows = [
            row(["strength", "16 % vol", "15.4 to 16.6", "in: 11.4 to 19.7"]),
            row(["crème", "8 °C", "", ""]),
        ];
        let expected = "\n
|          |          | 19 of 20 lie in | its family       |
|----------|---------:|-----------------|------------------|
| strength | 16 % vol | 15.4 to 16.6    | in: 11.4 to 19.7 |
| crème    |     8 °C |                 |                  |";
        assert_eq!(table(&rows, "its family"), expected);
    }

    #[test]
    fn a_column_of_nothing_is_left_out() {
        let rows = [row(["yield", "715 ml", "701 to 729", ""])];
        assert!(table(&rows, "its family").ends_with("| yield | 715 ml | 701 to 729      |"));
        assert_eq!(table(&[], "source"), "");
    }
}
