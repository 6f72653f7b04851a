//! Two values that can not both hold.

use washline_book::{Read, syrup_brix};
use washline_measure::{Unit, UnitKind};
use washline_syntax::{Field, Key, LineKind, Property, Value};
use washline_text::{Span, fold};

use crate::convert::millilitres;
use crate::rule::rule;
use crate::words::{ml, number};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A bottle has one strength, a syrup one sweetness, and a drink that contains nothing contains
    /// no milk. Where a line or an entry says two things that exclude each other, both are shown:
    /// two strengths, a Brix beside a ratio or a sugar content that it is not, `none` beside a
    /// word, parts that do not come to the total, a drink served up and on the rocks.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none, egg
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml sugar syrup, 1:1, 66 brix
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
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: properties and statements. Proof: 27 CFR 5.1, twice the per cent by volume. Brix of a
    /// ratio: by mass, as the definition of the degree has it.
    "clashing-values", Notation, Error, Fixes::None, Check::Entry(find),
    why: "one of the two is wrong, and the figures and the label follow whichever is read first"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for line in &context.record.entry.lines {
        let LineKind::Field(field) = &line.what else { continue };
        let found = none_and_more(context, field)
            .or_else(|| two_serves(context, field))
            .or_else(|| two_yields(context, field));
        if let Some(report) = found {
            sink.report(report);
        }
    }
    for read in context.record.reads.iter().filter(|read| read.properties.len() > 1) {
        if let Some(report) = two_properties(context, read) {
            sink.report(report);
        }
    }
    for found in [brix_and_sugar(context), part_and_total(context)].into_iter().flatten() {
        sink.report(found);
    }
}

/// `none` beside something.
fn none_and_more(context: &Context<'_>, field: &Field) -> Option<Report> {
    let (none, other) = match &field.value {
        Value::Terms(terms) => pair(context, terms.iter().copied())?,
        Value::Garnishes(list) => pair(context, list.iter().map(|garnish| garnish.name))?,
        _ => return None,
    };
    let record = context.record;
    let key = field.key?.word();
    let word = record.text(other);
    Some(
        Report::at(context, none, format!("`{key}` says none, and {word} beside it"))
            .help("keep `none` where there is nothing, else take it out")
            .related(record.place(other), format!("{word} is something")),
    )
}

/// `none` and something else among `spans`.
fn pair(context: &Context<'_>, mut spans: impl Iterator<Item = Span>) -> Option<(Span, Span)> {
    let says_none = |span: Span| context.record.text(span).eq_ignore_ascii_case("none");
    let first = spans.next()?;
    let is_none = says_none(first);
    let other = spans.find(|span| says_none(*span) != is_none)?;
    Some(if is_none { (first, other) } else { (other, first) })
}

/// Ways to serve that exclude each other.
const SERVES: &[(&str, &str)] = &[
    ("up", "rocks"),
    ("up", "long"),
    ("up", "down"),
    ("down", "rocks"),
    ("neat", "rocks"),
    ("neat", "long"),
    ("hot", "frozen"),
    ("hot", "rocks"),
];

fn two_serves(context: &Context<'_>, field: &Field) -> Option<Report> {
    let (Some(Key::Serve), Value::Terms(terms)) = (field.key, &field.value) else { return None };
    let record = context.record;
    let word = |span: &Span| fold(record.text(*span));
    let excludes = |a: &Span, b: &Span| {
        let (a, b) = (word(a), word(b));
        SERVES.iter().any(|(x, y)| (a == *x && b == *y) || (a == *y && b == *x))
    };
    let (at, second) = terms
        .iter()
        .enumerate()
        .find(|(at, later)| terms.iter().take(*at).any(|earlier| excludes(earlier, later)))?;
    let first = terms.iter().take(at).find(|earlier| excludes(earlier, second))?;
    let message = format!("a drink is not served {} and {} at once", word(first), word(second));
    Some(
        Report::at(context, *second, message)
            .help("keep the way it leaves the bar")
            .related(record.place(*first), format!("here it is {}", word(first))),
    )
}

/// Volumes are the same where they are as near as a jigger and a scale agree.
const SAME: f64 = 0.05;

fn apart(a: f64, b: f64) -> bool {
    (a - b).abs() > SAME * a.max(b)
}

