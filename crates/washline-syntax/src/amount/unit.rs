//! Units as they are written.

use washline_measure::Unit;

use crate::slice::{gap, is_dash, skip, taken};

/// First words of units that have more than one.
const STARTERS: &[&str] =
    &["fl", "fluid", "us", "imp", "imperial", "bar", "oz", "weight", "wt", "wine"];

/// The longest unit has so many words.
const WORDS: usize = 3;
/// No unit is spelt longer than this.
const LONGEST: usize = 24;

/// The unit at the start of `text`, longest first, and what follows it. No letter,
/// digit, hyphen or apostrophe may follow; a full stop belongs to it.
#[must_use]
pub fn at_start(text: &str) -> Option<(Unit, &str)> {
    let mut spelt = Spelt::default();
    let first = spelt.word(text)?;
    let mut found = spelt.unit().filter(|_| ends(first)).map(|unit| (unit, first));
    let starts_more = first.starts_with([' ', '\t', '.', '\u{a0}']) && spelt.starts_more();
    if !starts_more {
        return found.map(|(unit, rest)| (unit, stop(text, rest)));
    }
    let mut rest = first;
    for _ in 1..WORDS {
        let next = gap(rest.strip_prefix('.').unwrap_or(rest));
        if next.len() == rest.len() || !spelt.push(' ') {
            break;
        }
        let Some(after) = spelt.word(next) else { break };
        if let Some(unit) = spelt.unit().filter(|_| ends(after)) {
            found = Some((unit, after));
        }
        rest = after;
    }
    found.map(|(unit, rest)| (unit, stop(text, rest)))
}

/// The unit that ends `name` (`mint leaves`, `bar spoons`), and the name before it.
/// None where nothing would be left.
#[must_use]
pub fn at_end(name: &str) -> Option<(Unit, &str)> {
    let name = name.trim_end();
    let mut cut = name.len();
    for _ in 0..2 {
        let before = name.get(..cut)?.trim_end();
        cut = before.rfind(char::is_whitespace).map(|at| at + 1)?;
        let word = name.get(cut..)?;
        let left = name.get(..cut)?.trim();
        if let Some((unit, "")) = at_start(word)
            && !left.is_empty()
        {
            return Some((unit, left));
        }
    }
    None
}

/// The unit that `text` is, and nothing else.
#[must_use]
pub fn whole(text: &str) -> Option<Unit> {
    at_start(text.trim()).filter(|(_, rest)| rest.is_empty()).map(|(unit, _)| unit)
}

/// A full stop behind a unit belongs to it, where no letter or digit touches it.
fn stop<'t>(text: &'t str, rest: &'t str) -> &'t str {
    let abbreviated = taken(text, rest).len() <= 6;
    match rest.strip_prefix('.') {
        Some(behind) if abbreviated && !behind.starts_with(char::is_alphanumeric) => behind,
        _ => rest,
    }
}

fn ends(rest: &str) -> bool {
    !rest.starts_with(|c: char| c.is_alphanumeric() || is_dash(c) || matches!(c, '\'' | '\u{2019}'))
}

/// Letters in lower case, on the stack.
#[derive(Default)]
struct Spelt {
    bytes: [u8; LONGEST],
    len: usize,
}

impl Spelt {
    /// Adds the word at the start of `text`, and gives what follows it.
    fn word<'t>(&mut self, text: &'t str) -> Option<&'t str> {
        let mut read = 0;
        for byte in text.bytes().take_while(u8::is_ascii_alphabetic) {
            if !self.push(char::from(byte.to_ascii_lowercase())) {
                return None;
            }
            read += 1;
        }
        (read > 0).then(|| skip(text, read))
    }

    /// Whether units of several words start so.
    fn starts_more(&self) -> bool {
        let first = self.bytes.first().copied().unwrap_or_default();
        let plausible = matches!(first, b'b' | b'f' | b'i' | b'o' | b'u' | b'w');
        plausible && STARTERS.contains(&self.text())
    }

    fn push(&mut self, c: char) -> bool {
        let place = self.bytes.get_mut(self.len);
        let (Some(place), Ok(byte)) = (place, u8::try_from(c)) else { return false };
        *place = byte;
        self.len += 1;
        true
    }

    fn text(&self) -> &str {
        self.bytes.get(..self.len).and_then(|bytes| str::from_utf8(bytes).ok()).unwrap_or("")
    }

    fn unit(&self) -> Option<Unit> {
        let common = self.bytes.get(..self.len).and_then(common);
        common.or_else(|| Unit::from_words(self.text()))
    }
}

/// The units of most lines, met without a search.
fn common(word: &[u8]) -> Option<Unit> {
    Some(match word {
        b"ml" => Unit::Ml,
        b"oz" => Unit::Oz,
        b"dash" | b"dashes" => Unit::Dash,
        b"g" => Unit::G,
        b"cl" => Unit::Cl,
        b"tsp" => Unit::Tsp,
        b"bsp" => Unit::Bsp,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, unit: Unit, rest: &str) {
        assert_eq!(at_start(text), Some((unit, rest)), "{text}");
    }

    #[test]
    fn every_unit_is_read_in_all_its_spellings() {
        for unit in Unit::ALL {
            check(unit.name(), *unit, "");
            check(&unit.plural().to_uppercase(), *unit, "");
        }
    }

    #[test]
    fn the_longest_unit_wins() {
        check("fl oz gin", Unit::Oz, " gin");
        check("fl. oz. gin", Unit::Oz, " gin");
        check("US fl oz gin", Unit::Oz, " gin");
        check("oz wt sugar", Unit::OzWt, " sugar");
        check("oz gin", Unit::Oz, " gin");
        check("imp oz gin", Unit::ImpOz, " gin");
        check("Fluid Ounces gin", Unit::Oz, " gin");
        check("bar spoon syrup", Unit::Bsp, " syrup");
        check("barspoons syrup", Unit::Bsp, " syrup");
        check("oz. gin", Unit::Oz, " gin");
        check("mL gin", Unit::Ml, " gin");
        check("cL", Unit::Cl, "");
        check("tblsp", Unit::Tbsp, "");
        check("pcs", Unit::Piece, "");
        check("kilo sugar", Unit::Kg, " sugar");
    }

    #[test]
    fn a_unit_ends_with_its_word() {
        for no in ["c", "t", "T", "m", "fifth", "measure", "glass", "dash-ing", "g's", "mlx", "l2"]
        {
            assert_eq!(at_start(no), None, "{no}");
        }
    }

    #[test]
    fn a_noun_trails() {
        assert_eq!(at_end("mint leaves"), Some((Unit::Leaf, "mint")));
        assert_eq!(at_end("sugar cube"), Some((Unit::Cube, "sugar")));
        assert_eq!(at_end("honey bar spoons"), Some((Unit::Bsp, "honey")));
        assert_eq!(at_end("cloves"), None);
        assert_eq!(at_end("egg white"), None);
    }
}
