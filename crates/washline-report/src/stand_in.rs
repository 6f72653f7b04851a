//! Stand-ins for the characters of a text that is measured by someone else's ruler.
//!
//! miette's reader counts columns by the width of characters. Every other output counts
//! units of text. So each unit goes through the reader as one character of width one, and
//! is put back afterwards.

use washline_text::Columns;

use crate::escape;
use crate::excerpt::Show;

/// The first of the private characters that stand in; none of them is ever shown as itself.
const FIRST: u32 = 0xf0000;
/// Stands for a unit that shows nothing.
const FILLER: char = '\u{10fffd}';

/// What stands in for what.
#[derive(Debug, Default)]
pub(crate) struct StandIns {
    columns: Columns,
    shown: Vec<String>,
}

impl StandIns {
    pub(crate) const fn new(columns: Columns) -> Self {
        Self { columns, shown: Vec::new() }
    }

    /// `text` with everything back in its place.
    pub(crate) fn undone(&self, text: &str) -> String {
        let mut out = String::with_capacity(text.len());
        for c in text.chars() {
            let nth = u32::from(c).checked_sub(FIRST).and_then(|n| usize::try_from(n).ok());
            match nth.and_then(|n| self.shown.get(n)) {
                _ if c == FILLER => {}
                Some(shown) => out.push_str(shown),
                None => out.push(c),
            }
        }
        out
    }

    fn push(&mut self, out: &mut String, shown: &str, units: usize) {
        let stands = u32::try_from(self.shown.len()).ok().and_then(|n| char::from_u32(FIRST + n));
        match stands.filter(|c| *c < FILLER && units > 0) {
            Some(stands) => {
                self.shown.push(shown.to_owned());
                out.push(stands);
                out.extend(std::iter::repeat_n(FILLER, units - 1));
            }
            None => out.extend(std::iter::repeat_n(FILLER, units)),
        }
    }

    fn units(&self, c: char) -> usize {
        match self.columns {
            Columns::Bytes => c.len_utf8(),
            Columns::Utf16 => c.len_utf16(),
            Columns::Scalars => 1,
        }
    }
}

impl Show for StandIns {
    fn letter(&mut self, out: &mut String, c: char) {
        if c.is_ascii_graphic() || c == ' ' {
            out.push(c);
            return;
        }
        let mut shown = String::new();
        escape::push(&mut shown, c);
        self.push(out, &shown, self.units(c));
    }

    fn cut_before(&mut self, out: &mut String, gone: &str) {
        let units = gone.chars().map(|c| self.units(c)).sum();
        self.push(out, "…", units);
    }

    fn cut_behind(&mut self, out: &mut String) {
        self.push(out, "…", 1);
    }

    fn mark(&mut self, out: &mut String, c: char) {
        self.push(out, "", self.units(c));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unit_is_one_character_until_it_is_put_back() {
        let text = "é\u{1f34b}\u{1b} gin";
        for (columns, units) in [(Columns::Scalars, 7), (Columns::Utf16, 8), (Columns::Bytes, 11)] {
            let mut stand_ins = StandIns::new(columns);
            let mut out = String::new();
            text.chars().for_each(|c| stand_ins.letter(&mut out, c));
            assert_eq!(out.chars().count(), units);
            assert_eq!(stand_ins.undone(&out), "é\u{1f34b}\\u{1b} gin");
        }
    }
}
