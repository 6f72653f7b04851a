//! One glass with two capacities.

use std::collections::BTreeMap;

use washline_book::{Record, Workspace};
use washline_measure::UnitKind;
use washline_syntax::{Key, Value};
use washline_text::{Place, fold};

use super::is_drink_in_use;
use crate::lines::in_line;
use crate::rule::rule;
use crate::run::within;
use crate::words::ml;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// How full a drink stands is reckoned with the glass that its card names. Where one book says
    /// 160 ml of its coupe here and 180 ml there, one of the two drinks will not stand as reckoned; or
    /// the shelf holds two, and the hand needs a word to tell them apart (`small`, `large`).
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe 160 ml, chilled
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
    ///   glass: coupe 190 ml, chilled
    ///   contains: none
    ///
    ///   60 ml    aged rum
    ///   22.5 ml  lime juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe 160 ml, chilled
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
    ///   glass: coupe 160 ml, chilled
    ///   contains: none
    ///
    ///   60 ml    aged rum
    ///   22.5 ml  lime juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "glass-of-two-sizes", Book, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "one of the two drinks will not stand in its glass as reckoned"
}

/// Capacities nearer than this are one glass, measured twice. Common practice, no source.
const SAME: f64 = 0.03;

/// Words that tell two glasses of one name apart.
const SIZES: &[&str] = &["small", "large", "big", "tall", "short", "double", "mini"];

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    let part = || {
        let (name, capacity, _) = stated(context)?;
        let span = record.field(Key::Glass)?.value_span;
        let line = (capacity.to_bits(), in_line(record, span), record.text(span));
        Some(Circle::of(&(record.book.as_deref(), name)).saying(&line))
    };
    if is_drink_in_use(context) { part().into_iter().collect() } else { Vec::new() }
}

fn find(workspace: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut known: BTreeMap<(Option<&str>, String), (f64, &Record, Place)> = BTreeMap::new();
    for &record in records {
        let Some((name, capacity, place)) = stated(&within(workspace, record)) else { continue };
        let first = known
            .entry((record.book.as_deref(), name.clone()))
            .or_insert((capacity, record, place));
        let (other, earlier, at) = *first;
        if (capacity - other).abs() > SAME * capacity.max(other) {
            let message = format!(
                "the {name} holds {} in {}, and {} in {}",
                ml(capacity),
                record.name,
                ml(other),
                earlier.name
            );
            sink.report(
                Report::on(record, place, message)
                    .help("measure it once and write that; tell two glasses apart by `small` or `large`")
                    .related(at, format!("{} here", ml(other))),
            );
        }
    }
}

/// The glass of a drink by its words of size and name, and the capacity that the card states, ml.
fn stated(context: &Context<'_>) -> Option<(String, f64, Place)> {
    let record = context.record;
    let field = record.field(Key::Glass)?;
    let Value::Vessel { name, capacity, words } = &field.value else { return None };
    let measure = capacity.as_ref()?;
    let unit = measure.unit?;
    if !matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary) {
        return None;
    }
    let one = unit.ml(context.settings.ounce)?.to_f64();
    let mut called = String::new();
    for word in words.iter().map(|word| fold(record.text(*word))) {
        if SIZES.contains(&word.as_str()) {
            called.push_str(&word);
            called.push(' ');
        }
    }
    called.push_str(&fold(record.text(*name)));
    let capacity = measure.quantity.middle().to_f64() * one;
    Some((called, capacity, record.place(field.value_span)))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn the_second_size_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  glass: coupe 160 ml, chilled
drink: B
  glass: Coupe 190 ml
         ^^^^^^^^^^^^
drink: C
  glass: highball 300 ml
",
        );
    }

    #[test]
    fn both_sizes_are_said() {
        let text = "drink: A\n  glass: coupe 160 ml\ndrink: B\n  glass: coupe 190 ml\n";
        let said = "the coupe holds 190 ml in B, and 160 ml in A";
        assert_eq!(message(&RULE, text, "").as_deref(), Some(said));
    }

    #[test]
    fn a_word_tells_two_glasses_apart() {
        check(
            &RULE,
            "drink: A\n  glass: coupe 160 ml, small\ndrink: B\n  glass: coupe 190 ml, large\n\
             drink: C\n  glass: small tulip 150 ml\ndrink: D\n  glass: tulip 200 ml\n",
        );
    }

    #[test]
    fn a_card_that_states_none_says_nothing_against_it() {
        check(&RULE, "drink: A\n  glass: coupe\ndrink: B\n  glass: coupe 190 ml\n");
    }

    #[test]
    fn ounces_and_millilitres_of_one_glass_agree() {
        check(&RULE, "drink: A\n  glass: coupe 6 oz\ndrink: B\n  glass: coupe 180 ml\n");
    }

    #[test]
    fn last_years_glass_is_left_alone() {
        check(
            &RULE,
            "drink: A\n  status: retired\n  glass: coupe 160 ml\ndrink: B\n  glass: coupe 190 ml\n",
        );
    }
}
