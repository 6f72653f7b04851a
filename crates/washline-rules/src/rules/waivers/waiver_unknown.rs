//! A waiver of a rule that does not exist.

use washline_book::Record;
use washline_reference::nearest::closest;
use washline_text::{Edit, Span};

use crate::rule::rule;
use crate::{Check, Fixes, Report, all};

rule! {
    /// # Why
    /// A waiver of a rule that nobody knows lets nothing off: what it was meant for is still
    /// told, or worse, was never looked at.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   waive: too-tarte because our guests like it sharp
    ///
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (3/4 oz) lemon juice
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
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: `waive: RULE because REASON`, with a rule of this list.
    "waiver-unknown", Waivers, Error, Fixes::Unsafe, Check::Waivers,
    why: "what it was meant to let off is not let off"
}

/// The finding at the rule's name.
pub(super) fn report(record: &Record, name: &str, span: Span) -> Report {
    let place = record.place(span);
    let near = closest(name, all().map(|rule| (rule.name, ())), 1);
    let report = Report::on(record, place, format!("no rule is called `{}`", record.text(span)));
    match near.first() {
        Some((rule, ())) => report.help(format!("did you mean `{rule}`?")).fix(
            format!("write `{rule}`"),
            false,
            vec![(place.file, Edit::new(place.span, *rule))],
        ),
        None => report.help("the names of all rules are in `washline explain`"),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed};

    #[test]
    fn the_nearest_rule_is_offered() {
        check(
            &RULE,
            "
drink: A
  waive: measure-disagrees because the old jigger
         ^^^^^^^^^^^^^^^^^
  1 oz (20 ml) gin
",
        );
        let text = "drink: A\n  waive: mesures-disagree because x\n  1 oz (20 ml) gin\n";
        let fixed = fixed(&RULE, text, "").unwrap_or_default();
        assert!(fixed.contains("waive: measures-disagree because x"));
    }

    #[test]
    fn a_rules_name_in_other_letters_is_known() {
        for name in ["Measures-Disagree", "measures disagree", "measures-disagree, no-ice"] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  waive: {name} because the old jigger\n  1 oz (20 ml) gin\n"
                ),
            );
        }
    }
}
