//! A waiver that does not say why.

use washline_book::Record;
use washline_text::{Edit, Span};

use crate::rule::rule;
use crate::{Check, Fixes, Report};

rule! {
    /// # Why
    /// A waiver is the house saying that it knows better. The next bar lead can only keep it,
    /// or drop it, if it says why. It acts all the same.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   waive: measures-disagree
    ///
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (1 oz)  lemon juice
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
    ///   waive: measures-disagree because our guests' card counts the squeeze
    ///
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (1 oz)  lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: `waive: RULE because REASON`.
    "waiver-without-reason", Waivers, Warning, Fixes::Unsafe, Check::Waivers,
    why: "whoever reads the book next cannot tell a decision from a slip"
}

/// The finding at the waiver's words.
pub(super) fn report(record: &Record, whole: Span) -> Report {
    let place = record.place(whole);
    let reason = Edit::insert(place.span.end, " because REASON");
    let words = record.text(whole);
    Report::on(record, place, format!("`{words}` is waived without a reason"))
        .help("write it as `waive: RULE because REASON`")
        .fix("add `because` with a reason to fill in", false, vec![(place.file, reason)])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_reason_is_asked_for() {
        check(
            &RULE,
            "
drink: A
  waive: measures-disagree
         ^^^^^^^^^^^^^^^^^
  1 oz (20 ml) gin
",
        );
        check(
            &RULE,
            "
drink: A
  waive: measures-disagree because the old jigger
  1 oz (20 ml) gin
",
        );
    }
}
