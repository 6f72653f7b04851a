//! Two values that cannot both hold.

use washline_syntax::LineKind;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Sink};

mod fields;
mod properties;

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
        let found = fields::none_and_more(context, field)
            .or_else(|| fields::two_serves(context, field))
            .or_else(|| fields::two_yields(context, field));
        if let Some(report) = found {
            sink.report(report);
        }
    }
    for read in context.record.reads.iter().filter(|read| read.properties.len() > 1) {
        if let Some(report) = properties::two_properties(context, read) {
            sink.report(report);
        }
    }
    for found in
        [fields::brix_and_sugar(context), fields::part_and_total(context)].into_iter().flatten()
    {
        sink.report(found);
    }
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
