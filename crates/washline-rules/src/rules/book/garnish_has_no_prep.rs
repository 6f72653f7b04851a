//! A garnish that somebody has to make, and no prep says how.

use std::collections::{BTreeMap, BTreeSet};

use washline_book::{Read, Record, Referent, Workspace};
use washline_text::{Kind, Place, fold};

use super::{in_use, words};
use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// A dehydrated wheel or a candied peel takes a night to make. A card that asks for one with no
    /// prep behind it is found out when the jar is empty, and nobody has asked what it carries or how
    /// long it keeps. What is bought ready made has a `stock:` entry.
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
    ///   garnish: dehydrated lemon wheel
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
    ///   garnish: Dehydrated Lemon Wheel
    ///
    /// prep: Dehydrated Lemon Wheel
    ///   yields: 30 pieces
    ///   keeps: 4 weeks dry
    ///
    ///   4 lemons
    ///
    ///   - chop into thin wheels
    ///   - dry at 55 C for 10 hours
    ///   - cool, label
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "garnish-has-no-prep", Book, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "it takes a night to make, and no list says that somebody must"
}

/// Words that say that something was done to a garnish ahead of service.
const MADE: &[&str] = &[
    "dehydrated",
    "candied",
    "crystallised",
    "crystallized",
    "caramelised",
    "caramelized",
    "compressed",
    "tuile",
    "meringue",
    "brittle",
    "leather",
];

/// Where a made garnish is asked for.
type Asked<'a> = BTreeMap<String, Vec<(&'a Record, &'a Read)>>;

fn circles(context: &Context<'_>) -> Vec<Part> {
    if is_concerned(context.record) { vec![Circle::ONE.whole()] } else { Vec::new() }
}

fn is_concerned(record: &Record) -> bool {
    in_use(record)
        && match record.kind {
            Kind::Drink => record.garnishes.iter().any(|read| is_asked(record, read)),
            Kind::Prep | Kind::Stock => is_of_made(&words(&record.name)),
        }
}

fn find(_: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut asked: Asked<'_> = BTreeMap::new();
    let (drinks, others): (Vec<&Record>, Vec<&Record>) =
        records.iter().partition(|record| record.kind == Kind::Drink);
    for record in drinks {
        for read in &record.garnishes {
            if is_asked(record, read) {
                asked.entry(fold(&read.name)).or_default().push((record, read));
            }
        }
    }
    if asked.is_empty() {
        return;
    }
    let made: Vec<BTreeSet<String>> = others.iter().map(|record| words(&record.name)).collect();
    for uses in asked.values() {
        let Some((record, read)) = uses.first() else { continue };
        let wanted = words(record.text(read.span));
        if !made.iter().any(|made| is_of(made, &wanted)) {
            sink.report(report(record, read, uses));
        }
    }
}

/// Whether a prep is owed for a garnish.
fn is_asked(record: &Record, read: &Read) -> bool {
    is_made(record, read) && !is_known(read)
}

fn is_of_made(words: &BTreeSet<String>) -> bool {
    MADE.iter().any(|word| words.contains(*word))
}

fn is_made(record: &Record, read: &Read) -> bool {
    let said = fold(record.text(read.span));
    said.split(' ').any(|word| MADE.contains(&word))
}

/// Whether it is an entry of the books.
fn is_known(read: &Read) -> bool {
    read.referents().any(|referent| matches!(referent, Referent::Entry(_)))
}

/// Whether a prep makes what the garnish asks for: `Candied Peels` for `candied orange peel`.
fn is_of(made: &BTreeSet<String>, wanted: &BTreeSet<String>) -> bool {
    let has = |word: &String| {
        wanted.contains(word)
            || word.strip_suffix('s').is_some_and(|one| wanted.contains(one))
            || wanted.contains(&format!("{word}s"))
    };
    made.iter().any(|word| MADE.contains(&word.as_str()) && has(word))
        && made.iter().any(|word| !MADE.contains(&word.as_str()) && has(word))
}

fn report(record: &Record, read: &Read, uses: &[(&Record, &Read)]) -> Report {
    const MOST: usize = 8;
    let place = |record: &Record, read: &Read| -> Place { record.place(read.span) };
    let written = record.text(read.span).trim();
    let message = format!("{written} is made ahead, and no prep makes it");
    let mut report = Report::on(record, place(record, read), message)
        .help("write a `prep:` for it, or a `stock:` where it is bought");
    for (other, read) in uses.iter().skip(1).take(MOST) {
        report = report.related(place(other, read), format!("here too, in {}", other.name));
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings};

    #[test]
    fn it_is_told_once_with_the_drinks_it_touches() {
        let text = "
drink: A
  60 ml gin
  garnish: dehydrated lime wheel; mint sprig
           ^^^^^^^^^^^^^^^^^^^^^
drink: B
  60 ml rum
  garnish: Dehydrated lime wheel
";
        check(&RULE, text);
        let plain = text.replace("           ^^^^^^^^^^^^^^^^^^^^^\n", "");
        let found = findings(&plain, "");
        let one = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert_eq!(one.related.len(), 1);
    }

    #[test]
    fn a_prep_or_a_jar_stands_behind_it() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: candied orange peel
drink: B
  60 ml gin
  garnish: compressed pear
prep: Candied Peels
  200 g orange peel
  200 g sugar
stock: Compressed Pear
  contains: none
",
        );
    }

    #[test]
    fn another_thing_made_alike_is_no_prep_for_it() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: candied ginger slice
           ^^^^^^^^^^^^^^^^^^^^
drink: B
  60 ml gin
  garnish: candied fennel
           ^^^^^^^^^^^^^^
prep: Candied Orange
  200 g orange peel
",
        );
    }

    #[test]
    fn what_is_cut_to_order_needs_no_prep() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: lemon twist; 3 olives; grated nutmeg; brandied cherry; edible flower
drink: B
  60 ml gin
  garnish: orange peel, expressed
drink: C
  60 ml gin
  garnish: none
",
        );
    }

    #[test]
    fn drafts_and_last_years_list_may_lack_it() {
        check(
            &RULE,
            "
drink: A
  status: draft
  garnish: honey tuile
drink: B
  status: retired
  garnish: honey tuile
",
        );
    }

    #[test]
    fn words_behind_a_comma_count() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: lemon wheel, dehydrated
           ^^^^^^^^^^^^^^^^^^^^^^^
",
        );
    }
}
