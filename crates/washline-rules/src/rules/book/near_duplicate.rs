//! Two drinks that are the same in all but name.

use std::collections::BTreeMap;

use washline_book::{Read, Record, Referent, Workspace};
use washline_syntax::{Key, Role, Technique};
use washline_text::fold;

use super::is_drink_in_use;
use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// Two cards of one book with the same things in the same amounts, made, served and dressed the
    /// same way, are one drink under two names: sold twice, changed once. A `variant-of`, a numbered
    /// version, a retired card and a bottle of what is also sold by the glass are not.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// drink: Quarry Lane
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
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
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// drink: Quarry Lane
    ///   variant-of: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "near-duplicate", Book, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "one drink is sold under two names, and a change reaches only one of them"
}

/// Amounts nearer than this are the same. Common practice, no source.
const SAME: f64 = 0.05;
/// Drinks of the same things that are kept to compare with; beyond that a list is of one thing.
const KEPT: usize = 12;

/// The book and what is in the glass: what two drinks must share before the rest is looked at.
type Contents<'a> = (Option<&'a str>, Vec<(Referent, Role)>);

fn circles(context: &Context<'_>) -> Vec<Part> {
    if !is_drink_in_use(context) {
        return Vec::new();
    }
    contents(context.record).map(|contents| Circle::of(&contents).whole()).into_iter().collect()
}

fn find(_: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    if records.len() < 2 {
        return;
    }
    let mut known: BTreeMap<Contents<'_>, Vec<&Record>> = BTreeMap::new();
    for &record in records {
        let Some(contents) = contents(record) else { continue };
        let earlier = known.entry(contents).or_default();
        let double = earlier.iter().find(|other| is_double(record, other));
        match double {
            Some(other) => sink.report(report(record, other)),
            None if earlier.len() < KEPT => earlier.push(record),
            None => {}
        }
    }
}

/// `None` of one thing by itself, or where a line is not known.
fn contents(record: &Record) -> Option<Contents<'_>> {
    if record.unread || record.reads.len() < 2 {
        return None;
    }
    let lines = record.reads.iter().map(|read| Some((read.referent()?, read.role)));
    let mut lines: Vec<(Referent, Role)> = lines.collect::<Option<_>>()?;
    lines.sort_unstable();
    Some((record.book.as_deref(), lines))
}

fn is_double(a: &Record, b: &Record) -> bool {
    amounts_agree(a, b)
        && made(a) == made(b)
        && dressed(a) == dressed(b)
        && served(a) == served(b)
        && !are_related(a, b)
}

fn made(record: &Record) -> Vec<Technique> {
    let mut made: Vec<Technique> = record.method.mixes.iter().map(|mix| mix.technique).collect();
    made.sort_unstable();
    made
}

fn dressed(record: &Record) -> Vec<String> {
    let garnishes = record.garnishes.iter().map(|read| fold(record.text(read.span)));
    let mut dressed: Vec<String> = garnishes.collect();
    dressed.sort_unstable();
    dressed
}

fn served(record: &Record) -> Vec<String> {
    let terms = [Key::Ice, Key::Serve].into_iter().flat_map(|key| record.terms(key));
    terms.map(|(word, _)| fold(word)).collect()
}

/// The lines in an order that does not hang on how they are written.
fn sorted(record: &Record) -> Vec<&Read> {
    let mut lines: Vec<&Read> = record.reads.iter().collect();
    lines.sort_by(|a, b| {
        let key = |read: &Read| (read.referent(), read.role);
        key(a).cmp(&key(b)).then(a.volume().total_cmp(&b.volume()))
    });
    lines
}

fn amounts_agree(a: &Record, b: &Record) -> bool {
    sorted(a).iter().zip(sorted(b)).all(|(a, b)| match (a.ml, b.ml) {
        (Some(x), Some(y)) => (x.value - y.value).abs() <= SAME * x.value.max(y.value),
        _ => (&a.amount, a.unit) == (&b.amount, b.unit),
    })
}

