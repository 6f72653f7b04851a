//! Costs or prices of one book in two currencies.

use std::collections::BTreeMap;

use washline_book::{Record, Workspace};
use washline_syntax::{Key, Value};
use washline_text::Span;

use super::in_use;
use crate::lines::in_line;
use crate::rule::rule;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// What is bought in two currencies, or in one that is written in two ways (`EUR` and `€`), is never
    /// added up: the drinks that pour both have no cost, and no limit holds them. Told once a book, at
    /// the currency that is written less often.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: duo
    ///   glass: old fashioned
    ///   ice: large cube
    ///   contains: none
    ///
    ///   45 ml  Row Brandy
    ///   15 ml  Row Kirsch
    ///
    ///   - stir with ice for 20 s, strain over one large cube
    ///   garnish: none
    ///
    /// stock: Row Brandy
    ///   kind: pear brandy
    ///   abv: 43 %
    ///   contains: none
    ///   pack: 700 ml
    ///   cost: 24.50 EUR
    ///
    /// stock: Row Kirsch
    ///   kind: kirsch
    ///   abv: 40 %
    ///   contains: none
    ///   pack: 700 ml
    ///   cost: 21.00 GBP
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: duo
    ///   glass: old fashioned
    ///   ice: large cube
    ///   contains: none
    ///
    ///   45 ml  Row Brandy
    ///   15 ml  Row Kirsch
    ///
    ///   - stir with ice for 20 s, strain over one large cube
    ///   garnish: none
    ///
    /// stock: Row Brandy
    ///   kind: pear brandy
    ///   abv: 43 %
    ///   contains: none
    ///   pack: 700 ml
    ///   cost: 24.50 EUR
    ///
    /// stock: Row Kirsch
    ///   kind: kirsch
    ///   abv: 40 %
    ///   contains: none
    ///   pack: 700 ml
    ///   cost: 24.80 EUR
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "two-currencies", Book, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "money of two kinds is not added up, so what pours both has no cost"
}

/// How often a currency is written, and a finding at the first.
struct Written {
    times: usize,
    report: Report,
}

// What is bought is one matter, what is sold another: a guest may pay in what the house does not.
const MONEY: [Key; 2] = [Key::Cost, Key::Price];

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    if !in_use(record) {
        return Vec::new();
    }
    let part = |key| {
        let field = record.field(key).filter(|_| money(record, key).is_some())?;
        let line = (in_line(record, field.value_span), record.text(field.value_span));
        Some(circle(record, key).saying(&line))
    };
    MONEY.into_iter().filter_map(part).collect()
}

fn circle(record: &Record, key: Key) -> Circle {
    Circle::of(&(key, record.book.as_deref()))
}

fn find(_: &Workspace, of: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    for key in MONEY {
        let mut books: BTreeMap<Option<&str>, BTreeMap<String, Written>> = BTreeMap::new();
        for record in records {
            let Some(currency) = money(record, key) else { continue };
            if circle(record, key) != of {
                continue;
            }
            let word = record.text(currency).trim().to_ascii_uppercase();
            let place = record.place(currency);
            let book = books.entry(record.book.as_deref()).or_default();
            let written = book.entry(word).or_insert_with(|| Written {
                times: 0,
                report: Report::on(record, place, String::new()),
            });
            written.times += 1;
        }
        for currencies in books.into_values() {
            if let Some(report) = report(key, currencies) {
                sink.report(report);
            }
        }
    }
}

/// The currency of a field that states money.
fn money(record: &Record, key: Key) -> Option<Span> {
    match &record.field(key)?.value {
        Value::Money { currency, .. } => Some(*currency),
        _ => None,
    }
}

fn report(key: Key, currencies: BTreeMap<String, Written>) -> Option<Report> {
    let mut all: Vec<(String, Written)> = currencies.into_iter().collect();
    all.sort_by_key(|(_, written)| std::cmp::Reverse(written.times));
    let (rare, written) = all.pop().filter(|_| !all.is_empty())?;
    let (usual, _) = all.first()?;
    let what = if key == Key::Cost { "cost" } else { "price" };
    let message = format!("this {what} is in {rare}, others of the book are in {usual}");
    Some(
        written
            .report
            .saying(message)
            .help(format!("write it in {usual}, as the rest of the book")),
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn the_rarer_one_is_pointed_at() {
        check(
            &RULE,
            "
stock: A
  cost: 20 GBP
           ^^^
stock: B
  cost: 20 EUR
stock: C
  cost: 21 EUR
",
        );
    }

    #[test]
    fn both_are_said() {
        let text = "stock: A\n  cost: 20 EUR\nstock: B\n  cost: 20 EUR\nstock: C\n  cost: 2 USD\n";
        let said = "this cost is in USD, others of the book are in EUR";
        assert_eq!(message(&RULE, text, "").as_deref(), Some(said));
    }

    #[test]
    fn a_sign_and_a_code_are_not_added_up_either() {
        let text = "stock: A\n  cost: 20 EUR\nstock: B\n  cost: 20 EUR\nstock: C\n  cost: €2\n";
        assert!(message(&RULE, text, "").is_some());
    }

    #[test]
    fn one_currency_in_any_case_is_one() {
        check(&RULE, "stock: A\n  cost: 20 EUR\nstock: B\n  cost: 20 eur\n");
    }

    #[test]
    fn what_is_bought_and_what_is_sold_may_differ() {
        check(&RULE, "stock: A\n  cost: 20 EUR\ndrink: B\n  price: 12 GBP\n");
    }

    #[test]
    fn what_is_no_longer_bought_is_left_alone() {
        check(&RULE, "stock: A\n  cost: 20 EUR\nstock: B\n  status: retired\n  cost: 20 GBP\n");
    }

    #[test]
    fn prices_are_held_to_each_other_too() {
        check(
            &RULE,
            "
drink: A
  price: 12 EUR
drink: B
  price: 12 EUR
drink: C
  price: 12 GBP
            ^^^
",
        );
    }
}
