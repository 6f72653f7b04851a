//! A word before the name that is nearly a unit, or that no one can size.

use washline_book::Read;
use washline_measure::{Unit, UnitKind};
use washline_reference::nearest::closest;
use washline_syntax::{Amount, LineKind};
use washline_text::{Span, fold};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `30 mll lemon juice` has a name that nothing knows, `mll lemon juice`, and the slip is in the
    /// unit: the word before it is within a letter or two of one, and the rest is known. Words such
    /// as `measure` and `glass` are units at one bar and another size at the next.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 mll lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: the units of volume, mass, bar measure and count.
    "unknown-unit", Notation, Error, Fixes::Unsafe, Check::Entry(find),
    why: "nobody can pour a measure that nobody knows"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for read in context.record.reads.iter().filter(|read| !read.known()) {
        let Some(slip) = before(context, read).or_else(|| behind(context, read)) else { continue };
        sink.report(report(context, &slip));
    }
}

/// A word that is no unit, what it may mean, and the name it stands by.
struct Slip<'a> {
    word: Span,
    meant: Option<&'static str>,
    name: &'a str,
}

/// Other ways to write a unit. One letter is read as it is printed: a small t is a teaspoon.
const WRITTEN: &[(&str, &str)] =
    &[("c", "cup"), ("C", "cup"), ("t", "tsp"), ("T", "tbsp"), ("cc", "ml"), ("mil", "ml")];

/// Words that each bar sizes for itself.
const UNSIZED: &[&str] = &[
    "measure", "measures", "glass", "glasses", "fifth", "fifths", "finger", "fingers", "count",
    "counts", "glug", "glugs", "squeeze", "squeezes", "tot", "tots",
];

/// Sizes of eggs and fruit, that look like a slip for a unit.
const SIZES: &[&str] = &["lg", "sm", "md", "med", "xl"];

/// Spellings of units other than the one of each.
const LONG: &[&str] = &[
    "ounce",
    "ounces",
    "teaspoon",
    "teaspoons",
    "tablespoon",
    "tablespoons",
    "barspoon",
    "barspoons",
    "gram",
    "grams",
    "litre",
    "litres",
    "liter",
    "liters",
];

/// The first word of the name, where it is near a unit or has no size, and the rest is known.
fn before<'a>(context: &Context<'a>, read: &Read) -> Option<Slip<'a>> {
    let record = context.record;
    let LineKind::Ingredient(line) = &record.entry.lines.get(read.line as usize)?.what else {
        return None;
    };
    let bare = matches!(&line.amount, Amount::Measures(sum) if matches!(
        sum.as_slice(), [only] if only.measure.unit.is_none()
    ));
    let (word, rest) = record.text(read.name_span).split_once(char::is_whitespace)?;
    let name = rest.trim_start();
    let name = name.strip_prefix("of ").unwrap_or(name).trim_start();
    let known = || !context.workspace.meaning(name, record).hits.is_empty();
    if !bare || SIZES.contains(&word) {
        return None;
    }
    let written = WRITTEN.iter().find(|(other, _)| *other == word).map(|(_, unit)| *unit);
    let meant = written.or_else(|| near(word, |_| true));
    if (meant.is_none() && !UNSIZED.contains(&fold(word).as_str())) || !known() {
        return None;
    }
    Some(Slip { word: Span::of(word, &record.entry.text), meant, name })
}

/// The last word of the name, where it is near what the thing is counted in: `8 mint leavs`.
fn behind<'a>(context: &Context<'a>, read: &Read) -> Option<Slip<'a>> {
    let record = context.record;
    let (name, word) = record.text(read.name_span).rsplit_once(char::is_whitespace)?;
    let long = word.chars().count() >= 4;
    let meant = near(word, |unit| unit.kind() == UnitKind::Count).filter(|_| long)?;
    let known = !context.workspace.meaning(name, record).hits.is_empty();
    let word = Span::of(word, &record.entry.text);
    known.then_some(Slip { word, meant: Some(meant), name })
}

/// The spelling of a unit that `word` is within a letter or two of.
fn near(word: &str, kind: impl Fn(Unit) -> bool) -> Option<&'static str> {
    let own = Unit::ALL.iter().filter(|unit| kind(**unit));
    let own = own.flat_map(|unit| [unit.name(), unit.plural()]);
    let long = LONG.iter().copied().filter(|long| Unit::from_words(long).is_some_and(&kind));
    // A unit of one letter is near to any two.
    let all = own.chain(long).filter(|name| name.len() > 1);
    closest(&fold(word), all.map(|name| (name, ())), 1).first().map(|(name, ())| *name)
}

fn report(context: &Context<'_>, slip: &Slip<'_>) -> Report {
    let word = context.record.text(slip.word);
    let Some(meant) = slip.meant else {
        let message = format!("`{word}` has another size at every bar");
        return Report::at(context, slip.word, message)
            .help(format!("write how much {} it is: in ml, oz or dashes", slip.name));
    };
    Report::at(context, slip.word, format!("`{word}` is no unit to measure {} in", slip.name))
        .help(format!("did you mean `{meant}`?"))
        .fix(format!("write `{meant}`"), false, vec![context.edit(slip.word, meant)])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, names, severity};
    use washline_text::Severity;

    #[test]
    fn the_word_is_told() {
        check(
            &RULE,
            "
drink: A
  60 mil gin
     ^^^
  2 dahses of orange bitters
    ^^^^^^
  1 teaspon sugar syrup
    ^^^^^^^
  2 measures rum
    ^^^^^^^^
  8 mint leavs
         ^^^^^
",
        );
        let text = "drink: A\n  30 mll gin\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some("`mll` is no unit to measure gin in"));
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn the_nearest_unit_is_offered() {
        let check = |line: &str, after: &str| {
            let text = format!("drink: A\n  {line}\n");
            let expected = format!("drink: A\n  {after}\n");
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(expected.as_str()), "{line}");
        };
        check("30 mll gin", "30 ml gin");
        check("1 ouce gin", "1 ounce gin");
        check("1 C sugar syrup", "1 cup sugar syrup");
        check("1 T sugar syrup", "1 tbsp sugar syrup");
        check("30 cc gin", "30 ml gin");
        check("8 mint leavs", "8 mint leaves");
        assert_eq!(fixed(&RULE, "drink: A\n  2 measures gin\n", ""), None);
    }

    #[test]
    fn the_name_is_not_told_again() {
        let found = names("drink: A\n  30 mll gin\n", "");
        assert!(!found.contains(&"unknown-ingredient"), "{found:?}");
    }

    #[test]
    fn a_name_that_is_unknown_whatever_its_first_word_is_silent() {
        check(
            &RULE,
            "
drink: A
  30 ml grumble juice
  2 mll grumble
  1 lg egg white
  60 dry gin
  1 large egg white
",
        );
    }

    #[test]
    fn a_known_name_is_silent() {
        check(
            &RULE,
            "
drink: A
  30 mal syrup
prep: Mal Syrup
  100 g sugar
",
        );
    }
}
