//! A thing whose number stands elsewhere, or nowhere: `lime wedge x2`, `ml 60 gin`, `egg white`.

use washline_measure::{Unit, UnitKind};
use washline_text::Edit;

use super::backwards::spaced;
use crate::amount::{number, unit};
use crate::reader::Reader;
use crate::slice::{gap, taken};
use crate::step::split::SMALL;

/// What is counted whole, beside what ends with the word for a piece (`lime wedge`).
const WHOLE: &[&str] = &["egg", "whole egg", "egg white", "egg yolk"];

/// Signs that part what is said of a thing from its name.
const APART: [char; 3] = [',', '#', '('];

/// The mend that puts the number first, and `1` before one thing that has none.
pub(super) fn mend(reader: &Reader<'_>, content: &str) -> Option<(String, Vec<Edit>)> {
    let text = turned(content)?;
    Some((format!("write `{text}`"), vec![reader.replace(content, text)]))
}

fn turned(content: &str) -> Option<String> {
    if content.contains(APART) {
        return None;
    }
    unit_first(content).or_else(|| counted(content)).or_else(|| one(content))
}

/// `ml 60 gin`
fn unit_first(content: &str) -> Option<String> {
    let (_, behind) = unit::at_start(content)?;
    let start = gap(behind);
    let (rest, _) = number(start).ok()?;
    let named = rest.starts_with(char::is_whitespace) && gap(rest).starts_with(char::is_alphabetic);
    let (unit, number) = (taken(content, behind), taken(start, rest));
    named.then(|| spaced(&format!("{number} {unit} {rest}")))
}

/// `lime wedge x2`, `x2 lime wedge`, `dash bitters x 2`, `dash x2 bitters`
fn counted(content: &str) -> Option<String> {
    let (count, name) = times(content)?;
    let name = match unit::at_start(&name).filter(|(_, behind)| !gap(behind).is_empty()) {
        Some((unit, behind)) => format!("{} {behind}", spelt(unit, count)),
        None => match unit::at_end(&name).filter(|(unit, _)| unit.kind() == UnitKind::Count) {
            Some((unit, before)) => format!("{before} {}", spelt(unit, count)),
            None => name,
        },
    };
    Some(spaced(&format!("{count} {name}")))
}

const fn spelt(unit: Unit, count: u32) -> &'static str {
    if count == 1 { unit.name() } else { unit.plural() }
}

/// Whether a line says how many of it there are by a sign: `x2`, `x 2`, at its end or in it.
pub(crate) fn is_counted(content: &str) -> bool {
    !content.contains(APART) && times(content).is_some()
}

/// How many there are, and the line without it.
fn times(content: &str) -> Option<(u32, String)> {
    let words: Vec<&str> = content.split_whitespace().collect();
    let mut counts = (0..words.len()).filter_map(|at| {
        let behind = words.get(at)?.strip_prefix(['x', 'X', '\u{d7}'])?;
        let (number, taken) =
            if behind.is_empty() { (*words.get(at + 1)?, 2) } else { (behind, 1) };
        let count = whole(number)?;
        // Behind a name `x2` ends the line: before more words it is no count of the name.
        let ends = at + taken == words.len();
        let opens = at == 0 || unit::whole(&words.get(..at)?.join(" ")).is_some();
        (ends != opens).then_some((count, at, taken))
    });
    let (count, at, taken) = counts.next_back()?;
    let name = [words.get(..at)?, words.get(at + taken..)?].concat().join(" ");
    name.starts_with(char::is_alphabetic).then_some((count, name))
}

/// A number of one or two digits, above nothing.
fn whole(number: &str) -> Option<u32> {
    let digits = number.len() <= 2 && number.bytes().all(|byte| byte.is_ascii_digit());
    number.parse().ok().filter(|count| digits && *count > 0)
}

/// One thing with no number: `egg white`, `lime wedge`.
fn one(content: &str) -> Option<String> {
    let is_piece = || {
        let (unit, _) = unit::at_end(content)?;
        let last = content.rsplit(' ').next()?;
        (unit.kind() == UnitKind::Count && last.eq_ignore_ascii_case(unit.name())).then_some(())
    };
    let whole = WHOLE.iter().any(|name| content.eq_ignore_ascii_case(name));
    // Many words, or small ones, are a sentence.
    let words = || content.split_whitespace();
    let small = words().any(|word| SMALL.contains(&word.to_ascii_lowercase().as_str()));
    let short = words().count() <= 3 && !small && !content.contains(['.', ':', ';']);
    (whole || short && is_piece().is_some()).then(|| format!("1 {}", spaced(content)))
}

#[cfg(test)]
mod tests {
    use super::turned;

    fn check(content: &str, expected: Option<&str>) {
        assert_eq!(turned(content).as_deref(), expected, "{content}");
    }

    #[test]
    fn the_number_comes_first() {
        check("lime wedge x2", Some("2 lime wedges"));
        check("lime wedge x 2", Some("2 lime wedges"));
        check("lime wedge \u{d7}2", Some("2 lime wedges"));
        check("x2 lime wedge", Some("2 lime wedges"));
        check("mint leaves x 8", Some("8 mint leaves"));
        check("egg white x1", Some("1 egg white"));
        check("ml 60 gin", Some("60 ml gin"));
        check("oz 3/4 lime juice", Some("3/4 oz lime juice"));
        check("dash bitters x 2", Some("2 dashes bitters"));
        check("dash x2 bitters", Some("2 dashes bitters"));
        check("bar spoon x 2 maraschino liqueur", Some("2 bsp maraschino liqueur"));
    }

    #[test]
    fn one_thing_is_one() {
        check("egg white", Some("1 egg white"));
        check("Egg", Some("1 Egg"));
        check("lime wedge", Some("1 lime wedge"));
        check("sugar cube", Some("1 sugar cube"));
    }

    #[test]
    fn how_many_nobody_says_is_not_guessed() {
        for content in [
            "gin",
            "mint leaves",
            "lime wedges",
            "soda",
            "as cold as it gets",
            "gin x",
            "x2",
            "x 2",
            "gin x 0",
            "gin x 500",
            "gin x2 rum",
            "dash",
            "ml 60",
            "ml",
            "over the lime wedge",
            "with a slice",
        ] {
            check(content, None);
        }
    }
}