fn two_yields(context: &Context<'_>, field: &Field) -> Option<Report> {
    let Value::Amount(first, Some(second)) = &field.value else { return None };
    let ounce = context.settings.ounce;
    let (a, b) = millilitres(first, ounce).zip(millilitres(second, ounce))?;
    if !apart(a, b) {
        return None;
    }
    let key = field.key?.word();
    let message = format!("`{key}` is {}, and {} in its bracket", ml(a), ml(b));
    Some(
        Report::at(context, field.value_span, message).help("measure it, and write one of the two"),
    )
}

/// What a property is of, its value, and the unit that it is said in.
type Stated = (&'static str, f64, &'static str);

fn stated(read: &Read, property: &Property) -> Option<Stated> {
    let spirit =
        || read.ingredient().is_some_and(|known| known.abv.is_some_and(|abv| abv.value > 0.0));
    Some(match property {
        Property::Abv(x) => ("strength", x.to_f64(), "% vol"),
        Property::Percent(x) if spirit() => ("strength", x.to_f64(), "% vol"),
        Property::Brix(x) => ("sweetness", x.to_f64(), "Brix"),
        Property::Ratio { .. } => ("sweetness", syrup_brix(property, read.ingredient())?, "Brix"),
        Property::Sugar(x) => ("sugar content", x.to_f64(), "g/100 ml"),
        Property::Acid(x) => ("acidity", x.to_f64(), "% acid"),
        Property::Fat(x) => ("fat content", x.to_f64(), "% fat"),
        Property::Salt(x) => ("salt content", x.to_f64(), "% salt"),
        _ => return None,
    })
}

/// How far two statements of one thing may lie apart: as far as labels and hand refractometers
/// do. Common practice, no source.
fn spread(what: &str) -> f64 {
    match what {
        "strength" => 0.5,
        "sweetness" => 3.0,
        "sugar content" => 2.0,
        _ => 0.5,
    }
}

fn two_properties(context: &Context<'_>, read: &Read) -> Option<Report> {
    let mut said: Vec<(Span, Stated)> = Vec::new();
    for (span, property) in &read.properties {
        let Some(one) = stated(read, property) else { continue };
        let clash = said
            .iter()
            .find(|(_, other)| other.0 == one.0 && (other.1 - one.1).abs() > spread(one.0));
        if let Some((first, other)) = clash {
            return Some(two_of(context, read, (*first, other), (*span, &one)));
        }
        said.push((*span, one));
    }
    None
}

fn two_of(
    context: &Context<'_>,
    read: &Read,
    (first, one): (Span, &Stated),
    (second, other): (Span, &Stated),
) -> Report {
    let record = context.record;
    let (written, earlier) = (record.text(second), record.text(first));
    let message = format!(
        "`{written}` is {} {}, `{earlier}` says {} {}: {} has one {}",
        number(other.1),
        other.2,
        number(one.1),
        one.2,
        read.name,
        one.0,
    );
    Report::at(context, second, message)
        .help("read the label or measure it, and keep one of the two")
        .related(record.place(first), format!("`{earlier}` stands here"))
}

/// A Brix and a sugar content that no one liquid has.
fn brix_and_sugar(context: &Context<'_>) -> Option<Report> {
    /// What a hand refractometer and a label are apart. Common practice, no source.
    const SPREAD: f64 = 0.1;
    let record = context.record;
    if context.is_drink() {
        return None;
    }
    let brix = record.number(Key::Brix)?;
    let sugar = record.number(Key::Sugar)?;
    let makeup = record.makeup.as_ref().filter(|makeup| makeup.liquid)?;
    let held = 100.0 * makeup.one.sugar;
    if (held - sugar).abs() <= SPREAD * held.max(sugar) {
        return None;
    }
    let (at, other) = (record.field(Key::Sugar)?, record.field(Key::Brix)?);
    let message = format!(
        "{} Brix is {} g of sugar in 100 ml, `sugar` says {}",
        number(brix),
        number(held),
        number(sugar)
    );
    Some(
        Report::at(context, at.value_span, message)
            .help("Brix is sugar by mass, `sugar` by volume: keep the one that was measured")
            .related(record.place(other.value_span), "the Brix stands here"),
    )
}

