//! What the reader found wrong in the value of a field: its own reason, and money in the currency
//! that the file's other cards have.

use std::collections::BTreeMap;

use washline_reference::Market;
use washline_syntax::{Document, Entry, Field, Key, LineKind, Problem, Value};
use washline_text::Edit;

use crate::rules::notation::{missing_unit, unreadable_amount};
use crate::{Report, run::At};

/// `report` of `problem`, where it is of a field's value.
pub(crate) fn told(report: Report, problem: &Problem, at: &At<'_>) -> Report {
    let rules = [missing_unit::RULE.name, unreadable_amount::RULE.name];
    if !rules.contains(&problem.rule) {
        return report;
    }
    let Some(field) = field_of(&at.located.entry, problem) else { return report };
    let is_money = matches!(field.key, Some(Key::Price | Key::Cost));
    if problem.rule == missing_unit::RULE.name && is_money {
        return money(report, field, at).why("money of no currency is counted in no cost");
    }
    report.why("what this field says is left out, and the card counts as if it said nothing")
}

fn field_of<'e>(entry: &'e Entry, problem: &Problem) -> Option<&'e Field> {
    let at = entry.lines.partition_point(|line| line.span.start <= problem.span.start);
    match &entry.lines.get(at.checked_sub(1)?)?.what {
        LineKind::Field(field) => Some(field),
        _ => None,
    }
}

/// A number with no currency, mended with those that the file writes, most written first.
fn money(mut report: Report, field: &Field, at: &At<'_>) -> Report {
    /// More currencies than a file has.
    const MOST: usize = 3;
    let (Some(key), document) = (field.key, at.document) else { return report };
    let word = key.word();
    let number = field.value_span.text(&at.located.entry.text).trim();
    let same = written(document, |other| other == key);
    let known = if same.is_empty() { written(document, |_| true) } else { same };
    let usual =
        at.markets.first().map(|market| Currency { word: usual(*market).into(), before: false });
    if let Some(likely) = known.first().or(usual.as_ref()) {
        report = report.help(format!("write it like `{word}: {}`", likely.of(number)));
    }
    for currency in known.iter().take(MOST) {
        let text = currency.of(number);
        let edit = Edit::new(field.value_span.shift(at.located.start), text.clone());
        report = report.fix(format!("write `{text}`"), false, vec![(at.file, edit)]);
    }
    report
}

/// A currency as it is written, and whether before the number.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Currency {
    word: String,
    before: bool,
}

impl Currency {
    fn of(&self, number: &str) -> String {
        let word = &self.word;
        match (self.before, word.ends_with(char::is_alphabetic)) {
            (true, false) => format!("{word}{number}"),
            (true, true) => format!("{word} {number}"),
            (false, _) => format!("{number} {word}"),
        }
    }
}

/// The currencies of the fields of `document`, most written first.
fn written(document: &Document, is: impl Fn(Key) -> bool) -> Vec<Currency> {
    let mut times: BTreeMap<Currency, usize> = BTreeMap::new();
    for located in document.entries() {
        for line in &located.entry.lines {
            let LineKind::Field(field) = &line.what else { continue };
            let Value::Money { currency, .. } = &field.value else { continue };
            if field.key.is_some_and(&is) {
                let word = currency.text(&located.entry.text).to_owned();
                let before = currency.start == field.value_span.start;
                *times.entry(Currency { word, before }).or_default() += 1;
            }
        }
    }
    let mut times: Vec<(Currency, usize)> = times.into_iter().collect();
    times.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    times.into_iter().map(|(currency, _)| currency).collect()
}

/// The currency that most of a market pays in (ISO 4217).
const fn usual(market: Market) -> &'static str {
    match market {
        Market::Eu => "EUR",
        Market::Uk => "GBP",
        Market::Us => "USD",
        Market::Ca => "CAD",
        Market::AuNz => "AUD",
    }
}

#[cfg(test)]
mod tests {
    use crate::harness::{findings, fixed};
    use crate::rules::notation::missing_unit::RULE;

    fn help(text: &str, settings: &str) -> String {
        let found = findings(text, settings).into_iter().find(|finding| finding.rule == RULE.name);
        found.map(|finding| finding.help).unwrap_or_default()
    }

    const BARE: &str = "drink: A\n  price: 12\n  60 ml gin\n";

    #[test]
    fn the_currency_of_the_other_cards_is_offered() {
        for (other, mended) in [("9.50 EUR", "12 EUR"), ("£9", "£12"), ("USD 9", "USD 12")] {
            let other = format!("drink: B\n  price: {other}\n  60 ml rum\n");
            let text = format!("{BARE}{other}");
            let after = format!("{}{other}", BARE.replace("12", mended));
            assert_eq!(fixed(&RULE, &text, ""), Some(after));
            assert_eq!(help(&text, ""), format!("write it like `price: {mended}`"));
        }
    }

    #[test]
    fn the_example_is_of_the_market_and_no_mend() {
        assert_eq!(help(BARE, "market = \"uk\""), "write it like `price: 12 GBP`");
        assert_eq!(help(BARE, ""), "write it like `price: 24.50 EUR`");
        for settings in ["market = \"uk\"", ""] {
            assert_eq!(fixed(&RULE, BARE, settings), None);
        }
    }

    #[test]
    fn the_reason_is_of_the_field() {
        let why = |text: &str| {
            let found = findings(text, "").into_iter();
            let mut found =
                found.filter(|f| ["missing-unit", "unreadable-amount"].contains(&f.rule));
            found.next().map(|finding| finding.why).unwrap_or_default()
        };
        assert!(why("drink: A\n  strength: strong\n").starts_with("what this field says"));
        assert!(why("drink: A\n  part: 30\n").starts_with("what this field says"));
        assert!(why(BARE).starts_with("money of no currency"));
        assert!(why("drink: A\n  3/2 oz gin\n").starts_with("nobody can pour it"));
    }
}
