//! The Markdown of explanations as plain text, for clients that show their text as it comes.
//!
//! It reads what is written in this crate and in the pages of the rules, no more: bold, code,
//! links, escapes, headings, lists, tables, fenced blocks and forced line ends.

mod table;
mod words;

use table::Table;
use words::words;

/// How far a fenced block is set in.
const INSET: &str = "    ";

/// `markdown` as it reads without a renderer: tables in columns of the widths that a terminal
/// shows, paragraphs on one line each, no marks.
#[must_use]
pub fn plain(markdown: &str) -> String {
    let mut sheet = Sheet::default();
    let mut lines = markdown.lines().peekable();
    while let Some(line) = lines.next() {
        if is_fence(line) {
            let block = lines.by_ref().take_while(|line| !is_fence(line));
            block.for_each(|line| sheet.line(&format!("{INSET}{line}")));
        } else if is_row(line) {
            let mut table = Table::headed(line);
            while let Some(row) = lines.next_if(|line| is_row(line)) {
                table.row(row);
            }
            table.lines().iter().for_each(|line| sheet.line(line));
        } else if line.trim().is_empty() {
            sheet.gap();
        } else {
            sheet.prose(line);
        }
    }
    sheet.written.truncate(sheet.written.trim_end().len());
    sheet.written
}

/// What is written so far.
#[derive(Default)]
struct Sheet {
    written: String,
    /// The last line is of a paragraph that may go on.
    open: bool,
}

impl Sheet {
    /// A line by itself.
    fn line(&mut self, line: &str) {
        if !(self.written.is_empty() || self.written.ends_with("\n\n")) {
            self.written.push('\n');
        }
        self.written.push_str(line.trim_end());
        self.open = false;
    }

    /// An empty line between blocks.
    fn gap(&mut self) {
        if !(self.written.is_empty() || self.written.ends_with("\n\n")) {
            self.written.push_str("\n\n");
        }
        self.open = false;
    }

    /// A line of a paragraph, a heading or an item of a list.
    fn prose(&mut self, line: &str) {
        let text = line.trim_start_matches('#').trim();
        let heading = text.len() < line.trim().len();
        if self.open && !heading && !text.starts_with("- ") {
            self.written.push(' ');
            self.written.push_str(&words(text));
        } else {
            self.line(&words(text));
        }
        self.open = !(heading || line.ends_with("  "));
    }
}

fn is_fence(line: &str) -> bool {
    line.trim_start().starts_with("```")
}

fn is_row(line: &str) -> bool {
    line.starts_with('|')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;
    use crate::{Topic, completion, describe, hover};

    #[test]
    fn blocks_stand_as_they_are_meant() {
        let markdown = "**sour** (drink)\n\nmade of\nlines\n- one\n- two\n\n\n## Flagged:\n```pour\ndrink: A\n  1 `x`\n```\n30 ml  \n1 oz\n";
        let text = "sour (drink)\n\nmade of lines\n- one\n- two\n\nFlagged:\n    drink: A\n      1 `x`\n30 ml\n1 oz";
        assert_eq!(plain(markdown), text);
    }

    #[test]
    fn tables_stand_in_columns() {
        let markdown = "**A**\n\n| | | range |\n|---|---:|---|\n| strength | 7 % | 6 to 8 |\n| crème | 120 g | |\n\nallergens: egg";
        let text = "A\n\n                 range\nstrength    7 %  6 to 8\ncrème     120 g\n\nallergens: egg";
        assert_eq!(plain(markdown), text);
    }

    /// No mark of Markdown is left, and every line says something of its own accord.
    fn assert_plain(markdown: &str) {
        let text = plain(markdown);
        // What stands in a fenced block is a spec, letter for letter.
        let prose: Vec<&str> = text.lines().filter(|line| !line.starts_with(INSET)).collect();
        for mark in ["**", "`", "](", "|", "\\*", "\\_", "\\[", "##", "<http", "---"] {
            assert!(!prose.iter().any(|line| line.contains(mark)), "{mark} is left in\n{text}");
        }
        assert!(!text.contains("\n\n\n") && text.trim_end() == text, "{text:?}");
        let letters = |text: &str| text.chars().filter(|c| c.is_alphanumeric()).count();
        assert!(letters(&text) * 10 >= letters(markdown) * 9, "{markdown}\nbecame\n{text}");
    }

    #[test]
    fn everything_told_of_the_official_list_is_plain() {
        let house = House::at(include_str!("../../../tests/data/official.pour")).0;
        let file = washline_text::FileId(0);
        for offset in (0..house.text().len() as u32).step_by(7) {
            if let Some(hover) = hover(&house.workspace, file, offset) {
                assert_plain(&hover.markdown);
            }
        }
    }

    #[test]
    fn everything_told_of_words_on_offer_is_plain() {
        for text in ["drink: A\n  30 |", "drink: A\n  |", "drink: A\n  30 ml |", "drink: A\n  - |"]
        {
            let (house, at) = House::at(text);
            for item in completion(&house.workspace, at.file, at.offset) {
                let told = item.topic.and_then(|t| describe(&house.workspace, at.file, &t));
                told.iter().for_each(|markdown| assert_plain(markdown));
            }
        }
    }

    #[test]
    fn every_rule_is_told_plainly() {
        let house = House::at("|").0;
        for rule in washline_rules::all() {
            let told = describe(&house.workspace, washline_text::FileId(0), &Topic::rule(rule));
            assert_plain(&told.expect("a rule is told about"));
        }
    }
}