/// Parts of a stated size that do not come to the stated total.
fn part_and_total(context: &Context<'_>) -> Option<Report> {
    let record = context.record;
    if !context.is_drink() {
        return None;
    }
    let size = |key: Key| millilitres(&record.amount(key)?, context.settings.ounce);
    let part = size(Key::Part)?;
    let total = size(Key::Total)?;
    let in_parts = |read: &&Read| read.unit.map(Unit::kind) == Some(UnitKind::Part);
    let poured: f64 = record.reads.iter().filter(in_parts).map(Read::volume).sum();
    if poured <= 0.0 || !apart(poured, total) {
        return None;
    }
    let (at, other) = (record.field(Key::Total)?, record.field(Key::Part)?);
    let message =
        format!("parts of {} come to {}, `total` says {}", ml(part), ml(poured), ml(total));
    Some(
        Report::at(context, at.value_span, message)
            .help("keep `part` or `total`: either says the other")
            .related(record.place(other.value_span), "the part stands here"),
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, message, severity};
    use washline_text::Severity;

    #[test]
    fn two_strengths() {
        check(
            &RULE,
            "
drink: A
  60 ml rye whiskey, 43 % abv, 100 proof
                               ^^^^^^^^^
  30 ml rum, 57 %, 100 proof
                   ^^^^^^^^^
  30 ml gin, 50 % abv, 100 proof
",
        );
        let text = "drink: A\n  60 ml gin, 43 % abv, 100 proof\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`100 proof` is 50 % vol, `43 % abv` says 43 % vol: gin has one strength")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
        let found = findings(text, "");
        let found = found.iter().find(|finding| finding.rule == RULE.name);
        assert_eq!(found.map(|finding| finding.related.len()), Some(1));
    }

    #[test]
    fn two_sweetnesses() {
        check(
            &RULE,
            "
drink: A
  15 ml sugar syrup, 2:1, 50 brix
                          ^^^^^^^
  15 ml sugar syrup, 1:1, 2:1
                          ^^^
  15 ml sugar syrup, 2:1, 66 brix
  15 ml sugar syrup, 2:1, 65 brix
",
        );
        let text = "stock: A\n  kind: sugar syrup\n  brix: 66\n  sugar: 30 g/100 ml\n";
        let said = message(&RULE, text, "").unwrap_or_default();
        assert!(said.starts_with("66 Brix is 87"), "{said}");
    }

    #[test]
    fn fields_of_one_bottle() {
        check(
            &RULE,
            "
stock: A
  kind: sugar syrup
  brix: 66
  sugar: 30 g/100 ml
         ^^^^^^^^^^^
stock: B
  kind: sugar syrup
  brix: 66
  sugar: 870 g/l
stock: C
  kind: orange liqueur
  abv: 40 %
  sugar: 250 g/l
",
        );
    }

    #[test]
    fn none_beside_a_word() {
        check(
            &RULE,
            "
drink: A
  contains: none, milk
            ^^^^
  garnish: none; lemon twist
           ^^^^
  family: sour, none
                ^^^^
  ice: cubed
  60 ml gin
drink: B
  contains: none
  garnish: none
  60 ml gin
",
        );
    }

    #[test]
    fn two_ways_to_serve() {
        check(
            &RULE,
            "
drink: A
  serve: up, rocks
             ^^^^^
  60 ml gin
drink: B
  serve: bottled, up
  60 ml gin
drink: C
  serve: rocks, long
  60 ml gin
",
        );
    }

    #[test]
    fn parts_and_their_total() {
        check(
            &RULE,
            "
drink: A
  part: 30 ml
  total: 75 ml
         ^^^^^
  2 parts gin
  1 part dry vermouth
drink: B
  part: 30 ml
  total: 90 ml
  2 parts gin
  1 part dry vermouth
drink: C
  part: 1 oz
  total: 90 ml
  2 parts gin
  1 part dry vermouth
",
        );
    }

    #[test]
    fn a_yield_and_its_bracket() {
        check(
            &RULE,
            "
prep: A
  yields: 1 l (500 ml)
          ^^^^^^^^^^^^
  1 l gin
prep: B
  yields: 715 ml (24 oz)
  715 ml gin
prep: C
  yields: 700 ml (1 bottle)
  700 ml gin
",
        );
    }

    #[test]
    fn other_properties_side_by_side_are_silent() {
        check(
            &RULE,
            "
drink: A
  30 ml cream, 36 % fat, pasteurised
  15 ml lime juice, 6 % acid, clarified, chilled
  30 ml orange liqueur, 40 % abv, 250 g/l sugar
  30 ml cold brew coffee, hot
",
        );
    }
}