/// Whether the books say that the two belong together.
fn are_related(a: &Record, b: &Record) -> bool {
    let root = |record: &Record| {
        record.field(Key::VariantOf).map(|field| fold(record.text(field.value_span)))
    };
    let of = |one: &Record, other: &Record| root(one).is_some_and(|root| *root == *other.key);
    let siblings = root(a).is_some() && root(a) == root(b);
    siblings || of(a, b) || of(b, a) || version_of(&a.key) == version_of(&b.key)
}

/// A name without the number of its version: `lantern #2`, `lantern no 2`.
fn version_of(key: &str) -> &str {
    let short = key.trim_end_matches(|c: char| c.is_ascii_digit());
    if short.len() == key.len() {
        return key;
    }
    let short = short.trim_end_matches(['#', ' ']);
    short.strip_suffix(" no").or_else(|| short.strip_suffix(" v")).unwrap_or(short)
}

fn report(record: &Record, other: &Record) -> Report {
    let message = format!("{} is {} in all but name", record.name, other.name);
    Report::on(record, record.name_place(), message)
        .help(format!(
            "take one off the list, or write `variant-of: {}` where it is meant",
            other.name
        ))
        .related(other.name_place(), format!("{}, with the same things in it", other.name))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    fn two(second: &str, lines: &str) -> String {
        format!(
            "drink: Lantern Row\n  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n  \
             - shake with ice, strain\n  garnish: lemon twist\n{second}{lines}"
        )
    }

    #[test]
    fn order_and_a_drop_more_make_no_other_drink() {
        check(
            &RULE,
            "
drink: Lantern Row
  60 ml gin
  20 ml lemon juice
  20 ml sugar syrup, 1:1
  - shake with ice, strain
drink: Quarry Lane
       ^^^^^^^^^^^
  20.5 ml sugar syrup, 1:1
  20 ml lemon juice
  60 ml gin
  - shake with ice, strain
",
        );
    }

    #[test]
    fn both_names_are_said() {
        let lines = "  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n  \
                     - shake with ice, strain\n  garnish: lemon twist\n";
        let said = message(&RULE, &two("drink: Quarry Lane\n", lines), "");
        assert_eq!(said.as_deref(), Some("Quarry Lane is Lantern Row in all but name"));
    }

    #[test]
    fn variants_versions_and_last_years_card_are_meant() {
        let lines = "  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n  \
                     - shake with ice, strain\n  garnish: lemon twist\n";
        for heading in [
            "drink: Quarry Lane\n  variant-of: Lantern Row\n",
            "drink: Lantern Row #2\n",
            "drink: Lantern Row No. 2\n",
            "drink: Quarry Lane\n  status: retired\n",
            "drink: Quarry Lane\n  status: draft\n",
        ] {
            check(&RULE, &two(heading, lines));
        }
    }

    #[test]
    fn another_amount_garnish_ice_or_make_is_another_drink() {
        let line = "  60 ml gin\n  20 ml lemon juice\n";
        for lines in [
            "  25 ml sugar syrup, 1:1\n  - shake with ice, strain\n  garnish: lemon twist\n",
            "  20 ml sugar syrup, 1:1\n  - shake with ice, strain\n  garnish: cherry\n",
            "  20 ml sugar syrup, 1:1\n  - stir with ice, strain\n  garnish: lemon twist\n",
            "  ice: crushed\n  20 ml sugar syrup, 1:1\n  - shake with ice, strain\n  \
             garnish: lemon twist\n",
            "  20 ml honey\n  - shake with ice, strain\n  garnish: lemon twist\n",
        ] {
            check(&RULE, &two("drink: Quarry Lane\n", &format!("{line}{lines}")));
        }
    }

    #[test]
    fn by_the_glass_and_by_the_bottle() {
        check(
            &RULE,
            "
drink: Red by the glass
  150 ml red wine
drink: Red by the bottle
  750 ml red wine
drink: White by the glass
  150 ml white wine
drink: White of the day
  150 ml white wine
",
        );
    }

    #[test]
    fn two_books_may_share_a_drink() {
        let one = "  60 ml gin\n  20 ml lemon juice\n  - shake with ice, strain\n";
        // A file names one book, so the two stand in one without a name here.
        let text = format!("book: North\ndrink: A\n{one}drink: B\n       ^\n{one}");
        check(&RULE, &text);
    }
}
